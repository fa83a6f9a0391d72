//! Takes tokens, gives tokens: names that were misheard ("silk cock" for a sillcock) are read as what they sound
//! like, where the sound, the recogniser's doubt and the words around together outweigh what was written. The text
//! is left as it is; a token that was read so knows it, and every line that rests on one is flagged.

mod candidates;
mod weigh;

pub use candidates::{Candidate, candidates};
pub use weigh::{Clues, log_odds};

use crate::language::rules::Grammar;
use crate::language::tokens::{Break, Respelling, Tokens};
use crate::speech::Transcript;

/// Reads what was misheard as what it sounds like.
pub fn mend(tokens: &mut Tokens, transcript: &Transcript, grammar: &Grammar) {
    let weights = &grammar.asr_correction;
    let enough = |clues: &Clues| weigh::least_alike(clues, weights);
    let mut likely: Vec<(f64, Candidate)> = candidates(tokens, transcript, grammar, enough)
        .into_iter()
        .map(|candidate| (log_odds(&candidate.clues, weights), candidate))
        .filter(|(odds, _)| *odds > 0.0)
        .collect();
    likely.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.first.cmp(&b.1.first)));
    let mut chosen: Vec<Respelling> = Vec::new();
    for (_, candidate) in likely {
        if chosen.iter().all(|c| c.end <= candidate.first || candidate.end <= c.first) {
            chosen.push(Respelling { first: candidate.first, end: candidate.end, words: candidate.words });
        }
    }
    chosen.extend(counts_of_those(tokens, grammar));
    chosen.sort_by_key(|c| c.first);
    tokens.respell(&chosen);
}

/// "too of those": a number was said, where only a number can stand.
fn counts_of_those(tokens: &Tokens, grammar: &Grammar) -> Vec<Respelling> {
    let word = |at: usize| tokens.list.get(at).filter(|t| t.before == Break::None).map(|t| t.word);
    let is = |at: usize, any: &[&str]| word(at).is_some_and(|w| any.contains(&grammar.vocabulary.word(w)));
    let those = |at: usize| is(at + 1, &["of"]) && is(at + 2, &["those", "them", "these"]);
    let count = |at: usize| {
        let value = grammar.numbers.sound_alike(tokens.list[at].word).filter(|_| those(at))?;
        Some(Respelling { first: at, end: at + 1, words: vec![grammar.numbers.word(value)?] })
    };
    (0..tokens.list.len()).filter_map(count).collect()
}
