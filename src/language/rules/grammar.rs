//! The [`Grammar`]: all rules, ready to be matched and looked up.

use super::alike::Names;
use super::classes::Classes;
use super::compile::compile;
use super::error::GrammarError;
use super::house::HouseRules;
use super::item::{Item, Part};
use super::lists::ListWords;
use super::load;
use super::meaning::Meaning;
use super::trie::{Match, Target, Trie};
use super::usual::{OpeningRule, Usual};
use super::weights::{CorrectionWeights, PunctuationWeights};
use super::words::NumberWords;
use crate::language::phonetics::Pronouncer;
use crate::language::tokens::Token;
use crate::language::vocabulary::{UNKNOWN, Vocabulary, WordId};
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
    /// What tells where commas and full stops belong.
    pub punctuation: PunctuationWeights,
    /// What tells that a name was misheard.
    pub asr_correction: CorrectionWeights,
    /// What the whole house is asked about.
    pub house: HouseRules,
    /// The words of written lists.
    pub lists: ListWords,
    /// The items' names by how they sound.
    pub names: Names,
    /// How words sound.
    pub sounds: Pronouncer,
    pub(super) parts: Vec<Part>,
    /// The last words of the items' names.
    pub(super) heads: FxHashSet<WordId>,
    /// The spellings of units, by their first word.
    pub(super) units: FxHashMap<WordId, Vec<UnitPhrase>>,
    pub(super) trie: Trie,
}

/// A rule: a cue, and what it means.
#[derive(Debug, Clone)]
pub struct Rule {
    /// Its name, unique among all rules.
    pub name: String,
    /// What a match tells.
    pub meaning: Meaning,
    /// Work that gives way to plainer words about the same thing.
    pub soft: bool,
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

impl Match {
    /// What it means, where it is a rule's.
    pub fn meaning(&self, grammar: &Grammar) -> Option<Meaning> {
        match self.target {
            Target::Rule(rule) => Some(grammar.rules[usize::from(rule)].meaning),
            Target::Item { .. } => None,
        }
    }
}

impl Grammar {
    /// No rule at all.
    pub(super) fn empty() -> Self {
        Self {
            vocabulary: Vocabulary::new(),
            numbers: NumberWords::default(),
            items: Vec::new(),
            rules: Vec::new(),
            cautions: Vec::new(),
            usual: BTreeMap::new(),
            openings: OpeningRule::default(),
            classes: Classes::default(),
            punctuation: PunctuationWeights::default(),
            asr_correction: CorrectionWeights::default(),
            house: HouseRules::default(),
            lists: ListWords::default(),
            names: Names::default(),
            sounds: Pronouncer::new(load::dictionary()),
            parts: Vec::new(),
            heads: FxHashSet::default(),
            units: FxHashMap::default(),
            trie: Trie::new(),
        }
    }

    /// The rules the program carries.
    ///
    /// # Errors
    /// Never with the files as they are; the tests see to it.
    pub fn built_in() -> Result<Self, GrammarError> {
        compile(&load::built_in()?)
    }

    /// The rules the program carries with those of a folder over them: an item of a known id gains names, a
    /// rule of a known name is replaced, all else is added.
    ///
    /// # Errors
    /// An unreadable folder, or faults in its files, each with file, line and entry.
    pub fn with_folder(folder: &Path) -> Result<Self, GrammarError> {
        let mut layers = load::built_in()?;
        layers.extend(load::folder(folder)?);
        compile(&layers)
    }

    /// The same, with other text for one of the folder's files, which needn't be there.
    ///
    /// # Errors
    /// As [`Grammar::with_folder`].
    pub fn with_folder_but(folder: &Path, file: &str, text: &str) -> Result<Self, GrammarError> {
        let mut layers = load::built_in()?;
        layers.extend(load::folder_but(folder, file, text)?);
        compile(&layers)
    }

    /// Every phrase that the words from a token on stand for, whatever the breaks between them. Gives one past the last
    /// token that was looked at.
    pub fn matches_at(&self, tokens: &[Token], first: usize, out: &mut Vec<Match>) -> usize {
        self.trie.find(tokens, first, out)
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
