//! Fitted weights: what each piece of named evidence adds to the log-odds of a reading. They stand in
//! `models/judge.json`; `training/judge.py` fits them.

use crate::language::rules;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Named evidence with its value.
pub(super) type Clue = (&'static str, f64);

/// The weights of what speaks for one decision.
pub(super) type Table = BTreeMap<String, f64>;

/// All weights of the judge.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Weights {
    /// Whether there is a line at all.
    pub exists: Table,
    /// Which side it is on.
    pub side: Table,
    /// Which item it is.
    pub item: Table,
    /// How much of it.
    pub quantity: Table,
    /// What the quantity counts.
    pub unit: Table,
    /// Which building it is on.
    pub structure: Table,
    /// Whether a work is to be done.
    pub work: Table,
    /// Whether only on a condition.
    pub only_if: Table,
    /// Whether all of the line is right.
    pub line: Table,
    /// What may be a line is written from this chance on. One that is likelier wrong than right is flagged anyhow, and a
    /// reviewer who sees it can drop it; one that isn't written can't be seen.
    pub written: f64,
    /// A line whose chance to be right is below this asks for a look: the one number that trades looks for silent errors.
    pub sure: f64,
    /// A line that someone should look at anyhow, by a greater chance than this, asks for a look.
    pub look: f64,
}

static FITTED: LazyLock<Option<Weights>> =
    LazyLock::new(|| serde_json::from_slice(&rules::stored("judge.json")?).ok());

/// The weights the program carries; a test holds that they can be read.
pub(super) fn fitted() -> Option<&'static Weights> {
    FITTED.as_ref()
}

/// What the evidence comes to, in log-odds. Evidence without a weight adds nothing.
pub(super) fn weigh(clues: &[Clue], weights: &Table) -> f64 {
    clues.iter().map(|(name, value)| weights.get(*name).copied().unwrap_or(0.0) * value).sum()
}

/// The chance of log-odds.
pub(super) fn chance(odds: f64) -> f64 {
    1.0 / (1.0 + (-odds.clamp(-30.0, 30.0)).exp())
}

/// The log-odds of a chance, which is taken to be no nearer to 0 and 1 than `least`.
pub(super) fn log_odds(chance: f64, least: f64) -> f64 {
    let chance = chance.clamp(least, 1.0 - least);
    (chance / (1.0 - chance)).ln()
}

/// The chances of options that exclude each other, the likeliest first.
pub(super) fn choose<T>(options: Vec<(T, Vec<Clue>)>, weights: &Table) -> Vec<(T, f64)> {
    let odds: Vec<f64> = options.iter().map(|(_, clues)| weigh(clues, weights)).collect();
    let most = odds.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let sum: f64 = odds.iter().map(|z| (z - most).exp()).sum();
    let mut chances: Vec<(T, f64)> =
        options.into_iter().zip(odds).map(|((option, _), z)| (option, (z - most).exp() / sum)).collect();
    chances.sort_by(|a, b| b.1.total_cmp(&a.1));
    chances
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weights_the_program_carries_can_be_read() {
        let weights = fitted().unwrap();
        assert!(weights.sure > 0.5 && weights.sure < 1.0);
    }

    #[test]
    fn chances_of_options_sum_to_one_and_follow_the_evidence() {
        let weights = Table::from([("reader".to_owned(), 1.0), ("rules".to_owned(), 2.0)]);
        let chances = choose(
            vec![("left", vec![("reader", 0.0)]), ("rear", vec![("reader", -1.0), ("rules", 1.0)])],
            &weights,
        );
        assert_eq!(chances[0].0, "rear");
        assert!((chances.iter().map(|c| c.1).sum::<f64>() - 1.0).abs() < 1e-12);
        assert!((chances[0].1 / chances[1].1 - 1f64.exp()).abs() < 1e-9);
    }

    #[test]
    fn log_odds_are_the_inverse_of_a_chance() {
        assert!((chance(log_odds(0.8, 0.01)) - 0.8).abs() < 1e-12);
        assert_eq!(log_odds(1.0, 0.01), log_odds(0.99, 0.01));
    }
}
