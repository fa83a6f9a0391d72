//! Hearing that is shared among machines.

use super::{DayArgs, HearingArgs};
use crate::office::pool::Part;
use clap::{Subcommand, ValueHint};
use std::path::PathBuf;

/// The examples that close the help of `pool`.
pub(super) const EXAMPLES: &str = "\
Examples:
  eavesdraft pool put monday/ /shared/monday           upload recordings to a folder that all machines see
  eavesdraft pool hear /shared/monday --part 2/8       on the second of eight machines
  eavesdraft pool status s3://walks/monday             how far along it is, in a bucket

Exit codes:
  0 done; 2 something could not be done, or a recording was skipped";

/// A heading of the options in the help.
const SHARE: &str = "What this machine hears";

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum PoolCommand {
    /// Upload the recordings of a folder, and of the folders inside it, to a pool
    ///
    /// A recording that is there already is not sent again.
    Put {
        /// The folder with the recordings
        #[arg(value_name = "FOLDER", value_hint = ValueHint::DirPath)]
        folder: PathBuf,
        /// The pool; a folder is made where it is missing
        #[arg(value_name = "POOL", value_hint = ValueHint::DirPath)]
        pool: String,
    },
    Hear(PoolHearArgs),
    /// Collect the words that a pool has, and draft a folder's recordings with them
    ///
    /// Does what `day` does without hearing anything. A recording that the pool has no words for is skipped and listed.
    /// Run it again when more is heard.
    Gather {
        #[command(flatten)]
        day: DayArgs,
        /// The pool
        #[arg(value_name = "POOL", value_hint = ValueHint::DirPath)]
        pool: String,
    },
    /// Show how many recordings of a pool are heard, can't be heard, and are still to be heard
    ///
    /// Counts for the model on this machine with the same options; if there is none, for each model that heard something.
    Status {
        /// The pool
        #[arg(value_name = "POOL", value_hint = ValueHint::DirPath)]
        pool: String,
        #[command(flatten)]
        hearing: HearingArgs,
    },
}

/// Hear a machine's part of a pool's recordings
///
/// What is heard already is left out, so a machine that was stopped continues where it was. A recording that can't be
/// heard is skipped with its reason and doesn't hold up the others.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct PoolHearArgs {
    /// The pool
    #[arg(value_name = "POOL", value_hint = ValueHint::DirPath)]
    pub pool: String,

    /// Hear part K of N
    ///
    /// Each recording is in one part, whatever else is in the pool. Without it the part is that of this task of an
    /// array job: JOB_COMPLETION_INDEX (Kubernetes) of EAVESDRAFT_PARTS, or what Slurm or AWS Batch set; outside of
    /// one, everything.
    #[arg(long, value_name = "K/N", help_heading = SHARE)]
    pub part: Option<Part>,

    /// Try again what was skipped
    #[arg(long, help_heading = SHARE)]
    pub retry: bool,

    #[command(flatten)]
    pub hearing: HearingArgs,
}
