//! What the rules files mean. Takes the files of `grammars/` (embedded in the program) and, over them, those
//! of a user's folder; gives a [`Grammar`], wholly checked. Loaded once; every later room only reads it.

pub mod alike;
mod breaths;
mod compile;
mod error;
mod house;
mod house_rules;
mod item;
pub mod lists;
mod load;
mod meaning;
mod mishearing;
mod pattern;
mod plural;
mod schema;
mod sentences;
mod trie;
mod usual;
mod words;

pub use alike::Named;
pub use breaths::{Breaths, Weight};
pub use error::{Fault, GrammarError};
pub use house::{CountedOnce, Counts, Ground, HouseRules, Need, Sighting, UsualNeed, UsualNumber};
pub use item::{Item, Part};
pub use load::folder_digest;
pub use meaning::{Compass, Form, Meaning, Reach};
pub use mishearing::MishearingWeights;
pub use schema::LengthBefore;
pub use sentences::{Entry, Sentence, with_sentences};
pub use trie::Target;
pub use usual::{Opening, OpeningRule, Usual};
pub use words::{NumberWord, NumberWords};

use crate::language::phonetics::Pronouncer;
use crate::language::tokens::Token;
use crate::language::vocabulary::{ClassId, UNKNOWN, Vocabulary, WordId};
use crate::model::Unit;
use rustc_hash::{FxHashMap, FxHashSet};
use std::collections::BTreeMap;
use std::path::Path;

/// All rules, ready to be matched.
#[derive(Debug)]
pub struct Grammar {
    /// The known words.
    pub vocabulary: Vocabulary,
    /// Number words.
    pub numbers: NumberWords,
    /// The catalogue.
    pub items: Vec<Item>,
    /// The rules.
    pub rules: Vec<Rule>,
    /// The cautions.
    pub cautions: Vec<CautionRule>,
    /// Usual numbers of the trade, by name.
    pub usual: BTreeMap<String, Usual>,
    /// Which openings are deducted from a wall.
    pub openings: OpeningRule,
    /// Word classes the program itself asks for.
    pub classes: Classes,
    /// What tells where a breath was taken.
    pub breaths: breaths::Breaths,
    /// What tells that a name was misheard.
    pub mishearing: MishearingWeights,
    /// What the whole house is asked about.
    pub house: HouseRules,
    /// The words of written lists.
    pub lists: lists::ListWords,
    parts: Vec<Part>,
    /// The items' names by how they sound.
    pub names: alike::Names,
    /// How words sound.
    pub sounds: Pronouncer,
    heads: FxHashSet<WordId>,
    units: FxHashMap<WordId, Vec<UnitPhrase>>,
    trie: trie::Trie,
}

/// A rule: a cue, and what it means.
#[derive(Debug, Clone)]
pub struct Rule {
    /// Its name, unique among all rules.
    pub name: String,
    /// What a match tells.
    pub meaning: Meaning,
}

/// A spelling of a unit.
#[derive(Debug, Clone)]
pub struct UnitPhrase {
    /// The words after the first.
    pub rest: Vec<WordId>,
    /// The unit; none for what is counted but is no quantity of work.
    pub unit: Option<Unit>,
    /// Only behind a number in digits.
    pub digits_only: bool,
    /// It tells how steep a roof is: "in twelve".
    pub rise: bool,
}

/// When a caution is shown.
#[derive(Debug, Clone)]
pub struct CautionRule {
    /// What is shown.
    pub caution: crate::model::Caution,
    /// For every draft that has a line.
    pub always: bool,
    /// For lines on the roof.
    pub roof: bool,
}

/// A match of a phrase in a narration.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Match {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// What was matched.
    pub target: Target,
    /// The tokens that were said, as bits from the first on; those of a gap are left out.
    pub said: u64,
}

impl Match {
    /// The tokens that were said.
    pub fn tokens(&self) -> impl Iterator<Item = usize> + use<> {
        let (first, said) = (self.first, self.said);
        (0..64).filter(move |n| said & (1 << n) != 0).map(move |n| first + n)
    }
}

