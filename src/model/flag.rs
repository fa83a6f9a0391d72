//! Why a reviewer should look at a line: one reason a variant, each with its sentence.

use serde::{Deserialize, Serialize};

/// A doubt about a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Flag {
    /// The narrator hedged the number. The number stands; no look is needed for this alone.
    RoughNumber,
    /// No number was said.
    NoNumber,
    /// No work was said.
    NoWork,
    /// No side had been named yet.
    NoSide,
    /// The narrator made it conditional.
    OnlyIf,
    /// The narrator corrected himself.
    ChangedMind,
    /// The same thing may have been said twice.
    MaybeRepeat,
    /// The unit doesn't suit the item.
    OddUnit,
    /// The size or amount is out of the usual.
    OddSize,
    /// The item was recovered from words that only sound like it.
    SoundsLike,
    /// The thing isn't in the catalogue.
    NotInCatalogue,
    /// The words that matter are unsure: the recogniser doubted them, or they run together without a mark.
    UnclearAudio,
    /// The words can be read in more than one way, and no reading is sure.
    Unsure,
}

impl Flag {
    /// Whether a line that carries this needs a reviewer's look.
    pub fn needs_look(self) -> bool {
        self != Flag::RoughNumber
    }

    /// The doubt in a sentence, with what to do about it.
    pub fn sentence(self) -> &'static str {
        match self {
            Flag::RoughNumber => "the quantity is approximate",
            Flag::NoNumber => "no quantity was given: count or measure it",
            Flag::NoWork => "no work was given: decide what is to be done",
            Flag::NoSide => "no side had been named: say where it is",
            Flag::OnlyIf => "only if the condition holds: confirm it or drop the line",
            Flag::ChangedMind => "corrected while speaking: check that the correction was used",
            Flag::MaybeRepeat => "may have been mentioned twice: check that it is counted once",
            Flag::OddUnit => "the unit doesn't fit this item: check what was measured",
            Flag::OddSize => "the quantity or size is unusual for this item: check it",
            Flag::SoundsLike => "the item was misheard or not named in full: check what was meant",
            Flag::NotInCatalogue => "not in the catalog: check what it is",
            Flag::UnclearAudio => "hard to hear, or the words run together: check what was said",
            Flag::Unsure => "the words can be read more than one way: check every field",
        }
    }
}
