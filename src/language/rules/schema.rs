//! How the rules files are written: what serde reads, before anything is checked.

use super::house_rules::{NeedEntry, NumberEntry, OnceEntry, SumEntry};
use super::lists::{Column, ListedText};
use super::meaning::Form;
use super::usual::{Opening, OpeningRule};
use super::weights::{CorrectionWeights, Weight};
use crate::model::{Area, Unit};
use serde::Deserialize;
use serde_spanned::Spanned;
use std::collections::BTreeMap;

/// A rules file; every section may be left out.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RulesFile {
    #[serde(default)]
    pub rule: Vec<RuleEntry>,
    #[serde(default)]
    pub item: Vec<ItemEntry>,
    #[serde(default)]
    pub unit: Vec<UnitEntry>,
    #[serde(default)]
    pub caution: Vec<CautionEntry>,
    /// Classes of words.
    #[serde(default)]
    pub class: BTreeMap<Spanned<String>, Vec<Spanned<String>>>,
    /// Joined and contracted spellings, and what they stand for.
    #[serde(default)]
    pub spelling: BTreeMap<Spanned<String>, String>,
    /// Sounds that say nothing.
    #[serde(default)]
    pub fillers: Vec<String>,
    #[serde(default)]
    pub numbers: Option<NumbersEntry>,
    /// How words sound that the dictionary doesn't have, in ARPAbet's signs.
    #[serde(default)]
    pub pronounced: BTreeMap<Spanned<String>, Spanned<String>>,
    /// What letters sound like in words that stand in no dictionary.
    #[serde(default)]
    pub letters: BTreeMap<Spanned<String>, Spanned<String>>,
    /// Usual numbers of the trade.
    #[serde(default)]
    pub usual: Vec<UsualEntry>,
    /// Which openings are deducted from a wall.
    #[serde(default)]
    pub openings: Option<OpeningRule>,
    /// Where commas and full stops belong: the clue, and what it adds to the log-odds of a break and of a full stop.
    #[serde(default)]
    pub punctuation: BTreeMap<String, Weight>,
    /// What tells that a name was misheard.
    #[serde(default)]
    pub asr_correction: Option<Spanned<CorrectionWeights>>,
    /// What may have been counted from two sides.
    #[serde(default, rename = "counted-once")]
    pub counted_once: Vec<OnceEntry>,
    /// What work usually brings with it.
    #[serde(default, rename = "usual-need")]
    pub usual_need: Vec<NeedEntry>,
    /// Numbers out of the ordinary.
    #[serde(default, rename = "usual-number")]
    pub usual_number: Vec<NumberEntry>,
    /// Sums said aloud.
    #[serde(default, rename = "said-sum")]
    pub said_sum: Vec<SumEntry>,
    /// Headings of columns in written lists.
    #[serde(default)]
    pub column: Vec<ColumnEntry>,
    /// Spellings of units in written lists.
    #[serde(default)]
    pub listed_unit: Vec<ListedUnitEntry>,
    /// Rows and cells of written lists that are no work.
    #[serde(default)]
    pub listed_text: Vec<ListedTextEntry>,
    /// Short words of written lists, and what they stand for.
    #[serde(default)]
    pub listed_words: BTreeMap<Spanned<String>, String>,
}

/// What a column holds, and how it is headed.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ColumnEntry {
    pub means: Column,
    pub said: Vec<Spanned<String>>,
}

/// A unit, and how a cell of a list spells it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ListedUnitEntry {
    pub unit: Unit,
    /// How many of the unit one of these is.
    #[serde(default = "one")]
    pub times: u32,
    pub said: Vec<Spanned<String>>,
}

fn one() -> u32 {
    1
}

/// What rows or cells say that are no work.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ListedTextEntry {
    pub means: ListedText,
    pub said: Vec<Spanned<String>>,
}

/// A cue and what it means.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RuleEntry {
    pub name: Spanned<String>,
    pub means: Spanned<String>,
    pub value: Option<Spanned<String>>,
    #[serde(default)]
    pub form: Form,
    /// Words of work that give way to plainer ones about the same thing.
    #[serde(default)]
    pub soft: bool,
    pub says: Vec<Spanned<String>>,
    /// Phrases that are recognised by their sound too, where a recogniser wrote something else.
    #[serde(default)]
    pub by_sound: Vec<Spanned<String>>,
    pub hits: Vec<Spanned<String>>,
    pub misses: Vec<Spanned<String>>,
}

