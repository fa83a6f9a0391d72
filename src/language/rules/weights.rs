//! Fitted weights, as they stand in `models/`: what each clue says of punctuation, and of a name that was misheard.

use rustc_hash::FxHashMap;
use serde::Deserialize;
use std::collections::BTreeMap;

/// The log-odds a clue adds: of any break, and of a full stop.
pub type Weight = [f32; 2];

/// What tells where commas and full stops belong: clues and their weights.
#[derive(Debug, Default)]
pub struct PunctuationWeights {
    weights: FxHashMap<String, Weight>,
}

impl FromIterator<(String, Weight)> for PunctuationWeights {
    fn from_iter<T: IntoIterator<Item = (String, Weight)>>(weights: T) -> Self {
        Self { weights: weights.into_iter().collect() }
    }
}

impl PunctuationWeights {
    /// Lays weights over those that are there, clue by clue.
    pub(super) fn add(&mut self, entries: &BTreeMap<String, Weight>) {
        self.weights.extend(entries.iter().map(|(clue, weight)| (clue.clone(), *weight)));
    }

    /// The weight of a clue; none for what was never met.
    pub fn get(&self, clue: &str) -> Option<Weight> {
        self.weights.get(clue).copied()
    }
}

/// What the clues to a misheard name add to its log-odds, each times its value. Without weights nothing is taken for
/// misheard.
#[derive(Debug, Clone, Copy, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CorrectionWeights {
    /// The log-odds without any clue.
    pub base: f64,
    /// How alike the words and the name sound. Above zero.
    pub alike: f64,
    /// By how much the name is more alike than the likest name of another item. Not below zero.
    pub ahead: f64,
    /// How long the name is.
    pub length: f64,
    /// The recogniser's doubt of the least sure word.
    pub doubt: f64,
    /// The share of words that are none in English.
    pub no_word: f64,
    /// The share of words that the rules know.
    pub known: f64,
    /// The share of words that already stand for something.
    pub held: f64,
    /// A number or a determiner stands right before.
    pub counted: f64,
    /// Work is said right behind.
    pub worked_on: f64,
    /// The item is named elsewhere in the narration.
    pub named_too: f64,
    /// By how many words the name is longer or shorter.
    pub unlike_count: f64,
}

impl CorrectionWeights {
    /// What can't be: a search leaves out early what isn't alike enough, and counts on more alike being likelier.
    pub(super) fn fault(&self) -> Option<&'static str> {
        let fits = self.alike > 0.0 && self.ahead >= 0.0;
        (!fits).then_some("`alike` must be above zero, and `ahead` not below it")
    }
}
