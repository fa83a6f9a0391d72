//! What the reader makes of a narration: chances, each of something that words say.

use serde::{Deserialize, Serialize};

/// The sides a word may be told of, in the order of the chances: front, right, rear, left, no one side.
pub const SIDES: usize = 5;

/// The kinds of work, in the order of the chances: as `model::Work` lists them.
pub const WORKS: usize = 9;

/// The units, in the order of the chances: each, foot, square foot, square, pair, set, roll, sheet, bundle, inch, yard, box.
pub const UNITS: usize = 12;

/// The kinds of parts, in the order of the chances: photo, measure, check, wall, gable, opening, roof slope.
pub const PARTS: usize = 7;

/// All that the reader says of a narration.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Reading {
    /// For each word, where the narrator stands.
    pub sides: Vec<[f32; SIDES]>,
    /// Words that a line, or a thing that was cleared, may hang on, in order.
    pub anchors: Vec<Anchor>,
    /// Stretches that tell what is still to do, or what was measured, in order.
    pub parts: Vec<Part>,
}

/// A word that a line may hang on: the last of a name, or a number or a work that stands for a thing named before.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Anchor {
    /// The word.
    pub at: usize,
    /// Talk, a line, looked at and cleared.
    pub status: [f32; 3],
    /// What is to be done; each work by itself.
    pub works: [f32; WORKS],
    /// Only on a condition.
    pub only_if: f32,
    /// Someone should look at it.
    pub look: f32,
    /// What its quantity counts.
    pub unit: [f32; UNITS],
    /// The item, by its place in the catalogue; none for what isn't in it. The likeliest first.
    pub item: Vec<(Option<u16>, f32)>,
    /// The thing named before that it stands for, by its place among the input's things; none where it names the thing
    /// itself. The likeliest first.
    pub antecedent: Vec<(Option<usize>, f32)>,
    /// Where it is: where the narrator stands, unless its own words say otherwise.
    pub side: [f32; SIDES],
    /// How many or how much. The likeliest first.
    pub number: Vec<(Number, f32)>,
    /// How large each is, by the place among the input's amounts; none where it isn't said. The likeliest first.
    pub size: Vec<(Option<usize>, f32)>,
    /// The building, by its place among the input's structures; none for the house. The likeliest first.
    pub structure: Vec<(Option<usize>, f32)>,
}

/// Which number tells how much of a thing there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Number {
    /// None was said.
    Unsaid,
    /// One, as the singular says.
    One,
    /// An amount, by its place among the input's.
    Amount(usize),
}

/// A stretch of words that tells what is still to do, or what was measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// Its first word.
    pub first: usize,
    /// Its last word.
    pub last: usize,
    /// What it tells.
    pub kind: [f32; PARTS],
    /// Where.
    pub side: [f32; SIDES],
    /// The thing it is about, by its place among the input's things; none where it is about none. The likeliest first.
    pub item: Vec<(Option<usize>, f32)>,
    /// Its width: an amount by its place, and whether it is the second length of "nine by seven". The likeliest first.
    pub width: Vec<(Option<(usize, bool)>, f32)>,
    /// Its height, likewise.
    pub height: Vec<(Option<(usize, bool)>, f32)>,
}
