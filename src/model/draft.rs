//! What a draft holds. The field names are the program's JSON.

use super::span::Moment;
use super::{Clip, Dimension, Exact, Line, Measured, Side, Slope, Unit, stored};
use serde::{Deserialize, Serialize};

/// A draft scope of work.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Draft {
    /// The recording or text the words came from: a file name without folders.
    pub source: String,
    /// SHA-256 of that file, in hexadecimal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub digest: Option<String>,
    /// Length of the recording in seconds; none for text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Moment>,
    /// What a person should know about the reading, for example that the file was cut off.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notices: Vec<String>,
    /// The recordings of the visit where there were several, in order: all times here are on one line of time, on which
    /// each begins at its `start`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clips: Vec<Clip>,
    /// The lines, in the order they were said.
    pub lines: Vec<Line>,
    /// Things looked at and cleared, or left alone.
    pub no_work: Vec<Cleared>,
    /// Things named in passing: no work, no number, and nothing left to do about them.
    #[serde(default)]
    pub mentioned: Vec<Cleared>,
    /// Words of work or a length that came to no line: what they are about could not be told.
    #[serde(default, alias = "unplaced")]
    pub unused: Vec<Cleared>,
    /// Photos to take, tapes to run, things to look into.
    pub follow_ups: Vec<FollowUp>,
    /// Widths and heights for the takeoff, in feet.
    pub dimensions: Vec<Dimension>,
    /// How steep the roof was said to be.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub slopes: Vec<Slope>,
    /// Faces as a person measured them in the review: they stand over what was said.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub measured: Vec<Measured>,
    /// Sums that were said; no lines, and held against them by the checks over the whole house.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub totals: Vec<SaidTotal>,
    /// Cautions that the things and works of this draft call for.
    pub cautions: Vec<Caution>,
}

/// A thing that was looked at and needs nothing, or is to be left alone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Cleared {
    /// See [`Line::structure`].
    pub structure: String,
    /// See [`Line::side`].
    pub side: Side,
    /// The catalogue's id.
    pub item: Option<String>,
    /// The words.
    pub quote: String,
    /// When they begin.
    pub start: Option<Moment>,
    /// When they end.
    pub end: Option<Moment>,
}

/// What is still to be done before the scope can be settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum FollowUpKind {
    /// A picture to take or to check.
    Photo,
    /// A tape to run.
    Measure,
    /// Something to look into or ask.
    Check,
}

/// A thing still to be done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FollowUp {
    /// Photo, measure or check.
    pub kind: FollowUpKind,
    /// See [`Line::structure`].
    pub structure: String,
    /// See [`Line::side`].
    pub side: Side,
    /// The catalogue's id; none where no one thing is meant.
    pub item: Option<String>,
    /// The words.
    pub quote: String,
    /// When they begin.
    pub start: Option<Moment>,
    /// When they end.
    pub end: Option<Moment>,
}

/// A sum that the narrator said: "eighty foot of gutter in all".
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SaidTotal {
    /// The catalogue's id.
    pub item: String,
    /// How much in all.
    #[serde(flatten, with = "stored::total")]
    pub quantity: Exact,
    /// What it counts; none where no unit was said, and the item's own is meant.
    pub unit: Option<Unit>,
    /// The words.
    pub quote: String,
    /// The first and the last of them, counted as those of a line.
    pub words: [u32; 2],
    /// When they begin.
    pub start: Option<Moment>,
    /// When they end.
    pub end: Option<Moment>,
}

/// A usual caution, called for by something in the draft.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Caution {
    /// Its name in `grammars/cautions.toml`.
    pub name: String,
    /// What to mind, in a sentence or two.
    pub text: String,
    /// Where the rule is published, or that it is common practice.
    pub source: String,
}
