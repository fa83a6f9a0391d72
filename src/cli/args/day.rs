//! A folder of recordings, in one go or as they arrive.

use super::{HearingArgs, PAPERS, RULES};
use crate::office::day::VisitBy;
use clap::{ValueEnum, ValueHint};
use std::path::PathBuf;

/// The examples that close the help of `day`.
const DAY_EXAMPLES: &str = "\
Examples:
  eavesdraft day monday/                    draft every recording in the folder that is new
  eavesdraft day monday/ --out scopes/      write elsewhere, in the same folders
  eavesdraft day monday/ --json             an event a line, for another program
  eavesdraft review monday/                 then review the drafts

Exit codes:
  0 all is done; 1 with --strict while a line needs review; 2 something needs attention: a recording was skipped, a
  file is still being copied, or the run was stopped";

/// The examples that close the help of `watch`.
const WATCH_EXAMPLES: &str = "\
Examples:
  eavesdraft watch ~/recordings/            until Ctrl-C
  systemctl --user start eavesdraft-watch   as a service: see deploy/systemd";

/// Draft a day's recordings in one run
///
/// Finds the recordings in FOLDER and the folders inside it, drafts what is new or changed, and keeps it in the folder's
/// eavesdraft.sqlite. Writes what `draft` writes beside each recording, and day.html with every property. Run it again at
/// any time, whatever stopped it: nothing is done twice.
///
/// A property is named after its recording, or after the folder where the recorder named the recording ("REC_0413").
/// "14 Elm part 1" and "14 Elm part 2", and what a recorder named in one folder, are clips of one visit.
#[derive(Debug, clap::Args)]
#[command(after_help = DAY_EXAMPLES)]
pub(in crate::cli) struct DayArgs {
    #[command(flatten)]
    pub folder: FolderArgs,

    /// Print what happens as JSON, an event a line, and nothing else
    #[arg(long, help_heading = PAPERS)]
    pub json: bool,

    /// Exit with 1 while a line needs review
    #[arg(long, help_heading = PAPERS)]
    pub strict: bool,
}

/// A folder of recordings, and how they are done.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct FolderArgs {
    /// The folder with the recordings
    #[arg(value_name = "FOLDER", value_hint = ValueHint::DirPath)]
    pub folder: PathBuf,

    /// Write the files into DIR, in the same folders as in FOLDER, not beside the recordings
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = PAPERS)]
    pub out: Option<PathBuf>,

    /// What makes one visit of several recordings
    #[arg(long, value_name = "WHAT", value_enum, default_value_t = VisitArg::Names, help_heading = RULES)]
    pub visit: VisitArg,

    /// Wait until a file hasn't changed for so many seconds: it may still be being copied
    #[arg(long, value_name = "SECONDS", default_value_t = 5, help_heading = RULES)]
    pub still: u64,

    /// Lay the rules in DIR over the built-in ones
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = RULES)]
    pub grammar: Option<PathBuf>,

    #[command(flatten)]
    pub hearing: HearingArgs,
}

/// Do what `day` does as recordings arrive
///
/// Watches FOLDER, does what is new, and keeps at it until it is asked to end. Tells what it does on standard error, a
/// line a step.
#[derive(Debug, clap::Args)]
#[command(after_help = WATCH_EXAMPLES)]
pub(in crate::cli) struct WatchArgs {
    #[command(flatten)]
    pub folder: FolderArgs,
}

/// What makes one visit of several recordings.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(in crate::cli) enum VisitArg {
    /// What they are called, as told above
    Names,
    /// That they lie in one folder
    Folder,
    /// Nothing: each recording is a visit
    File,
}

impl From<VisitArg> for VisitBy {
    fn from(arg: VisitArg) -> Self {
        match arg {
            VisitArg::Names => VisitBy::Name,
            VisitArg::Folder => VisitBy::Folder,
            VisitArg::File => VisitBy::File,
        }
    }
}
