//! Plain text: paragraphs of words without times.

use crate::speech::{Transcript, Utterance, Word};

/// One utterance a paragraph; paragraphs are set apart by an empty line.
pub(super) fn transcript(text: &str) -> Transcript {
    let mut utterances = Vec::new();
    let mut paragraph = Utterance::default();
    for line in text.lines().chain([""]) {
        paragraph.words.extend(line.split_whitespace().map(untimed));
        if line.trim().is_empty() && !paragraph.words.is_empty() {
            utterances.push(std::mem::take(&mut paragraph));
        }
    }
    Transcript { utterances, ..Transcript::default() }
}

fn untimed(word: &str) -> Word {
    Word { text: word.to_owned(), ..Word::default() }
}
