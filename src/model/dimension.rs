//! What was measured for the takeoff: widths and heights and slopes that were said, and those that a person typed.

use super::span::Moment;
use super::{Exact, Side, stored};
use serde::{Deserialize, Serialize};

/// What kind of face was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shape {
    /// A wall: width by height.
    Wall,
    /// A gable: width by rise.
    Gable,
    /// A door or window opening: width by height.
    Opening,
    /// A roof slope: along the eave by up the rafter.
    RoofSlope,
    /// The two sides of a dormer: each a triangle, width by height. Only typed, never said.
    DormerSides,
    /// A hip or a valley: the run of the common rafters beside it. Only typed, never said.
    HipOrValley,
}

/// A width and a height the narrator measured, for the takeoff.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Dimension {
    /// See [`Line::structure`](super::Line::structure).
    pub structure: String,
    /// See [`Line::side`](super::Line::side).
    pub side: Side,
    /// What was measured.
    pub shape: Shape,
    /// Width in feet; none where only the height was said.
    #[serde(flatten, with = "stored::width_ft")]
    pub width_ft: Option<Exact>,
    /// Height in feet; none where only the width was said.
    #[serde(flatten, with = "stored::height_ft")]
    pub height_ft: Option<Exact>,
    /// The words.
    pub quote: String,
    /// When they begin.
    pub start: Option<Moment>,
    /// When they end.
    pub end: Option<Moment>,
}

/// How steep a roof slope was said to be: "six twelve", "four in twelve on the back".
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Slope {
    /// See [`Line::structure`](super::Line::structure).
    pub structure: String,
    /// The side whose slope it is; none for the whole roof.
    pub side: Side,
    /// Inches of rise in twelve of run.
    #[serde(flatten, with = "stored::rise")]
    pub rise: Exact,
    /// The words.
    pub quote: String,
    /// When they begin.
    pub start: Option<Moment>,
    /// When they end.
    pub end: Option<Moment>,
}

/// A face as a person measured it in the review. What is none here stands as it was said.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// See [`Line::structure`](super::Line::structure).
    pub structure: String,
    /// See [`Line::side`](super::Line::side).
    pub side: Side,
    /// What was measured; never an opening, which is measured by the size of its line.
    pub shape: Shape,
    /// Which of the faces of this shape on this side, from 1.
    pub number: usize,
    /// Its width; of a roof slope the length along the eave, of a hip or valley the run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<Typed>,
    /// Its height; of a roof slope the length up the rafter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<Typed>,
    /// Inches of rise in twelve of run, of a roof slope.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rise: Option<Typed>,
}

/// A measure as a person typed it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Typed {
    /// As typed: `26' 4"`, `6`; empty where what was said is wrong and nothing stands for it.
    pub text: String,
    /// Who.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
}

impl Measured {
    /// One that takes nothing from what was said.
    pub fn of(structure: &str, side: Side, shape: Shape, number: usize) -> Self {
        Self { structure: structure.to_owned(), side, shape, number, width: None, height: None, rise: None }
    }

    /// What it is known by.
    pub fn id(&self) -> String {
        let word = |value: serde_json::Value| value.as_str().unwrap_or_default().to_owned();
        let (side, shape) = (word(serde_json::json!(self.side)), word(serde_json::json!(self.shape)));
        format!("{}/{side}/{shape}/{}", self.structure, self.number)
    }
}
