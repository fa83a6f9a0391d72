//! What is meant by what was typed.
//!
//! Nothing after this reads an argument: it has these requests, in which no two fields contradict each other.

#[cfg(feature = "compare")]
mod compare;
#[cfg(feature = "server")]
mod day;

#[cfg(feature = "compare")]
pub(super) use compare::CompareRequest;
#[cfg(feature = "server")]
pub(super) use day::DayRequest;

use super::args::{DraftArgs, HearArgs, HearingArgs};
use super::engine::Hearing;
use super::inputs::Input;
use crate::output::parts::Depth;
use std::path::PathBuf;

/// Where documents go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Filing {
    /// Beside each input.
    Beside,
    /// Into a folder.
    Into(PathBuf),
    /// Nowhere.
    Nowhere,
}

/// What is shown of the results.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Show {
    /// A page for a reader.
    Page,
    /// JSON and nothing else.
    Json,
}

/// What a line that needs review does to the exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Looks {
    /// Nothing.
    Allowed,
    /// It makes it 1.
    Forbidden,
}

/// A request to draft.
#[derive(Debug)]
pub(super) struct DraftRequest {
    pub inputs: Vec<Input>,
    pub filing: Filing,
    pub show: Show,
    pub depth: Depth,
    pub looks: Looks,
    /// A folder of rules to lay over the built-in ones.
    pub grammar: Option<PathBuf>,
    pub hearing: Hearing,
}

/// A request to hear.
#[derive(Debug)]
pub(super) struct HearRequest {
    pub inputs: Vec<Input>,
    pub filing: Filing,
    pub show: Show,
    pub hearing: Hearing,
}

impl TryFrom<DraftArgs> for DraftRequest {
    type Error = anyhow::Error;

    fn try_from(args: DraftArgs) -> anyhow::Result<Self> {
        let show = if args.json { Show::Json } else { Show::Page };
        Ok(Self {
            inputs: Input::all(args.files)?,
            filing: Filing::new(args.out, show),
            show,
            depth: if args.why { Depth::Why } else { Depth::Lines },
            looks: if args.strict { Looks::Forbidden } else { Looks::Allowed },
            grammar: args.grammar,
            hearing: args.hearing.into(),
        })
    }
}

impl TryFrom<HearArgs> for HearRequest {
    type Error = anyhow::Error;

    fn try_from(args: HearArgs) -> anyhow::Result<Self> {
        let show = if args.json { Show::Json } else { Show::Page };
        let filing = Filing::new(args.out, show);
        Ok(Self { inputs: Input::all(args.files)?, filing, show, hearing: args.hearing.into() })
    }
}

impl Filing {
    /// Whoever asks for JSON on standard output gets files only where he says so.
    fn new(out: Option<PathBuf>, show: Show) -> Self {
        match (out, show) {
            (Some(folder), _) => Filing::Into(folder),
            (None, Show::Page) => Filing::Beside,
            (None, Show::Json) => Filing::Nowhere,
        }
    }
}

impl From<HearingArgs> for Hearing {
    fn from(args: HearingArgs) -> Self {
        Self {
            model: args.model,
            english: args.english,
            second_pass: args.second_listen.into(),
            jobs: args.jobs,
        }
    }
}
