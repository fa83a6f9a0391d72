//! A caption's cue, and the times of its words.

use super::rolling;
use crate::model::span::Moment;
use crate::speech::{Transcript, Utterance, Word};
use std::ops::Range;

/// A stretch of caption text and when it is shown.
#[derive(Debug, Clone)]
pub(super) struct Cue {
    pub start: Moment,
    pub end: Moment,
    /// The lines as shown, each in pieces.
    pub lines: Vec<Vec<Piece>>,
}

/// What a line of a cue is made of.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Piece {
    /// A word with its punctuation.
    Word(String),
    /// What follows is said from here on.
    Mark(Moment),
}

impl Cue {
    /// The words of all lines, in order.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.lines.iter().flatten().filter_map(|piece| match piece {
            Piece::Word(word) => Some(word.as_str()),
            Piece::Mark(_) => None,
        })
    }
}

/// The words of captions, one utterance a cue. Lines that a cue repeats from the one before are said once.
pub(super) fn transcript(mut cues: Vec<Cue>) -> Transcript {
    cues.sort_by_key(|cue| cue.start);
    let utterances = rolling::unroll(cues).into_iter().map(|cue| Utterance { words: timed(&cue) });
    Transcript { utterances: utterances.filter(|u| !u.words.is_empty()).collect(), ..Transcript::default() }
}

/// The words of a cue with their times: from mark to mark where the cue has marks inside, else from its start
/// to its end.
fn timed(cue: &Cue) -> Vec<Word> {
    let mut words = Vec::new();
    let mut from = cue.start;
    let mut run: Vec<&str> = Vec::new();
    for piece in cue.lines.iter().flatten() {
        match piece {
            Piece::Word(word) => run.push(word),
            // A mark out of order is none, by the standard.
            Piece::Mark(at) if *at < from || *at > cue.end => {}
            Piece::Mark(at) => {
                words.extend(spread(&std::mem::take(&mut run), from..*at));
                from = *at;
            }
        }
    }
    words.extend(spread(&run, from..cue.end));
    words
}

/// Gives each word its share of the time, by its letters.
fn spread(words: &[&str], time: Range<Moment>) -> Vec<Word> {
    let letters = |word: &&str| word.chars().count() as u64;
    let all: u64 = words.iter().map(letters).sum();
    let length = time.end.0.saturating_sub(time.start.0);
    let mut said = 0;
    let mut moment_after = |letters: u64| {
        said += letters;
        Some(Moment(time.start.0 + length * said / all))
    };
    let mut end = Some(time.start);
    let timed = |word: &&str| {
        let start = end;
        end = moment_after(letters(word));
        Word { text: (*word).to_owned(), start, end, probability: None }
    };
    words.iter().map(timed).collect()
}
