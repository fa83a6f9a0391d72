//! From recordings to words.

use super::{PAPERS, RULES};
use crate::speech::SecondPass;
use clap::{ValueEnum, ValueHint};
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// The examples that close its help.
const EXAMPLES: &str = "\
Examples:
  eavesdraft hear walk.m4a
  eavesdraft hear monday/*.m4a --out words/
  eavesdraft hear walk.m4a --json | eavesdraft draft -";

/// Turn recordings into words
///
/// Writes NAME.transcript.json, which keeps each word with its times and the recognizer's doubt, and NAME.vtt, which
/// any player shows, beside each FILE. `eavesdraft draft` takes either.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct HearArgs {
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
pub(in crate::cli) struct HearingArgs {
    /// Hear with this model: any file that whisper.cpp reads
    ///
    /// Without it, the model that `eavesdraft model fetch` put into the store.
    #[arg(short, long, value_name = "PATH", value_hint = ValueHint::FilePath, help_heading = RULES)]
    pub model: Option<PathBuf>,

    /// Treat the speech as English, whatever language is recognized
    ///
    /// Recordings in another language are refused, because the rules know English only.
    #[arg(long, help_heading = RULES)]
    pub english: bool,

    /// What gets a second listen, with a second model
    ///
    /// Lines that come out differently the second time need review. Without the second model (see `eavesdraft model
    /// list`) nothing is heard twice.
    #[arg(long, value_name = "WHAT", value_enum, default_value_t = SecondPassArg::Doubtful, help_heading = RULES)]
    pub second_listen: SecondPassArg,

    /// Use N workers, one processor core each [default: as many as cores and free memory allow]
    #[arg(short, long, value_name = "N", help_heading = RULES)]
    pub jobs: Option<NonZeroUsize>,
}

/// What gets a second listen.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(in crate::cli) enum SecondPassArg {
    /// Nothing
    Nothing,
    /// What the first one is unsure of
    Doubtful,
    /// Everything
    All,
}

impl From<SecondPassArg> for SecondPass {
    fn from(arg: SecondPassArg) -> Self {
        match arg {
            SecondPassArg::Nothing => SecondPass::Never,
            SecondPassArg::Doubtful => SecondPass::Doubtful,
            SecondPassArg::All => SecondPass::Always,
        }
    }
}
