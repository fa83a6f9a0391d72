//! The words the grammars know: each has a number, and the classes it belongs to.

use rustc_hash::{FxHashMap, FxHashSet};

/// A word by its number. Zero is any word the grammars don't know.
pub type WordId = u32;

/// A word no rule knows.
pub const UNKNOWN: WordId = 0;

/// A named class of words, `<be>` in a phrase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct ClassId(pub(in crate::language) u8);

/// Words that may stand in one place of a phrase.
pub(in crate::language) type SetId = u32;

/// The known words and their classes.
#[derive(Debug, Default)]
pub struct Vocabulary {
    ids: FxHashMap<String, WordId>,
    words: Vec<String>,
    classes: Vec<String>,
    masks: Vec<u128>,
    spellings: FxHashMap<String, Vec<WordId>>,
    fillers: Vec<bool>,
    sets: Vec<Vec<WordId>>,
    set_ids: FxHashMap<Vec<WordId>, SetId>,
    /// Words that stand side by side in some phrase.
    neighbours: FxHashSet<(WordId, WordId)>,
}

/// Shorter parts are too easily found in a word that is one.
const SHORTEST_PART: usize = 3;

/// A word of more letters holds no two of a phrase: looking for them takes the square of its length.
const LONGEST_WORD: usize = 60;

/// Each class is a bit of a word's mask.
pub(in crate::language) const MOST_CLASSES: usize = u128::BITS as usize;

/// Words and marks that the program itself looks for, whether or not a rule or a class has them.
const SPOKEN_TO: &[&str] = &[
    "/",
    "'",
    "\"",
    "$",
    "%",
    "apiece",
    "detached",
    "separate",
    "itself",
    "standalone",
    "across",
    "though",
    "too",
    "same",
    "following",
    "along",
    "peak",
    "eave",
    "eaves",
    "rafter",
    "rafters",
    "ridge",
];

impl Vocabulary {
    pub(in crate::language) fn new() -> Self {
        let mut new =
            Self { words: vec![String::new()], masks: vec![0], fillers: vec![false], ..Self::default() };
        SPOKEN_TO.iter().for_each(|word| {
            new.add(word);
        });
        new
    }

    /// The number of `word` (lower case), given if it had none.
    pub(in crate::language) fn add(&mut self, word: &str) -> WordId {
        if let Some(id) = self.ids.get(word) {
            return *id;
        }
        let id = self.words.len() as WordId;
        self.ids.insert(word.to_owned(), id);
        self.words.push(word.to_owned());
        self.masks.push(0);
        self.fillers.push(false);
        id
    }

    /// The number of `word` (lower case), or [`UNKNOWN`].
    pub fn id(&self, word: &str) -> WordId {
        self.ids.get(word).copied().or_else(|| self.with_its_g(word)).unwrap_or(UNKNOWN)
    }

    /// "paintin", "the deckin": the ending as it is often spoken.
    fn with_its_g(&self, word: &str) -> Option<WordId> {
        let dropped = word.len() > 4 && word.ends_with("in");
        dropped.then(|| self.ids.get([word, "g"].concat().as_str()).copied()).flatten()
    }

    /// The word of a number; empty for [`UNKNOWN`].
    pub fn word(&self, id: WordId) -> &str {
        &self.words[id as usize]
    }

    /// What a joined or contracted spelling stands for.
    pub fn spelled(&self, word: &str) -> Option<&[WordId]> {
        self.spellings.get(word).map(Vec::as_slice)
    }

    pub(in crate::language) fn add_neighbours(&mut self, left: WordId, right: WordId) {
        self.neighbours.insert((left, right));
    }

    /// "backslope", "postcaps": two words of a phrase that were written as one.
    pub fn two_in_one(&self, word: &str) -> Option<[WordId; 2]> {
        if word.len() > LONGEST_WORD {
            return None;
        }
        let cuts = (SHORTEST_PART..word.len().saturating_sub(SHORTEST_PART - 1))
            .filter(|at| word.is_char_boundary(*at));
        cuts.filter_map(|at| Some([*self.ids.get(&word[..at])?, *self.ids.get(&word[at..])?]))
            .find(|[left, right]| self.neighbours.contains(&(*left, *right)))
    }

    pub(in crate::language) fn add_spelling(&mut self, word: &str, parts: &[String]) {
        let parts = parts.iter().map(|p| self.add(p)).collect();
        self.spellings.insert(word.to_owned(), parts);
    }

    pub(in crate::language) fn add_filler(&mut self, word: &str) {
        let id = self.add(word);
        self.fillers[id as usize] = true;
    }

    /// Whether the word says nothing at all: "uh".
    pub fn is_filler(&self, id: WordId) -> bool {
        self.fillers[id as usize]
    }

    /// A class by name, made if it is new; none once there are [`MOST_CLASSES`].
    pub(in crate::language) fn add_class(&mut self, name: &str) -> Option<ClassId> {
        if let Some(class) = self.class(name) {
            return Some(class);
        }
        if self.classes.len() == MOST_CLASSES {
            return None;
        }
        self.classes.push(name.to_owned());
        self.class(name)
    }

    /// A class by name.
    pub fn class(&self, name: &str) -> Option<ClassId> {
        self.classes.iter().position(|c| c == name).map(|n| ClassId(n as u8))
    }

    /// The set of these words.
    pub(in crate::language) fn set(&mut self, mut words: Vec<WordId>) -> SetId {
        words.sort_unstable();
        words.dedup();
        let next = self.sets.len() as SetId;
        let id = *self.set_ids.entry(words.clone()).or_insert(next);
        if id == next {
            self.sets.push(words);
        }
        id
    }

    /// The words of a class as a set.
    pub(in crate::language) fn class_as_set(&mut self, class: ClassId) -> SetId {
        let words = (0..self.words.len() as WordId).filter(|w| self.is(*w, class)).collect();
        self.set(words)
    }

    /// The words of a set.
    pub(in crate::language) fn words_of(&self, set: SetId) -> &[WordId] {
        &self.sets[set as usize]
    }

    pub(in crate::language) fn class_names(&self) -> impl Iterator<Item = &str> {
        self.classes.iter().map(String::as_str)
    }

    pub(in crate::language) fn put_in_class(&mut self, word: &str, class: ClassId) {
        let id = self.add(word);
        self.masks[id as usize] |= 1 << class.0;
    }

    /// Whether the word belongs to the class.
    pub fn is(&self, id: WordId, class: ClassId) -> bool {
        self.masks[id as usize] & (1 << class.0) != 0
    }
}
