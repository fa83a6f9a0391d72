//! A thing as it is followed through the talk: what is known of it so far.

use super::account::{Evidence, Field, Origin, Place, Quantity, Span};
use crate::language::numbers::Exact;
use crate::model::{Flag, Size, Work};
use std::collections::BTreeSet;

/// Work said of a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct WorkHeard {
    /// What is to be done.
    pub work: Work,
    /// Only on a condition.
    pub only_if: bool,
    /// How plainly it was said: 0 as "comes off", 1 as "new", 2 in so many words. The less gives way.
    pub firmness: u8,
    /// Said beforehand of a list; what is said of the thing itself holds instead.
    pub announced: bool,
    /// What told it.
    pub origin: Origin,
    /// The words.
    pub span: Span,
    /// How many of the thing this work falls on, where it is not all.
    pub of: Option<Exact>,
}

/// A thing in a place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Entity {
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
    pub size: Option<Size>,
    /// Material and style words.
    pub detail: Vec<usize>,
    /// What is to be done.
    pub works: Vec<WorkHeard>,
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
    pub(super) fn evidence_of_quantity(&self) -> usize {
        self.evidence.iter().find(|v| v.field == Field::Quantity).map_or(self.name.first, |v| v.span.first)
    }
}
