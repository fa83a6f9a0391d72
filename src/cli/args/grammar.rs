//! The rules.

use clap::{Subcommand, ValueHint};
use std::path::PathBuf;

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum GrammarCommand {
    /// Check the built-in rules, or those of a folder laid over them
    Check {
        /// A folder of rules
        #[arg(value_name = "DIR", value_hint = ValueHint::DirPath)]
        folder: Option<PathBuf>,
    },
}
