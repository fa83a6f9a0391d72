//! A thing as it was spoken of: what it is, and what the words around its name say of it.

use crate::language::numbers::Amount;
use crate::language::vocabulary::WordId;
use crate::model::Side;

/// The word that opens a noun phrase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Determiner {
    /// None: "gutter, twenty foot".
    #[default]
    Bare,
    /// "the", "that", "those".
    Definite,
    /// "a", "some".
    Indefinite,
    /// "no", "any".
    Negative,
}

/// A thing spoken of.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Thing {
    /// Its place in the catalogue; none where it isn't in it.
    pub item: Option<u16>,
    /// Recovered from words that only sound like it.
    pub sounds: bool,
    /// Said in the plural.
    pub plural: bool,
    /// The tokens of its name, first and one past the last.
    pub name: (usize, usize),
    /// The last word of its name.
    pub head: WordId,
    /// The word that opens it.
    pub determiner: Determiner,
    /// "another", "more", "the other".
    pub more: bool,
    /// "new gutter".
    pub new: bool,
    /// "all the screens", "both lights".
    pub every: bool,
    /// How much of it.
    pub amount: Option<Amount>,
    /// How many of that much: "two of the four screens".
    pub some: Option<Amount>,
    /// How large each is.
    pub size: Option<Amount>,
    /// Tokens of material and style words.
    pub detail: Vec<usize>,
    /// "the front gutter".
    pub side: Option<Side>,
    /// The preposition right before: it only tells where something else is.
    pub behind: Option<WordId>,
    /// Only the last word of a longer name, or a part of a thing: "that vent", "the wrap".
    pub short: bool,
    /// Nothing but its place in the sentence says that it is a thing to work on.
    pub weak: bool,
}
