//! Number words, ready for look-up.

use super::schema::NumbersEntry;
use crate::language::vocabulary::{Vocabulary, WordId};
use rustc_hash::{FxHashMap, FxHashSet};

/// What a single word says about a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NumberWord {
    /// 0 to 19.
    Small(i64),
    /// 20 to 90.
    Tens(i64),
    /// A hundred, a thousand.
    Scale(i64),
    /// A dozen, a couple.
    Group(i64),
    /// One such part of one: a half is 2, a quarter 4.
    Part(i64),
    /// Number-like without a number: several.
    Vague,
}

/// All number words by their word's number.
#[derive(Debug, Default)]
pub struct NumberWords {
    words: FxHashMap<WordId, NumberWord>,
    sound_alike: FxHashMap<WordId, i64>,
    ordinals: FxHashSet<WordId>,
    rivals: FxHashMap<i64, i64>,
}

impl NumberWords {
    pub(super) fn add(&mut self, entry: &NumbersEntry, vocabulary: &mut Vocabulary) {
        type Make = fn(i64) -> NumberWord;
        let tables: [(_, Make); 5] = [
            (&entry.small, NumberWord::Small),
            (&entry.tens, NumberWord::Tens),
            (&entry.scales, NumberWord::Scale),
            (&entry.groups, NumberWord::Group),
            (&entry.parts, NumberWord::Part),
        ];
        for (table, make) in tables {
            for (word, value) in table {
                self.words.insert(vocabulary.add(word), make(*value));
            }
        }
        for word in &entry.vague {
            self.words.insert(vocabulary.add(word), NumberWord::Vague);
        }
        for (word, value) in &entry.sound_alike {
            self.sound_alike.insert(vocabulary.add(word), *value);
        }
        self.rivals.extend(entry.rivals.iter().flat_map(|[one, other]| [(*one, *other), (*other, *one)]));
        self.ordinals.extend(entry.ordinals.iter().map(|word| vocabulary.add(word)));
    }

    /// What this word says, if it is a number word.
    pub fn get(&self, word: WordId) -> Option<NumberWord> {
        self.words.get(&word).copied()
    }

    /// Whether the word tells which one, not how many: first, twentieth.
    pub fn ordinal(&self, word: WordId) -> bool {
        self.ordinals.contains(&word)
    }

    /// The word for a small number.
    pub fn word(&self, value: i64) -> Option<WordId> {
        self.words.iter().filter(|(_, word)| **word == NumberWord::Small(value)).map(|(id, _)| *id).min()
    }

    /// The number that sounds much like this one, where one does: 50 for 15, 113 for 130.
    pub fn rival(&self, number: i64) -> Option<i64> {
        let end = number.rem_euclid(100);
        self.rivals.get(&end).map(|other| number - end + other)
    }

    /// The number a recogniser may have meant by this word: `for` is 4.
    pub fn sound_alike(&self, word: WordId) -> Option<i64> {
        self.sound_alike.get(&word).copied()
    }
}
