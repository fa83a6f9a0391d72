//! A recogniser that replays stored words: for tests, and for machines that have no model.

use super::{HearError, Progress, Recognizer, Transcript};
use std::path::Path;

/// Hears the same transcript in whatever recording it is given.
#[derive(Debug, Clone, PartialEq)]
pub struct ScriptedRecognizer {
    transcript: Transcript,
}

impl ScriptedRecognizer {
    /// A recogniser that will hear `transcript`.
    pub fn new(transcript: Transcript) -> Self {
        Self { transcript }
    }
}

impl Recognizer for ScriptedRecognizer {
    /// Replays the words, one utterance at a time; the file at `path` lends only its name.
    fn hear(&self, path: &Path, progress: &mut dyn FnMut(Progress)) -> Result<Transcript, HearError> {
        let total = self.transcript.length.map(|length| length.seconds());
        for utterance in &self.transcript.utterances {
            let done = utterance.words.last().and_then(|word| word.end).map_or(0.0, |end| end.seconds());
            let heard: Vec<&str> = utterance.words.iter().map(|word| word.text.as_str()).collect();
            progress(Progress { done, total, heard: heard.join(" ") });
        }
        let source = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy().into_owned();
        Ok(Transcript { source, ..self.transcript.clone() })
    }

    fn fingerprint(&self) -> Result<String, HearError> {
        let words =
            serde_json::to_vec(&self.transcript).map_err(|error| HearError::Passing(error.to_string()))?;
        Ok(crate::model::digest::of_bytes(&words))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::speech::{Utterance, Word};

    #[test]
    fn it_replays_its_words_under_the_name_of_the_recording() {
        let word = |text: &str| Word { text: text.to_owned(), ..Word::default() };
        let said = |text: &str| Utterance { words: text.split(' ').map(word).collect() };
        let transcript =
            Transcript { utterances: vec![said("two lights"), said("one gate")], ..Transcript::default() };
        let mut told = Vec::new();
        let recognizer = ScriptedRecognizer::new(transcript.clone());
        let heard = recognizer.hear(Path::new("walks/one.wav"), &mut |p| told.push(p.heard)).unwrap();
        assert_eq!(heard.source, "one.wav");
        assert_eq!(heard.utterances, transcript.utterances);
        assert_eq!(told, ["two lights", "one gate"]);
    }
}
