//! What was heard.

use super::pen::{Pen, STRONG, WARN};
use crate::model::wording::{self, sentence};
use crate::speech::{Transcript, Utterance};

/// Where the words begin, after their time.
const INDENT: usize = 9;

/// The same where the time is within a clip.
const INDENT_OF_CLIPS: usize = 12;

/// The words of a transcript, a stretch of speech a paragraph, with the time it begins.
pub fn words(transcript: &Transcript, width: usize) -> String {
    let mut pen = Pen::new(width);
    pen.text(STRONG, 0, &transcript.source);
    transcript.notices.iter().for_each(|notice| pen.text(WARN, 0, &sentence(notice)));
    let clips = &transcript.clips;
    let indent = if clips.is_empty() { INDENT } else { INDENT_OF_CLIPS };
    for utterance in &transcript.utterances {
        let start = utterance.words.first().and_then(|word| word.start);
        let start = start.map(|start| wording::short_time_in(clips, start)).unwrap_or_default();
        pen.labelled(&start, indent, &text(utterance));
    }
    pen.finish()
}

fn text(utterance: &Utterance) -> String {
    let words: Vec<&str> = utterance.words.iter().map(|word| word.text.as_str()).collect();
    words.join(" ")
}
