//! What reviewers decided, as labels.

use super::RULES;
use clap::ValueHint;
use std::path::PathBuf;

/// The examples that close its help.
const EXAMPLES: &str = "\
Examples:
  eavesdraft labels monday/                                 how the drafts did, by what was signed off
  eavesdraft labels monday/ --out labels/                   and the words with their scopes, to measure and train on
  eavesdraft labels monday/ --out labels/ --no-names        without names and addresses";

/// See how well drafts did, and export signed-off scopes as labeled narrations
///
/// Compares each draft in FOLDER with the scope that was signed off: how many lines without a flag were wrong, how many
/// right ones had a flag, how many were missing. Nothing in FOLDER is changed.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct LabelsArgs {
    /// A folder with reviewed drafts
    #[arg(value_name = "FOLDER", default_value = ".", value_hint = ValueHint::DirPath)]
    pub folder: PathBuf,

    /// Count the N recordings that were signed off last
    #[arg(long, value_name = "N", default_value_t = 100)]
    pub last: usize,

    /// Write the words with their scopes into DIR as labels.jsonl, a labeled narration a line
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub out: Option<PathBuf>,

    /// Strike out what looks like a name or an address; read the file before you pass it on
    #[arg(long, requires = "out")]
    pub no_names: bool,

    /// Lay the rules in DIR over the built-in ones
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = RULES)]
    pub grammar: Option<PathBuf>,
}
