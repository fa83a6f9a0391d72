//! Cutting what was said into cues that can be read while it plays.

use crate::model::span::Moment;
use crate::speech::{Transcript, Utterance};

/// The longest a cue stands, in milliseconds. Seven seconds and two lines of about forty letters are what
/// captioners commonly hold to (common practice, no source).
const LONGEST: u64 = 7000;

/// The most characters in a cue.
const WIDEST: usize = 80;

/// A word whose times are known.
#[derive(Debug, Clone, Copy)]
pub(super) struct Timed<'a> {
    pub text: &'a str,
    pub start: Moment,
    pub end: Moment,
}

/// The words of the transcript in cues: an utterance each, cut at its pauses where it is too long for one.
pub(super) fn cues(transcript: &Transcript) -> Vec<Vec<Timed<'_>>> {
    let mut cues = Vec::new();
    let mut clock = Moment::default();
    for utterance in &transcript.utterances {
        let words = timed(utterance, &mut clock);
        cut(&words, &mut cues);
    }
    cues
}

/// Words in the order of time. One without times, or with a time before the word before it, is put right there.
fn timed<'a>(utterance: &'a Utterance, clock: &mut Moment) -> Vec<Timed<'a>> {
    let in_order = |word: &'a crate::speech::Word| {
        let start = word.start.unwrap_or(*clock).max(*clock);
        let end = word.end.unwrap_or(start).max(start);
        *clock = start;
        Timed { text: &word.text, start, end }
    };
    utterance.words.iter().map(in_order).collect()
}

fn cut<'a>(words: &[Timed<'a>], cues: &mut Vec<Vec<Timed<'a>>>) {
    let [first, .., last] = words else {
        return cues.extend((!words.is_empty()).then(|| words.to_vec()));
    };
    if last.end.0.saturating_sub(first.start.0) <= LONGEST && width(words) <= WIDEST {
        return cues.push(words.to_vec());
    }
    let (before, after) = words.split_at(best_cut(words));
    cut(before, cues);
    cut(after, cues);
}

/// Where to cut: at the longest pause of the middle half, and of equal ones at that nearest to the middle.
fn best_cut(words: &[Timed]) -> usize {
    let half = words.len() / 2;
    let reach = words.len() / 4;
    let pause = |at: usize| words[at].start.0.saturating_sub(words[at - 1].end.0);
    let first = (half - reach).max(1);
    let last = (half + reach).min(words.len() - 1);
    (first..=last).max_by_key(|&at| (pause(at), usize::MAX - at.abs_diff(half))).unwrap_or(half)
}

fn width(words: &[Timed]) -> usize {
    words.iter().map(|word| word.text.chars().count() + 1).sum::<usize>() - 1
}
