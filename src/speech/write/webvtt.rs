//! WebVTT, as <https://www.w3.org/TR/webvtt1/> has it, with a time mark before each word.

use super::cues::{Timed, cues};
use crate::model::span::Moment;
use crate::speech::Transcript;
use crate::speech::clock::{ARROW, stamp};
use html_escape::encode_text;
use std::fmt::Write;

/// The note that tells this program's captions from anyone else's.
pub const MARK: &str = "NOTE Heard by Eavesdraft from ";

/// The transcript as WebVTT: a cue a stretch of speech, seven seconds and 80 characters at most, cut at pauses.
///
/// Word times stay readable: a word begins at the time mark before it, and ends at the mark after it.
pub fn webvtt(transcript: &Transcript) -> Vec<u8> {
    let mut text = format!("WEBVTT\n\n{MARK}{}\n", transcript.source.replace(ARROW, "->"));
    for cue in cues(transcript) {
        // Writing to a String can't fail.
        let _ = write!(text, "\n{}\n{}\n", times(&cue), marked(&cue));
    }
    text.into_bytes()
}

fn bounds(cue: &[Timed]) -> (Moment, Moment) {
    let start = cue.first().map_or(Moment::default(), |word| word.start);
    let end = cue.iter().map(|word| word.end).max().unwrap_or_default();
    // By the standard a cue ends after it starts.
    (start, end.max(Moment(start.0 + 1)))
}

fn times(cue: &[Timed]) -> String {
    let (start, end) = bounds(cue);
    format!("{} {ARROW} {}", stamp(start), stamp(end))
}

/// The words with a mark where each begins, and one where it ends if a pause follows. By the standard marks rise
/// and lie within the cue; a time that doesn't is left out.
fn marked(cue: &[Timed]) -> String {
    let (mut last, end) = bounds(cue);
    let mut text = String::new();
    let mut mark = |text: &mut String, at: Moment| {
        if at > last && at < end {
            let _ = write!(text, "<{}>", stamp(at));
            last = at;
        }
    };
    for (n, word) in cue.iter().enumerate() {
        if let Some(before) = n.checked_sub(1).map(|n| cue[n]) {
            if before.end < word.start {
                mark(&mut text, before.end);
            }
            text.push(' ');
            mark(&mut text, word.start);
        }
        text.push_str(&encode_text(word.text));
    }
    text
}
