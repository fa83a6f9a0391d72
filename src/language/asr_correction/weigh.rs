//! What speaks for a misheard name: named clues, and their weights in `models/asr_correction.toml`, a logistic
//! regression. That file tells what they were fitted to. `cargo run --release --no-default-features --example
//! fit-asr-correction` fits such weights to the transcripts in `tests/narrations/recogniser`.

use crate::language::rules::CorrectionWeights;

/// The clues of one candidate, most of them from 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clues {
    /// How alike the words and the name sound.
    pub alike: f64,
    /// By how much the name is more alike than the likest name of another item.
    pub ahead: f64,
    /// How long the name is: the longer, the less is alike by chance.
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

impl Clues {
    /// All clues with their names, as `models/asr_correction.toml` has them.
    pub fn by_name(&self) -> [(&'static str, f64); 11] {
        [
            ("alike", self.alike),
            ("ahead", self.ahead),
            ("length", self.length),
            ("doubt", self.doubt),
            ("no_word", self.no_word),
            ("known", self.known),
            ("held", self.held),
            ("counted", self.counted),
            ("worked_on", self.worked_on),
            ("named_too", self.named_too),
            ("unlike_count", self.unlike_count),
        ]
    }
}

/// The weight of each clue, in the same order.
fn in_order(weights: &CorrectionWeights) -> [f64; 11] {
    [
        weights.alike,
        weights.ahead,
        weights.length,
        weights.doubt,
        weights.no_word,
        weights.known,
        weights.held,
        weights.counted,
        weights.worked_on,
        weights.named_too,
        weights.unlike_count,
    ]
}

/// The log-odds that a candidate was misheard.
pub fn log_odds(clues: &Clues, weights: &CorrectionWeights) -> f64 {
    let added = clues.by_name().into_iter().zip(in_order(weights)).map(|((_, value), weight)| value * weight);
    weights.base + added.sum::<f64>()
}

/// How alike a name must sound at least to be likelier than not, with the other clues as they are.
pub(super) fn least_alike(clues: &Clues, weights: &CorrectionWeights) -> f64 {
    let most_ahead = 1.0 - super::candidates::LEAST_ALIKE;
    -(log_odds(clues, weights) + weights.ahead * most_ahead) / weights.alike
}
