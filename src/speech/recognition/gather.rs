//! From what was heard in each chunk to the transcript of the whole recording.

use super::HearError;
use super::chunks::Chunk;
use super::engine::Token;
use super::noise::{Loop, collapse_loops, drop_described};
use super::spelling::{self, HeardWord};
use crate::model::span::Moment;
use crate::speech::sound::clock;
use crate::speech::{Transcript, Utterance, Word};
use std::path::Path;

/// A pause of so many seconds between two words ends an utterance.
const PAUSE: f64 = 0.8;

/// What is known of a recording once it was read to its end.
pub(super) struct Reading {
    /// Seconds.
    pub(super) length: f64,
    pub(super) notices: Vec<String>,
}

/// The transcript so far.
#[derive(Default)]
pub(super) struct Gatherer {
    utterances: Vec<Utterance>,
    notices: Vec<String>,
    /// When the last word began and ended.
    last: (f64, f64),
}

impl Gatherer {
    /// Takes the next chunk, and gives its words as text.
    pub(super) fn take(&mut self, chunk: &Chunk, segments: &[Vec<Token>]) -> String {
        let words = drop_described(spelling::words(segments));
        let (words, loops) = collapse_loops(words);
        self.notices.extend(loops.iter().map(|found| loop_notice(chunk, found)));
        for segment in words.chunk_by(|a, b| a.segment == b.segment) {
            for (n, word) in segment.iter().enumerate() {
                self.add(chunk, word, n == 0, n + 1 == segment.len());
            }
        }
        words.iter().map(|word| word.text.as_str()).collect::<Vec<_>>().join(" ")
    }

    fn add(&mut self, chunk: &Chunk, heard: &HeardWord, new_segment: bool, last: bool) {
        let closes = last || heard.text.ends_with(['.', ',', '?', '!', ';', ':']);
        let (start, end) = chunk.recording_time(heard.start, heard.end, closes);
        let start = start.max(self.last.0);
        if new_segment || start - self.last.1 > PAUSE || self.utterances.is_empty() {
            self.utterances.push(Utterance::default());
        }
        self.last = (start, end.max(start));
        let word = Word {
            text: heard.text.clone(),
            start: Some(Moment::from_seconds(self.last.0)),
            end: Some(Moment::from_seconds(self.last.1)),
            probability: Some(heard.probability),
        };
        if let Some(utterance) = self.utterances.last_mut() {
            utterance.words.push(word);
        }
    }

    /// The words alone.
    pub(super) fn utterances(self) -> Vec<Utterance> {
        self.utterances
    }

    /// The transcript.
    ///
    /// # Errors
    /// Nobody spoke.
    pub(super) fn finish(
        self,
        path: &Path,
        digest: String,
        reading: Reading,
        recognizer: &str,
    ) -> Result<Transcript, HearError> {
        let source = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy().into_owned();
        if self.utterances.is_empty() {
            return Err(nobody_spoke(&source, &reading));
        }
        Ok(Transcript {
            source,
            digest: Some(digest),
            length: Some(Moment::from_seconds(reading.length)),
            recognizer: Some(recognizer.to_owned()),
            notices: reading.notices.into_iter().chain(self.notices).collect(),
            clips: Vec::new(),
            utterances: self.utterances,
            second_pass: Vec::new(),
        })
    }
}

fn nobody_spoke(source: &str, reading: &Reading) -> HearError {
    let notices: String = reading.notices.iter().map(|notice| format!(" ({notice})")).collect();
    HearError::Recording(format!(
        "no speech was found in `{source}`, {} of sound{notices}; play it to check that the microphone was on",
        clock(reading.length)
    ))
}

fn loop_notice(chunk: &Chunk, found: &Loop) -> String {
    let (start, end) = chunk.recording_time(found.start, found.end, true);
    format!(
        "from {} to {} the recognizer wrote \"{}\" again and again, which is kept once: listen to that part",
        clock(start),
        clock(end),
        found.words
    )
}
