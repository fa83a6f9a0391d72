//! The lines of a record, with what became of each, and the events that did it.

use crate::model::{Line, wording};
use crate::output::job::Job;
use crate::output::rows::element;
use crate::scope::arrange::{Arranged, Numbered};
use crate::scope::review::{Entry, Event, LineState};
use serde::{Deserialize, Serialize};

/// The lines by how they count.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RecordLines {
    /// Those that count.
    pub lines: Vec<RecordLine>,
    /// The conditional ones, outside every total.
    pub to_confirm: Vec<RecordLine>,
    /// Those that a person dropped.
    pub dropped: Vec<RecordLine>,
}

/// How a line stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum RecordState {
    /// Needs review.
    Open,
    /// Part of the scope.
    Stands,
    /// No part of the scope any more.
    Dropped,
}

impl From<LineState> for RecordState {
    fn from(state: LineState) -> Self {
        match state {
            LineState::Flagged => Self::Open,
            LineState::Unflagged | LineState::Reviewed => Self::Stands,
            LineState::Dropped => Self::Dropped,
        }
    }
}

/// A line and what became of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RecordLine {
    /// Its number in every paper; none where it was dropped.
    pub number: Option<usize>,
    /// The thing in plain words.
    pub name: String,
    /// Its element in UNIFORMAT II.
    pub element: Option<String>,
    /// How it stands.
    pub state: RecordState,
    /// Why it was dropped.
    pub reason: Option<String>,
    /// Who touched it last.
    pub by: Option<String>,
    /// The line.
    #[serde(flatten)]
    pub line: Line,
}

/// An event, as it is told.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecordEvent {
    /// Its number, from 1.
    pub number: u64,
    /// Who.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
    /// What was done, in plain words.
    pub told: String,
}

impl RecordLines {
    pub(super) fn of(job: &Job) -> Self {
        let arranged = Arranged::new(&job.now);
        let numbered = |n: &Numbered| {
            let entry = job.scope.entry(&n.line.id).cloned();
            line(job, Some(n.number), &entry.unwrap_or_else(|| Entry::drafted(n.line.clone())))
        };
        let standing = arranged.places.iter().flat_map(|place| &place.lines);
        let dropped = job.scope.entries.iter().filter(|entry| entry.state == LineState::Dropped);
        Self {
            lines: standing.map(numbered).collect(),
            to_confirm: arranged.only_if.iter().map(numbered).collect(),
            dropped: dropped.map(|entry| line(job, None, entry)).collect(),
        }
    }
}

fn line(job: &Job, number: Option<usize>, entry: &Entry) -> RecordLine {
    let line = entry.line.clone();
    RecordLine {
        number,
        name: wording::item_of(&line),
        element: element(job.grammar, line.item.as_deref()).map(str::to_owned),
        state: entry.state.into(),
        reason: entry.reason.clone(),
        by: entry.by.clone(),
        line,
    }
}

impl RecordEvent {
    pub(super) fn of(event: &Event) -> Self {
        let Event { number, who, at, summary, .. } = event.clone();
        Self { number, who, at, told: summary }
    }
}
