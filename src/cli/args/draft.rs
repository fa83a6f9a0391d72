//! From recordings or words to a scope.

use super::{HearingArgs, PAPERS, RULES};
use clap::ValueHint;
use std::path::PathBuf;

/// The examples that close its help.
const EXAMPLES: &str = "\
Examples:
  eavesdraft draft walk.m4a
  eavesdraft draft monday/*.m4a --out scopes/
  eavesdraft draft walk.transcript.json --why
  echo 'On the front, two lights, detach and reset' | eavesdraft draft - --json

Exit codes:
  0 drafted; 1 with --strict while a line needs review; 2 a file could not be drafted";

/// Draft a scope of work from recordings or from words
///
/// A FILE is a recording (WAV, M4A, MP3, FLAC, Ogg, or the sound of an MP4 or MOV), a transcript that `hear` wrote,
/// WebVTT, SRT or plain text. Its content decides, not its name. `-` is standard input.
///
/// Writes NAME.scope.json and NAME.scope.html beside each FILE, for a recording also NAME.transcript.json and
/// NAME.vtt, and shows the draft. What comes from standard input is written only with --out.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct DraftArgs {
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

    /// Exit with 1 while a line needs review
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
