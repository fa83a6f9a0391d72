//! What is typed. What it means is in `request`.

mod draft;
mod examples;
mod grammar;
mod hear;

#[cfg(feature = "compare")]
mod compare;
#[cfg(feature = "server")]
mod day;
#[cfg(feature = "papers")]
mod labels;
#[cfg(feature = "models")]
mod model;
#[cfg(feature = "papers")]
mod papers;
#[cfg(feature = "papers")]
mod photos;
#[cfg(feature = "pool")]
mod pool;
#[cfg(feature = "server")]
mod review;

#[cfg(feature = "compare")]
pub(super) use compare::CompareArgs;
#[cfg(feature = "server")]
pub(super) use day::{DayArgs, FolderArgs, WatchArgs};
pub(super) use draft::DraftArgs;
pub(super) use grammar::GrammarCommand;
pub(super) use hear::{HearArgs, HearingArgs};
#[cfg(feature = "papers")]
pub(super) use labels::LabelsArgs;
#[cfg(feature = "models")]
pub(super) use model::ModelCommand;
#[cfg(feature = "papers")]
pub(super) use papers::PapersArgs;
#[cfg(feature = "papers")]
pub(super) use photos::PhotoArgs;
#[cfg(feature = "pool")]
pub(super) use pool::{PoolCommand, PoolHearArgs};
#[cfg(feature = "server")]
pub(super) use review::ReviewArgs;

use clap::{Parser, Subcommand};
use clap_complete::Shell;

/// Headings that group the options in the help.
const PAPERS: &str = "What is written and shown";
const RULES: &str = "How it is done";
#[cfg(feature = "papers")]
const BESIDE: &str = "What stands beside the scope";

/// Turns a spoken walk-around of a house into a draft scope of work
///
/// Eavesdraft listens to a recording of someone who walks around a house and says what he sees, and drafts the scope of
/// work from it: one line for each thing, with its place, quantity, unit, size and work, the words it came from and
/// when they were said, and what a reviewer should look at. It works offline. Nothing leaves the machine unless you run
/// `pool`.
#[derive(Debug, Parser)]
#[command(name = "eavesdraft", version, max_term_width = 100, arg_required_else_help = true)]
#[command(after_help = examples::SHORT, after_long_help = examples::LONG)]
pub struct Args {
    #[command(subcommand)]
    pub(super) command: Command,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    Draft(DraftArgs),
    Hear(HearArgs),
    #[cfg(feature = "server")]
    Day(DayArgs),
    #[cfg(feature = "server")]
    Watch(WatchArgs),
    #[cfg(feature = "server")]
    Review(ReviewArgs),
    #[cfg(feature = "papers")]
    Papers(PapersArgs),
    #[cfg(feature = "compare")]
    Compare(CompareArgs),
    #[cfg(feature = "papers")]
    Labels(LabelsArgs),
    /// Share the hearing of many recordings among machines
    ///
    /// A POOL is a folder that all of them see, or a bucket of an S3-compatible store, as s3://BUCKET/FOLDER; key,
    /// region and endpoint come from the usual AWS_… variables. Recordings are voices from private homes: use a pool
    /// only where the office trusts the place and its machines.
    #[cfg(feature = "pool")]
    #[command(after_help = pool::EXAMPLES)]
    Pool {
        #[command(subcommand)]
        command: PoolCommand,
    },
    /// Fetch, build, verify or list speech models
    #[cfg(feature = "models")]
    #[command(after_help = model::EXAMPLES)]
    Model {
        #[command(subcommand)]
        command: ModelCommand,
    },
    /// Check the rules that drafts are made by
    Grammar {
        #[command(subcommand)]
        command: GrammarCommand,
    },
    /// Print completions for a shell
    #[command(after_help = examples::COMPLETIONS)]
    Completions {
        /// The shell
        shell: Shell,
    },
    /// Print a manual page
    #[command(hide = true)]
    Man {
        /// A subcommand; the program's own page without one
        command: Option<String>,
    },
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound() {
        Args::command().debug_assert();
    }
}
