//! What was heard.

use super::pen::{Pen, STRONG, WARN};
use crate::documents::wording::{self, sentence};
use crate::words::{Transcript, Utterance};

/// Where the words begin, after their time.
const INDENT: usize = 9;

/// The words of a transcript, a stretch of speech a paragraph, with the time it begins.
pub fn words(transcript: &Transcript, width: usize) -> String {
    let mut pen = Pen::new(width);
    pen.text(STRONG, 0, &transcript.source);
    transcript.notices.iter().for_each(|notice| pen.text(WARN, 0, &sentence(notice)));
    for utterance in &transcript.utterances {
        let start = utterance.words.first().and_then(|word| word.start);
        pen.labelled(&start.map(wording::time).unwrap_or_default(), INDENT, &text(utterance));
    }
    pen.finish()
}

fn text(utterance: &Utterance) -> String {
    let words: Vec<&str> = utterance.words.iter().map(|word| word.text.as_str()).collect();
    words.join(" ")
}