/// A thing on the outside of a house.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ItemEntry {
    pub id: Spanned<String>,
    pub unit: Unit,
    #[serde(default)]
    pub also: Vec<Unit>,
    pub area: Area,
    pub said: Vec<Spanned<String>>,
    /// What recognisers write when they mishear it.
    #[serde(default)]
    pub sounds: Vec<Spanned<String>>,
    /// "the wrap on that window": the word, and the ids of the items it is a part of.
    #[serde(default)]
    pub part: Option<PartEntry>,
    /// Several count as one where no number is said.
    #[serde(default)]
    pub as_one: bool,
    /// A size of it without a unit is told in inches.
    #[serde(default)]
    pub in_inches: bool,
    /// What a length right before the word tells: "six foot fence" is its height.
    #[serde(default)]
    pub length_before: LengthBefore,
    /// Often named only to tell where something else is: no line where no work is said.
    #[serde(default)]
    pub landmark: bool,
    /// The face it covers as a whole: siding a wall.
    #[serde(default)]
    pub covers: Option<crate::model::Shape>,
    /// It is a hole in the wall, like a window or like a door.
    #[serde(default)]
    pub opening: Option<Opening>,
    /// Its element in UNIFORMAT II.
    #[serde(default)]
    pub element: Option<Spanned<String>>,
    /// More than this on one line, in its own unit, is looked at.
    #[serde(default)]
    pub most: Option<u32>,
    /// The plainer item it is a kind of: a wood fence is a fence.
    #[serde(default)]
    pub kind_of: Option<Spanned<String>>,
    /// Words for what it is made of that tell it from its like: a fence of cedar is a wood fence.
    #[serde(default)]
    pub stuff: Vec<String>,
    /// What it takes to do it safely: names in `cautions.toml`.
    #[serde(default)]
    pub cautions: Vec<Spanned<String>>,
    #[serde(default)]
    pub hits: Vec<Spanned<String>>,
    #[serde(default)]
    pub misses: Vec<Spanned<String>>,
    /// Who taught its names on the review page, and when.
    #[serde(default, rename = "taught")]
    _taught: Option<TaughtEntry>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct TaughtEntry {
    #[serde(rename = "who")]
    _who: String,
    #[serde(rename = "at")]
    _at: String,
}

/// What a length said right before an item measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Default)]
#[serde(rename_all = "lowercase")]
pub enum LengthBefore {
    /// How much of it: "a thirty foot gutter". Where the item is counted in pieces, its size.
    #[default]
    Amount,
    /// How high or how long each is: "a six foot fence".
    Size,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PartEntry {
    pub word: Vec<String>,
    pub of: Vec<Spanned<String>>,
}

/// A unit and how it is said.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct UnitEntry {
    /// None for what is counted but is no quantity of work: minutes, dollars.
    pub unit: Option<Unit>,
    pub says: Vec<Spanned<String>>,
    /// Only behind a number in digits: marks that are something else in words.
    #[serde(default)]
    pub digits_only: bool,
    /// How steep a roof is: no quantity of work.
    #[serde(default)]
    pub rise: bool,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CautionEntry {
    pub name: Spanned<String>,
    pub text: String,
    pub source: String,
    /// Shown for every draft that has a line.
    #[serde(default)]
    pub always: bool,
    /// Shown for lines on the roof.
    #[serde(default)]
    pub roof: bool,
}

/// A usual number of the trade.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct UsualEntry {
    pub name: Spanned<String>,
    #[serde(deserialize_with = "super::usual::number")]
    pub value: crate::model::Exact,
    pub says: String,
    pub source: String,
}

/// Number words.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NumbersEntry {
    pub small: BTreeMap<String, i64>,
    pub tens: BTreeMap<String, i64>,
    pub scales: BTreeMap<String, i64>,
    /// Counts said by a word: dozen.
    pub groups: BTreeMap<String, i64>,
    /// Parts of one: half, quarter, eighths.
    pub parts: BTreeMap<String, i64>,
    /// Words that a recogniser writes for a number that sounds the same.
    pub sound_alike: BTreeMap<String, i64>,
    /// Pairs of numbers that sound much alike.
    #[serde(default)]
    pub rivals: Vec<[i64; 2]>,
    /// Which one, not how many: first, twentieth.
    #[serde(default)]
    pub ordinals: Vec<String>,
    /// Number words without a number: "several".
    pub vague: Vec<String>,
}
