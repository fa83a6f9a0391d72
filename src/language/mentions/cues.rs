//! The cues that no thing has taken the words of.

use super::{Kind, Mention};
use crate::language::phrases::Groundwork;
use crate::language::rules::{Match, Meaning, Target};

/// The cues that are left when things have taken their words.
pub(super) fn cues(ground: &Groundwork, others: &[Mention]) -> Vec<Mention> {
    let mut taken: Vec<(usize, usize)> = others.iter().map(|m| (m.first, m.end)).collect();
    taken.sort_unstable();
    let free_at = |token: usize| {
        let before = taken.partition_point(|t| t.0 <= token);
        before == 0 || taken[before - 1].1 <= token
    };
    let cue = |found: &Match| {
        let Target::Rule(rule) = found.target else { return None };
        let claims = matches!(found.meaning(ground.grammar()), Some(Meaning::Nothing | Meaning::Noun));
        let free = !claims && found.tokens().all(free_at);
        free.then_some(Mention { first: found.first, end: found.end, kind: Kind::Cue(rule) })
    };
    ground.cover().matches.iter().filter_map(cue).collect()
}
