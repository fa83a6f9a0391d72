//! Hearing that is shared among machines.

use super::{DayArgs, HearingArgs};
use crate::office::pool::Part;
use clap::{Subcommand, ValueHint};
use std::path::PathBuf;

/// The examples that close the help of `pool`.
pub(super) const EXAMPLES: &str = "\
Examples:
  eavesdraft pool put monday/ /shared/monday           recordings into a folder that all machines see
  eavesdraft pool hear /shared/monday --part 2/8       on the second of eight machines
  eavesdraft pool status s3://walks/monday             how far it has come, in a bucket

Exit codes:
  0 done; 2 something could not be done, or a recording is skipped";

/// A heading of the options in the help.
const SHARE: &str = "What this machine hears";

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum PoolCommand {
    /// Put the recordings of a folder, and of the folders in it, into a pool
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
    /// Draft a folder's recordings with the words that a pool has for them
    ///
    /// Does what `day` does, but hears nothing; what the pool has no words for is skipped and told. Run it again once more
    /// is heard.
    Gather {
        #[command(flatten)]
        day: DayArgs,
        /// The pool
        #[arg(value_name = "POOL", value_hint = ValueHint::DirPath)]
        pool: String,
    },
    /// Tell how many recordings of a pool are heard, can't be heard, and are to be heard yet
    ///
    /// Told for the model at hand, heard with the same options; where none is here, for each that heard something.
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
/// What is heard already is left out, so a machine that was stopped at any moment goes on where it was. A recording
/// that can't be heard is skipped with the reason and doesn't hold up the others.
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
