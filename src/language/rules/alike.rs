//! The names of things, and some phrases of rules, by how they sound: which is like what a recogniser wrote.

use crate::language::phonetics::{Phone, Pronouncer, likeness, most_alike, own_score};
use crate::language::vocabulary::{Vocabulary, WordId};
use std::sync::OnceLock;

/// Shorter names are too easily like something else.
const FEWEST_PHONES: usize = 4;

/// What is known by its sound.
#[derive(Debug, Default)]
pub struct Names {
    written: Vec<(Vec<WordId>, Named)>,
    sounded: OnceLock<Vec<Name>>,
}

/// What a name stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Named {
    /// An item, by its place in the catalogue.
    Item(u16),
    /// A rule, by its place among the rules.
    Rule(u16),
}

/// A name of an item, or a phrase of a rule.
#[derive(Debug)]
pub struct Name {
    /// Its words.
    pub words: Vec<WordId>,
    /// What it stands for.
    pub named: Named,
    /// How it sounds.
    pub phones: Vec<Phone>,
    own: i32,
    sorts: Sorts,
}

impl Names {
    pub(super) fn add(&mut self, words: Vec<WordId>, named: Named) {
        self.written.push((words, named));
    }

    /// The names that sound at least so much like the phones, the likest first.
    pub fn like(
        &self,
        phones: &[Phone],
        least: f64,
        vocabulary: &Vocabulary,
        sounds: &Pronouncer,
    ) -> Vec<(&Name, f64)> {
        let names = self.sounded.get_or_init(|| self.sound(vocabulary, sounds));
        let (own, sorts) = (own_score(phones), Sorts::of(phones));
        let near = names.iter().filter(|name| {
            let lengths = (name.phones.len(), phones.len());
            most_alike((name.own, own), lengths) >= least && sorts.shared(name.sorts, lengths) >= SHARED
        });
        let mut like: Vec<(&Name, f64)> = near.map(|name| (name, likeness(&name.phones, phones))).collect();
        like.retain(|(_, likeness)| *likeness >= least);
        like.sort_by(|a, b| b.1.total_cmp(&a.1));
        like
    }

    fn sound(&self, vocabulary: &Vocabulary, sounds: &Pronouncer) -> Vec<Name> {
        let sound = |(words, named): &(Vec<WordId>, Named)| {
            let phones: Vec<Phone> = words.iter().flat_map(|w| sounds.phones(vocabulary.word(*w))).collect();
            let (own, sorts) = (own_score(&phones), Sorts::of(&phones));
            Name { words: words.clone(), named: *named, phones, own, sorts }
        };
        let mut names: Vec<Name> = self.written.iter().map(sound).collect();
        names.retain(|name| name.phones.len() >= FEWEST_PHONES);
        names
    }
}

/// The share of phones whose sort must be in both, of the longer run: what has less can't be alike.
const SHARED: f64 = 0.75;

/// How many phones of each sort a run has, in four bits each: quick to compare.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Sorts(u64);

impl Sorts {
    fn of(phones: &[Phone]) -> Self {
        let mut counts = [0_u64; 16];
        phones.iter().for_each(|phone| counts[phone.sort()] = (counts[phone.sort()] + 1).min(15));
        Self(counts.iter().enumerate().map(|(n, count)| count << (4 * n)).sum())
    }

    fn shared(self, other: Self, lengths: (usize, usize)) -> f64 {
        let count = |of: u64, n: u32| (of >> (4 * n)) & 15;
        let shared: u64 = (0..16).map(|n| count(self.0, n).min(count(other.0, n))).sum();
        shared as f64 / lengths.0.max(lengths.1).max(1) as f64
    }
}