macro_rules! classes {
    ($($(#[$doc:meta])* $field:ident = $name:literal),* $(,)?) => {
        /// The word classes the program asks for by name; `classes.toml` fills them.
        #[derive(Debug, Clone, Copy)]
        pub struct Classes { $($(#[$doc])* pub $field: ClassId),* }

        impl Classes {
            /// Words that are never part of a thing's name.
            pub fn closed(&self) -> [ClassId; 8] {
                [
                    self.function,
                    self.be,
                    self.have,
                    self.preposition,
                    self.joins,
                    self.definite,
                    self.indefinite,
                    self.negative,
                ]
            }

            /// Resolves every class, or names the missing one.
            fn resolve(vocabulary: &Vocabulary) -> Result<Self, &'static str> {
                Ok(Self { $($field: vocabulary.class($name).ok_or($name)?),* })
            }
        }
    };
}

classes! {
    /// the, that, those, my …
    definite = "definite",
    /// a, an, some …
    indefinite = "indefinite",
    /// no, any …
    negative = "negative",
    /// another, more, other …
    more = "more",
    /// on, by, behind …
    preposition = "preposition",
    /// Words that end a noun phrase and are never part of one.
    function = "function",
    /// cedar, aluminum …
    material = "material",
    /// Nouns that are no thing to work on: hole, piece, side …
    no_thing = "no-thing",
    /// is, are, 's …
    be = "be",
    /// got, have, see: what brings a thing up.
    have = "have",
    /// and, or, plus: what joins things into one list.
    joins = "joins",
    /// after which "one" is a pronoun.
    before_one = "before-one",
    /// What may stand between "the pitch" and its number: is, about, like.
    before_pitch = "before-pitch",
    /// it, them, those, these: after "two of".
    pronoun = "pronoun",
    /// wide, across, long.
    width = "width",
    /// tall, high.
    height = "height",
    /// all, both, every.
    every = "every",
    /// new.
    new = "new",
    /// group, following: what announces or ends a list.
    list_word = "list-word",
    /// replaced, painted: work, where it ends what is said of a thing.
    participle = "participle",
    /// side, elevation, wall: what follows the name of a side.
    side_noun = "side-noun",
    /// on, around, across: what stands before a side.
    place_word = "place-word",
    /// house, home, place.
    building = "building",
    /// Words that say the narrator goes somewhere.
    motion = "motion",
    /// Words that may stand between the opening of a clause and a place.
    place_lead = "place-lead",
    /// same, like, as.
    likening = "likening",
    /// vent, cover, post: behind an item's name they name another thing.
    thing_word = "thing-word",
    /// not, never, without: what is said next is not done.
    negator = "negator",
    /// going, to, need: words that carry a negation on to the work behind them.
    carries_no = "carries-no",
    /// set, pair, run: what there may be "of" a thing.
    portion = "portion",
    /// dent, hail, paint: what is on a thing rather than beside it.
    damage = "damage",
    /// back, broken, old: words that may stand before a name.
    adjective = "adjective",
}

impl Grammar {
    /// The rules the program carries.
    ///
    /// # Errors
    /// Never with the files as they are; the tests see to it.
    pub fn built_in() -> Result<Self, GrammarError> {
        compile::compile(&load::built_in()?)
    }

    /// The rules the program carries with those of a folder over them: an item of a known id gains names, a
    /// rule of a known name is replaced, all else is added.
    ///
    /// # Errors
    /// An unreadable folder, or faults in its files, each with file, line and entry.
    pub fn with_folder(folder: &Path) -> Result<Self, GrammarError> {
        let mut layers = load::built_in()?;
        layers.extend(load::folder(folder)?);
        compile::compile(&layers)
    }

    /// The same, with other text for one of the folder's files, which needn't be there.
    ///
    /// # Errors
    /// As [`Grammar::with_folder`].
    pub fn with_folder_but(folder: &Path, file: &str, text: &str) -> Result<Self, GrammarError> {
        let mut layers = load::built_in()?;
        layers.extend(load::folder_but(folder, file, text)?);
        compile::compile(&layers)
    }

    /// Every phrase match that begins at a token.
    pub fn matches_at(&self, tokens: &[Token], first: usize, out: &mut Vec<Match>) {
        let mut found = Vec::new();
        self.trie.find(tokens, first, &mut found);
        out.extend(found.iter().map(|f| Match { first, end: f.end, target: f.target, said: f.said }));
    }

    /// Whether a unit's spelling begins with the word.
    pub fn begins_a_unit(&self, word: WordId) -> bool {
        self.units.contains_key(&word)
    }

    /// The unit said at a token, and one past its last token.
    pub fn unit_at(&self, tokens: &[Token], at: usize, after_digits: bool) -> Option<(Option<Unit>, usize)> {
        let best = self.unit_phrase_at(tokens, at, after_digits)?;
        Some((best.unit, at + 1 + best.rest.len()))
    }

    /// Whether what is said at a token tells that the number before it is how steep a roof is.
    pub fn rise_at(&self, tokens: &[Token], at: usize, after_digits: bool) -> bool {
        self.unit_phrase_at(tokens, at, after_digits).is_some_and(|phrase| phrase.rise)
    }

    fn unit_phrase_at(&self, tokens: &[Token], at: usize, after_digits: bool) -> Option<&UnitPhrase> {
        let phrases = self.units.get(&tokens.get(at)?.word)?;
        let fits = |p: &&UnitPhrase| {
            (after_digits || !p.digits_only)
                && p.rest
                    .iter()
                    .enumerate()
                    .all(|(n, w)| tokens.get(at + 1 + n).is_some_and(|t| t.word == *w))
        };
        phrases.iter().filter(fits).max_by_key(|p| p.rest.len())
    }

    /// The item that a part's word and the item it belongs to name together.
    pub fn part_of(&self, word: WordId, of: u16) -> Option<u16> {
        self.parts.iter().find(|p| p.word == word && p.of == of).map(|p| p.item)
    }

    /// Whether a word may stand for a longer name, or for a part of a thing: vent, wrap.
    pub fn is_head(&self, word: WordId) -> bool {
        let single = self.singular(word);
        self.heads.contains(&word) || self.parts.iter().any(|p| p.word == single)
    }

    /// Whether a word may stand for a part of a thing: wrap, screen, fins.
    pub fn is_part(&self, word: WordId) -> bool {
        let single = self.singular(word);
        self.parts.iter().any(|p| p.word == single)
    }

    /// Whether an item is a part of another: the fins of a condenser.
    pub fn belongs_to(&self, part: u16, whole: u16) -> bool {
        self.parts.iter().any(|p| p.item == part && p.of == whole)
    }

    /// Whether an item is a kind of another: a wood fence is a fence.
    pub fn is_kind_of(&self, item: u16, plainer: u16) -> bool {
        self.items[usize::from(item)].kind_of.as_deref() == Some(self.items[usize::from(plainer)].id.as_str())
    }

    /// A word in the singular, if its plural is known by its ending.
    pub fn singular(&self, word: WordId) -> WordId {
        let text = self.vocabulary.word(word);
        match text.strip_suffix('s').map(|t| self.vocabulary.id(t)) {
            Some(id) if id != UNKNOWN => id,
            _ => word,
        }
    }

    /// An item's place in the catalogue.
    pub fn item_named(&self, id: &str) -> Option<u16> {
        self.items.iter().position(|i| i.id == id).map(|n| n as u16)
    }
}
