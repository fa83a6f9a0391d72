//! What is typed. What it means is in `request`.

mod compare;
mod day;
mod draft;
mod hear;
mod papers;
mod photos;
mod pool;
mod review;
mod stock;

pub(super) use compare::CompareArgs;
pub(super) use day::{DayArgs, FolderArgs, WatchArgs};
pub(super) use draft::DraftArgs;
pub(super) use hear::{HearArgs, HearingArgs};
pub(super) use papers::PapersArgs;
pub(super) use photos::PhotoArgs;
pub(super) use pool::{PoolCommand, PoolHearArgs};
pub(super) use review::ReviewArgs;
pub(super) use stock::{GrammarCommand, ModelCommand};

use super::examples;
use clap::{Parser, Subcommand};
use clap_complete::Shell;

/// Headings that group the options in the help.
const PAPERS: &str = "What is written and shown";
const RULES: &str = "How it is done";
const BESIDE: &str = "What stands beside the scope";

/// Turns a spoken walk-around of a house into a draft scope of work
///
/// Eavesdraft hears a recording of someone who walks around a house and says what he sees, and drafts the scope of
/// work from it: a line a thing, with its place, quantity, unit, size and work, the words it came from and their
/// time, and what a reviewer should look at. It works offline; no sound and no word leaves the machine, unless `pool` is
/// told to share the hearing with others.
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
    Day(DayArgs),
    Watch(WatchArgs),
    Review(ReviewArgs),
    Papers(PapersArgs),
    Compare(CompareArgs),
    /// Share the hearing of many recordings among machines
    ///
    /// A POOL is a folder that all of them see, or a bucket of an S3-compatible store, as s3://BUCKET/FOLDER; key,
    /// region and endpoint come from the usual AWS_… variables. Recordings are voices from private homes: use a pool
    /// only where the office trusts the place and its machines.
    #[command(after_help = examples::POOL)]
    Pool {
        #[command(subcommand)]
        command: PoolCommand,
    },
    /// Fetch, build, verify or list speech models
    #[command(after_help = examples::MODEL)]
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
