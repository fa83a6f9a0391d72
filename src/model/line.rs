//! A line of a scope: one thing, in one place, with one work.

use super::span::Moment;
use super::{Area, Flag, Quantity, Side, Size, Unit, Work, stored};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

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
    /// How much; none where it wasn't said.
    #[serde(flatten, with = "stored::quantity")]
    pub quantity: Option<Quantity>,
    /// What the quantity counts.
    pub unit: Unit,
    /// The narrator hedged the number.
    pub rough: bool,
    /// A dimension that describes the thing, not how much of it: `9 ft x 7 ft`, `3 in`.
    pub size: Option<Size>,
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
        let Reading { structure, side, item, work, quantity, unit, size, .. } = reading.clone();
        line.structure = structure.unwrap_or(line.structure);
        line.side = side.unwrap_or(line.side);
        line.item = item.or(line.item);
        line.work = work.or(line.work);
        if let Some(quantity) = quantity {
            (line.quantity, line.rough) = (Some(quantity), quantity.is_range());
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
    /// See [`Line::quantity`]; comes with its unit.
    #[serde(flatten, with = "stored::other_quantity")]
    pub quantity: Option<Quantity>,
    /// See [`Line::unit`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<Unit>,
    /// See [`Line::size`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<Size>,
    /// Why it is offered, in plain words.
    pub because: Cow<'static, str>,
}

impl Reading {
    /// One that differs in nothing yet.
    pub(crate) fn because(why: &'static str) -> Self {
        Self { because: Cow::Borrowed(why), ..Self::default() }
    }

    /// Whether it gives any field otherwise.
    pub(crate) fn differs(&self) -> bool {
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
