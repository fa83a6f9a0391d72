//! What was understood of a narration: what goes out through the seam. Who reads this knows nothing of how the talk was
//! followed.

use crate::language::numbers::{Amount, Exact};
use crate::language::rules::Grammar;
use crate::model::{Flag, FollowUpKind, Shape, Side, Size, Unit, Work};
use std::collections::BTreeSet;

/// All that was understood.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Account {
    /// Things, in the order they were first spoken of.
    pub things: Vec<Thing>,
    /// Things that were looked at and need nothing, or are to be left alone.
    pub cleared: Vec<ClearedThing>,
    /// What is still to do.
    pub follow_ups: Vec<FollowUpSaid>,
    /// What was measured for the takeoff.
    pub dimensions: Vec<DimensionSaid>,
    /// How steep the roof is.
    pub slopes: Vec<RoofSlope>,
    /// Words of work and lengths that came to nothing.
    pub unused: Vec<Unused>,
    /// Totals that were said.
    pub totals: Vec<TotalSaid>,
}

/// A thing in a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing {
    /// What it is to the scope.
    pub status: Status,
    /// Its place in the catalogue; none where it isn't in it.
    pub item: Option<u16>,
    /// The words that named it.
    pub name: Span,
    /// The words that speak of it.
    pub span: Span,
    /// Where it stands.
    pub place: Place,
    /// How much.
    pub quantity: Option<Quantity>,
    /// The number that this one took the place of.
    pub replaced: Option<Quantity>,
    /// How large each is.
    pub size: Option<Size>,
    /// Tokens of material and style words.
    pub detail: Vec<usize>,
    /// What is to be done.
    pub works: Vec<WorkSaid>,
    /// Doubts that arose in the talk.
    pub flags: BTreeSet<Flag>,
    /// What gave the fields.
    pub evidence: Vec<Evidence>,
}

/// What a thing that was spoken of is to the scope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// It belongs in the scope: a line for each work.
    Scope,
    /// It was only brought up to speak of something on it, or to say what kind of house it is.
    Context,
    /// It was named in passing: no work, no number, and nothing left to do about it.
    Mentioned,
}

/// Work said of a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkSaid {
    /// What is to be done.
    pub work: Work,
    /// Only on a condition.
    pub only_if: bool,
    /// The words.
    pub span: Span,
    /// How many of the thing this work falls on, where it is not all.
    pub of: Option<Exact>,
}

/// Which words gave a field, and what made them give it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Evidence {
    /// The field.
    pub field: Field,
    /// What made the words give it.
    pub origin: Origin,
    /// The words.
    pub span: Span,
}

/// A field of a thing that words give.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// What it is.
    Item,
    /// Where it stands.
    Side,
    /// What is to be done.
    Work,
    /// How much.
    Quantity,
    /// How large each is.
    Size,
    /// That it needs nothing.
    NoWork,
}

impl Field {
    /// Its name in a draft.
    pub fn name(self) -> &'static str {
        match self {
            Self::Item => "item",
            Self::Side => "side",
            Self::Work => "work",
            Self::Quantity => "quantity",
            Self::Size => "size",
            Self::NoWork => "no_work",
        }
    }
}

/// What made words give a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// A rule, by its place among the rules.
    Rule(usize),
    /// An item of the catalogue, by its place in it.
    Item(u16),
    /// A thing that the catalogue doesn't have.
    NotInCatalogue,
    /// A side said of the thing itself.
    SaidOfThing,
    /// Where the narrator stood.
    NarratorStands,
    /// No side had been named yet.
    NoSideYet,
    /// A number.
    NumberSaid,
    /// "the same footage".
    SameAsBefore,
    /// Only the singular: one.
    Singular,
    /// A size.
    SizeSaid,
    /// "new gutter".
    NamedAsNew,
    /// It was looked at and cleared.
    LookedAt,
}

impl Origin {
    /// How a draft tells it: a rule by its name, an item by its id, the others in plain words.
    pub fn told(self, grammar: &Grammar) -> &str {
        match self {
            Self::Rule(rule) => &grammar.rules[rule].name,
            Self::Item(item) => &grammar.items[usize::from(item)].id,
            Self::NotInCatalogue => "not in the catalogue",
            Self::SaidOfThing => "said of the thing",
            Self::NarratorStands => "where the narrator stands",
            Self::NoSideYet => "none named yet",
            Self::NumberSaid => "number said",
            Self::SameAsBefore => "the same as before",
            Self::Singular => "said in the singular",
            Self::SizeSaid => "size said",
            Self::NamedAsNew => "named as new",
            Self::LookedAt => "looked at",
        }
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

/// Something still to do.
#[derive(Debug, Clone, PartialEq)]
pub struct FollowUpSaid {
    /// Photo, measure or check.
    pub kind: FollowUpKind,
    /// The thing, where one is meant.
    pub item: Option<u16>,
    /// Where.
    pub place: Place,
    /// The words.
    pub span: Span,
}

/// A width or a height that was measured, in feet.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionSaid {
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
pub struct RoofSlope {
    /// Where; no side for the whole roof.
    pub place: Place,
    /// Inches of rise in twelve of run.
    pub rise: Exact,
    /// The words.
    pub span: Span,
}

/// Words of work or a length that no line holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unused {
    /// The words.
    pub span: Span,
    /// Where the narrator stood.
    pub place: Place,
}

/// A total that was said.
#[derive(Debug, Clone, PartialEq)]
pub struct TotalSaid {
    /// The thing's place in the catalogue.
    pub item: u16,
    /// How much of it in all.
    pub amount: Amount,
    /// The words.
    pub span: Span,
}

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
