//! What each clue says of a mishearing, as written in `mishearing.toml`.

use serde::Deserialize;

/// What the clues of a mishearing add to its log-odds, each times its value. Without weights nothing is taken for
/// misheard.
#[derive(Debug, Clone, Copy, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MishearingWeights {
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

impl MishearingWeights {
    /// What can't be: a search leaves out early what isn't alike enough, and counts on more alike being likelier.
    pub(super) fn fault(&self) -> Option<&'static str> {
        let fits = self.alike > 0.0 && self.ahead >= 0.0;
        (!fits).then_some("`alike` must be above zero, and `ahead` not below it")
    }
}
