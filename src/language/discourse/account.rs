//! What was understood of a narration.

use crate::language::numbers::{Amount, Exact};
use crate::model::{Flag, FollowUpKind, Shape, Side, Unit, Work};
use std::collections::BTreeSet;

/// Tokens from the first to one past the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
}

impl Span {
    /// The smallest span that holds both.
    pub fn join(self, other: Self) -> Self {
        Self { first: self.first.min(other.first), end: self.end.max(other.end) }
    }
}

/// Where a thing stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The structure.
    pub structure: String,
    /// The side; none for all around and where none was named.
    pub side: Side,
    /// Whether the side, or that it is no one side, was said.
    pub named: bool,
}

/// Which words and which rule gave a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Evidence {
    /// The field.
    pub field: &'static str,
    /// The rule's name, or how it was inferred.
    pub rule: String,
    /// The words.
    pub span: Span,
}

/// How much was said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Quantity {
    /// Lower bound.
    pub low: Exact,
    /// Upper bound.
    pub high: Exact,
    /// The unit said; none where it is the item's own.
    pub unit: Option<Unit>,
    /// Hedged.
    pub rough: bool,
    /// Only implied, by "a" or by the singular.
    pub implied: bool,
}

/// Work said of a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkSaid {
    /// What is to be done.
    pub work: Work,
    /// Only on a condition.
    pub only_if: bool,
    /// How plainly it was said: 0 as "comes off", 1 as "new", 2 in so many words. The less gives way.
    pub firmness: u8,
    /// Said beforehand of a list; what is said of the thing itself holds instead.
    pub announced: bool,
    /// The rule's name.
    pub rule: String,
    /// The words.
    pub span: Span,
    /// How many of the thing this work falls on, where it is not all.
    pub of: Option<Exact>,
}

/// A thing in a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Entity {
    /// Its place in the catalogue; none where it isn't in it.
    pub item: Option<u16>,
    /// The words that named it.
    pub name: Span,
    /// The words that speak of it.
    pub span: Span,
    /// Where it stands.
    pub place: Place,
    /// Said in the plural.
    pub plural: bool,
    /// How much.
    pub quantity: Option<Quantity>,
    /// The number that this one took the place of.
    pub replaced: Option<Quantity>,
    /// How many pieces of what is measured were counted: two valleys.
    pub pieces: Option<Exact>,
    /// How many of them are spoken of at the moment: "two of them".
    pub subset: Option<Exact>,
    /// How large each is.
    pub size: Option<String>,
    /// Material and style words.
    pub detail: Vec<usize>,
    /// What is to be done.
    pub works: Vec<WorkSaid>,
    /// Looked at and cleared, or to be left alone: the words.
    pub cleared: Option<Span>,
    /// Taken back.
    pub scratched: bool,
    /// Only its place in a sentence says that it is a thing to work on.
    pub weak: bool,
    /// The narrator pointed it out: "there's a hose reel", "the AC's over here".
    pub presented: bool,
    /// Things listed in one breath have one number.
    pub group: usize,
    /// Doubts noted while listening.
    pub flags: BTreeSet<Flag>,
    /// What gave the fields.
    pub evidence: Vec<Evidence>,
}

impl Entity {
    /// The token where its number was said; where it was named if none was.
    pub fn evidence_of_quantity(&self) -> usize {
        self.evidence.iter().find(|v| v.field == "quantity").map_or(self.name.first, |v| v.span.first)
    }
}

/// A thing cleared.
#[derive(Debug, Clone, PartialEq)]
pub struct ClearedThing {
    /// Its place in the catalogue.
    pub item: Option<u16>,
    /// Where it stands.
    pub place: Place,
    /// The words.
    pub span: Span,
}

/// Words of work or a length that no line holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unplaced {
    /// The words.
    pub span: Span,
    /// Where the narrator stood.
    pub place: Place,
}

/// A sum that was said.
#[derive(Debug, Clone, PartialEq)]
pub struct SaidSum {
    /// The thing's place in the catalogue.
    pub item: u16,
    /// How much of it in all.
    pub amount: Amount,
    /// The words.
    pub span: Span,
}

/// Something still to do.
#[derive(Debug, Clone, PartialEq)]
pub struct Todo {
    /// Photo, measure or check.
    pub kind: FollowUpKind,
    /// The thing, where one is meant.
    pub item: Option<u16>,
    /// Where.
    pub place: Place,
    /// The words.
    pub span: Span,
}

/// A face that was measured, in feet.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// What it is.
    pub shape: Shape,
    /// Where.
    pub place: Place,
    /// Width, or along the eave; none where only the height was said.
    pub width: Option<Exact>,
    /// Height, or up the rafter; none where only the width was said.
    pub height: Option<Exact>,
    /// The words.
    pub span: Span,
}

/// How steep a roof slope is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Steepness {
    /// Where; no side for the whole roof.
    pub place: Place,
    /// Inches of rise in twelve of run.
    pub rise: Exact,
    /// The words.
    pub span: Span,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Account {
    /// Things, in the order they were first spoken of.
    pub entities: Vec<Entity>,
    /// Things still to do.
    pub todos: Vec<Todo>,
    /// Measured faces.
    pub faces: Vec<Face>,
    /// How steep roof slopes are.
    pub slopes: Vec<Steepness>,
    /// Things cleared that no entity stands for.
    pub cleared: Vec<ClearedThing>,
    /// Words of work and lengths that came to nothing.
    pub unplaced: Vec<Unplaced>,
    /// Sums that were said.
    pub sums: Vec<SaidSum>,
}
