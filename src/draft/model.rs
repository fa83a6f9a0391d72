//! What a draft holds. The field names are the program's JSON.

use super::{Dimension, Flag, Measured, Slope};
use crate::span::Moment;
use crate::words::Clip;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// The structure every thing belongs to unless the narrator names another.
pub const HOUSE: &str = "house";

/// A side of a structure, left and right as seen from the street.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// The street side.
    Front,
    /// Right as seen from the street.
    Right,
    /// The back.
    Rear,
    /// Left as seen from the street.
    Left,
    /// No one side: all around, the whole roof, or none named yet.
    None,
}

/// Which part of the property a thing belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Area {
    /// Walls, openings, what hangs on them, and the roof's edge.
    Wall,
    /// The roof and what comes through it.
    Roof,
    /// Yard, fences, decks, what stands on the ground.
    Grounds,
}

/// Physical work on a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Work {
    /// Take a sound thing off, keep it, put it back.
    DetachReset,
    /// Take off, throw away, put new.
    RemoveReplace,
    /// Off and gone.
    Remove,
    /// New where none was.
    Install,
    /// Mend in place.
    Repair,
    /// Wash.
    Clean,
    /// Paint.
    Paint,
    /// Stain.
    Stain,
    /// Cover while others work.
    Protect,
}

/// What a quantity counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Pieces.
    Each,
    /// Running feet.
    Foot,
    /// Square feet.
    SquareFoot,
    /// A hundred square feet of roof or wall.
    Square,
    /// Two that belong together.
    Pair,
    /// A set.
    Set,
    /// A roll.
    Roll,
    /// A sheet.
    Sheet,
    /// A bundle.
    Bundle,
    /// A box or carton.
    Box,
    /// Inches.
    Inch,
    /// Yards.
    Yard,
}

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
    #[serde(default)]
    pub unplaced: Vec<Cleared>,
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

/// One thing, in one place, with one work.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// Stable: the same words of the same recording give the same id.
    pub id: String,
    /// `house`, or the structure the narrator named.
    pub structure: String,
    /// Where on the structure.
    pub side: Side,
    /// Wall, roof or grounds.
    pub area: Area,
    /// The catalogue's id; none where the thing isn't in it.
    pub item: Option<String>,
    /// The words that named it.
    pub said: String,
    /// What is to be done; none where it wasn't said.
    pub work: Option<Work>,
    /// How much; none where it wasn't said. The middle of a range.
    pub quantity: Option<f64>,
    /// The lower bound where a range was said, else the quantity.
    pub low: Option<f64>,
    /// The upper bound where a range was said, else the quantity.
    pub high: Option<f64>,
    /// What the quantity counts.
    pub unit: Unit,
    /// The narrator hedged the number.
    pub rough: bool,
    /// A dimension that describes the thing, not how much of it: `9 ft x 7 ft`, `3 in`.
    pub size: Option<String>,
    /// Material or style words.
    pub detail: Option<String>,
    /// Conditional: outside every total until a reviewer confirms it.
    pub only_if: bool,
    /// The chance, 0 to 1, that every field above is right.
    pub confidence: f64,
    /// Why a reviewer should look; sorted.
    pub flags: Vec<Flag>,
    /// The words this line came from, as they stand in the transcript.
    pub quote: String,
    /// The first and the last of those words, counted from 0 over the whole transcript; none where the first hearing
    /// has no such words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub words: Option<[u32; 2]>,
    /// When those words begin; none for text without times.
    pub start: Option<Moment>,
    /// When they end.
    pub end: Option<Moment>,
    /// What the recording was taken for the other time, where it was heard twice and the two don't give the same line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub other_reading: Option<String>,
    /// What else the words may mean, the likeliest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<Reading>,
    /// Which words and rules gave which field, in plain words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub why: Vec<Why>,
}

impl Line {
    /// Whether a reviewer has to settle something here.
    pub fn needs_look(&self) -> bool {
        self.flags.iter().any(|f| f.needs_look())
    }

    /// The line as another reading has it.
    pub fn read_as(&self, reading: &Reading) -> Line {
        let mut line = self.clone();
        let Reading { structure, side, item, work, quantity, low, high, unit, size, .. } = reading.clone();
        line.structure = structure.unwrap_or(line.structure);
        line.side = side.unwrap_or(line.side);
        line.item = item.or(line.item);
        line.work = work.or(line.work);
        if quantity.is_some() {
            (line.quantity, line.low, line.high, line.rough) = (quantity, low, high, low != high);
        }
        line.unit = unit.unwrap_or(line.unit);
        line.size = size.or(line.size);
        line
    }
}

/// Another reading of a line: the fields that it gives otherwise, and why it is offered.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// See [`Line::structure`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub structure: Option<String>,
    /// See [`Line::side`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// See [`Line::item`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub item: Option<String>,
    /// See [`Line::work`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub work: Option<Work>,
    /// See [`Line::quantity`]; comes with its bounds and its unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub quantity: Option<f64>,
    /// See [`Line::low`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// See [`Line::high`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<f64>,
    /// See [`Line::unit`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<Unit>,
    /// See [`Line::size`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<String>,
    /// Why it is offered, in plain words.
    pub because: Cow<'static, str>,
}

impl Reading {
    /// One that differs in nothing yet.
    pub(super) fn because(why: &'static str) -> Self {
        Self { because: Cow::Borrowed(why), ..Self::default() }
    }

    /// Whether it gives any field otherwise.
    pub(super) fn differs(&self) -> bool {
        let Self { structure, side, item, work, quantity, size, .. } = self;
        structure.is_some()
            || side.is_some()
            || item.is_some()
            || work.is_some()
            || quantity.is_some()
            || size.is_some()
    }
}

/// What gave a line one of its fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Why {
    /// The field: `item`, `work`, `quantity`, `side` …
    pub field: String,
    /// The rule's name in `grammars/`, or how the value was inferred.
    pub rule: String,
    /// The words.
    pub words: String,
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
    pub quantity: f64,
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
