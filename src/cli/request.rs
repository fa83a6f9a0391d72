//! What is meant by what was typed.
//!
//! Nothing after this reads an argument: it has these requests, in which no two fields contradict each other.

use super::args::{CompareArgs, DayArgs, DraftArgs, FolderArgs, HearArgs, HearingArgs, WatchArgs};
use super::engine::Hearing;
use super::inputs::Input;
use super::photos::Photos;
use crate::cli::terminal::sheet::Depth;
use crate::model::Side;
use crate::office::day::Day;
use std::path::PathBuf;
use std::time::Duration;

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

/// What a line that needs a look does to the exit code.
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

/// A request to work through a day's folder.
#[derive(Debug)]
pub(super) struct DayRequest {
    pub day: Day,
    pub show: Show,
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

/// A request to hold a scope beside another list.
#[derive(Debug)]
pub(super) struct CompareRequest {
    pub ours: PathBuf,
    pub theirs: PathBuf,
    pub filing: Filing,
    pub show: Show,
    pub looks: Looks,
    /// A file that says what the columns hold.
    pub columns: Option<PathBuf>,
    /// Where to write how they were read.
    pub save_columns: Option<PathBuf>,
    pub sheet: Option<String>,
    /// The side of the house that faces north, where that is told.
    pub north: Option<Side>,
    pub photos: Option<Photos>,
    /// A folder of rules to lay over the built-in ones.
    pub grammar: Option<PathBuf>,
}

impl From<CompareArgs> for CompareRequest {
    fn from(args: CompareArgs) -> Self {
        let show = if args.json { Show::Json } else { Show::Page };
        Self {
            ours: args.ours,
            theirs: args.theirs,
            filing: Filing::new(args.out, show),
            show,
            looks: if args.strict { Looks::Forbidden } else { Looks::Allowed },
            columns: args.columns,
            save_columns: args.save_columns,
            sheet: args.sheet,
            north: args.north.map(Side::from),
            // Where they were taken is nothing for another party.
            photos: Photos::new(&args.photos, false),
            grammar: args.grammar,
        }
    }
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

impl From<DayArgs> for DayRequest {
    fn from(args: DayArgs) -> Self {
        let show = if args.json { Show::Json } else { Show::Page };
        let looks = if args.strict { Looks::Forbidden } else { Looks::Allowed };
        Self { show, looks, ..Self::from(args.folder) }
    }
}

impl From<WatchArgs> for DayRequest {
    fn from(args: WatchArgs) -> Self {
        let mut request = Self::from(args.folder);
        // What is still being copied is looked at again anyway.
        request.day.patient = false;
        request
    }
}

impl From<FolderArgs> for DayRequest {
    fn from(args: FolderArgs) -> Self {
        let FolderArgs { folder, out, visit, still, grammar, hearing } = args;
        let still = Duration::from_secs(still);
        Self {
            day: Day { folder, out, by: visit.into(), still, patient: true },
            show: Show::Page,
            looks: Looks::Allowed,
            grammar,
            hearing: hearing.into(),
        }
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
        Self { model: args.model, english: args.english, again: args.again.into(), jobs: args.jobs }
    }
}
