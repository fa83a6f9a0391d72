//! Takes tokens, gives tokens: names that were misheard ("silk cock" for a sillcock) are read as what they sound
//! like, where the sound, the recogniser's doubt and the words around together outweigh what was written. The text
//! is left as it is; a token that was read so knows it, and every line that rests on one is flagged.

mod candidates;
mod weigh;

pub use candidates::{Candidate, candidates};
pub use weigh::{Clues, log_odds};

use crate::language::phrases::Groundwork;
use crate::language::rules::Grammar;
use crate::language::tokens::Respelling;
use crate::speech::Transcript;

/// Reads what was misheard as what it sounds like.
pub fn correct(ground: &mut Groundwork, transcript: &Transcript) {
    let mut all = misheard_names(ground, transcript);
    all.extend(counts_of_those(ground));
    all.sort_by_key(|one| one.first);
    ground.respell(&all);
}

/// The likeliest of the names that were misheard, none overlapping.
fn misheard_names(ground: &Groundwork, transcript: &Transcript) -> Vec<Respelling> {
    let weights = &ground.grammar().asr_correction;
    let enough = |clues: &Clues| weigh::least_alike(clues, weights);
    let mut likely: Vec<(f64, Candidate)> = candidates(ground, transcript, enough)
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
    chosen
}

/// "too of those": a number was said, where only a number can stand.
fn counts_of_those(ground: &Groundwork) -> Vec<Respelling> {
    let Grammar { classes: c, numbers, .. } = ground.grammar();
    let of_those = |at: usize| {
        let those = ground.is_any(at + 2, &[c.pointing_several, c.object_several]);
        ground.spoken_on(at + 1) && ground.is(at + 1, c.of_joint) && ground.spoken_on(at + 2) && those
    };
    let count = |at: usize| {
        let value = numbers.sound_alike(ground.word(at)).filter(|_| of_those(at))?;
        Some(Respelling { first: at, end: at + 1, words: vec![numbers.word(value)?] })
    };
    (0..ground.tokens().list.len()).filter_map(count).collect()
}
