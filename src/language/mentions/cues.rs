//! The cues that no thing has taken the words of.

use super::{Kind, Mention};
use crate::language::phrases::Cover;
use crate::language::rules::{Grammar, Match, Meaning, Target};

/// The cues that are left when things have taken their words.
pub(super) fn cues(cover: &Cover, others: &[Mention], grammar: &Grammar) -> Vec<Mention> {
    let mut taken: Vec<(usize, usize)> = others.iter().map(|m| (m.first, m.end)).collect();
    taken.sort_unstable();
    let free_at = |token: usize| {
        let before = taken.partition_point(|t| t.0 <= token);
        before == 0 || taken[before - 1].1 <= token
    };
    let free = |found: &&Match| found.tokens().all(free_at);
    let mention = |found: &Match| match found.target {
        Target::Rule(rule)
            if !matches!(grammar.rules[usize::from(rule)].meaning, Meaning::Nothing | Meaning::Noun) =>
        {
            Some(Mention { first: found.first, end: found.end, kind: Kind::Cue(rule) })
        }
        _ => None,
    };
    cover.matches.iter().filter(free).filter_map(mention).collect()
}
