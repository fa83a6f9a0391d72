//! What a run tells as it goes, for the progress that is shown, for `--json` and for the summary.

use super::outcome::DayOutcome;
use crate::model::{Draft, FollowUpKind};
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};

/// Something that happened.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "event", rename_all = "kebab-case")]
pub enum Event {
    /// What lies in the folder was looked at.
    Found {
        /// Recordings and stored words.
        files: usize,
        /// Visits that they are of.
        visits: usize,
        /// Visits with something to be done.
        to_do: usize,
        /// Seconds of sound to be heard, as far as the files tell.
        to_hear: f64,
    },
    /// Something to know that holds nothing up.
    Note {
        /// A sentence for a person.
        note: String,
    },
    /// A file waits, since it is still being copied.
    Waiting {
        /// The file.
        file: PathBuf,
    },
    /// A file has the same bytes as another, and is that one.
    Same {
        /// The file.
        file: PathBuf,
        /// The other one.
        other: PathBuf,
    },
    /// So much of a recording is heard.
    Hearing {
        /// The file.
        file: PathBuf,
        /// Seconds of it.
        done: f64,
    },
    /// A recording is heard.
    Heard {
        /// The file.
        file: PathBuf,
        /// Its length in seconds.
        length: f64,
        /// Seconds that it took.
        seconds: f64,
    },
    /// A visit is drafted, kept and written.
    Drafted(Row),
    /// Something is wrong with a file or a visit; it is skipped, and the others go on.
    Skipped(Skipped),
    /// The run is over.
    Finished {
        /// Visits that are drafted, now or before.
        visits: usize,
        /// Visits that were drafted in this run.
        drafted: usize,
        /// Seconds of sound that were heard in this run.
        heard: f64,
        /// Seconds that the run took.
        seconds: f64,
        /// Files that are skipped.
        skipped: usize,
        /// Files that are still being copied.
        waiting: usize,
        /// Whether it was stopped before the end.
        stopped: bool,
        /// The page of the day.
        page: PathBuf,
    },
}

impl Event {
    /// That the run is over, with what it came to.
    pub fn finished(outcome: &DayOutcome, page: &Path) -> Self {
        Self::Finished {
            visits: outcome.rows.len(),
            drafted: outcome.drafted,
            heard: outcome.heard,
            seconds: outcome.seconds,
            skipped: outcome.skipped.len(),
            waiting: outcome.waiting.len(),
            stopped: outcome.stopped,
            page: page.to_owned(),
        }
    }
}

/// A visit in the summary.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// What the visit is known by.
    pub id: String,
    /// The property.
    pub property: String,
    /// Its recordings.
    pub files: Vec<PathBuf>,
    /// The page with its scope.
    pub page: PathBuf,
    /// What came of it.
    #[serde(flatten)]
    pub tally: Tally,
}

/// A draft in numbers.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Tally {
    /// Lines.
    pub lines: usize,
    /// Lines that need review.
    pub flagged: usize,
    /// Photos that are still needed.
    pub photos: usize,
    /// Measurements that are still needed.
    pub measurements: usize,
    /// Length of the recordings in seconds; none for text.
    pub length: Option<f64>,
    /// Seconds that hearing took; none where nothing was heard.
    pub hearing: Option<f64>,
}

/// What can't be done, and why.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Skipped {
    /// The file.
    pub file: PathBuf,
    /// A sentence for a person.
    pub why: String,
}

impl Tally {
    /// A draft's numbers.
    pub fn of(draft: &Draft, hearing: Option<f64>) -> Self {
        let needed = |kind| draft.follow_ups.iter().filter(|one| one.kind == kind).count();
        Self {
            lines: draft.lines.len(),
            flagged: draft.lines.iter().filter(|line| line.needs_look()).count(),
            photos: needed(FollowUpKind::Photo),
            measurements: needed(FollowUpKind::Measure),
            length: draft.length.map(|length| length.seconds()),
            hearing,
        }
    }

    /// How many times quicker than it was spoken it was heard.
    pub fn speed(&self) -> Option<f64> {
        self.length
            .zip(self.hearing)
            .filter(|(_, hearing)| *hearing > 0.0)
            .map(|(length, hearing)| length / hearing)
    }
}
