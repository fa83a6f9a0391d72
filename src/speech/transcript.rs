//! What was said, word by word, whether it was heard or read.

use crate::model::Clip;
use crate::model::span::{Moment, TextSpan};
use serde::{Deserialize, Serialize};

/// Everything that was said on one recording.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Transcript {
    /// The recording or text file the words came from: its file name, without folders.
    pub source: String,
    /// SHA-256 of that file, in hexadecimal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub digest: Option<String>,
    /// Length of the recording in seconds; none for text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Moment>,
    /// What turned the sound into words, for example the model's file name; none for text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recognizer: Option<String>,
    /// What a person should know about the reading, for example that the file was cut off.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notices: Vec<String>,
    /// The recordings it was put together from, in order; empty where it comes from one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clips: Vec<Clip>,
    /// Stretches of speech in the order they were said: a recognizer's segments, a caption's cues, a
    /// text's paragraphs. A boundary between two says nothing about sentences.
    pub utterances: Vec<Utterance>,
    /// The same recording with what was doubtful as a second pass heard it; empty where there was none. What had no
    /// second pass stands here as it does above, to the last digit.
    #[serde(rename = "heard_again", default, skip_serializing_if = "Vec::is_empty")]
    pub second_pass: Vec<Utterance>,
}

/// A stretch of speech.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Utterance {
    /// The words, in order.
    pub words: Vec<Word>,
}

/// One word as it was heard, with the punctuation that clings to it.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Word {
    /// The word: never empty, no white space inside.
    pub text: String,
    /// When it begins; none for text without times.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start: Option<Moment>,
    /// When it ends.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub end: Option<Moment>,
    /// The recognizer's probability that this word is right, from 0 to 1; none for text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub probability: Option<f32>,
}

impl Transcript {
    /// A text without times, one utterance a line.
    pub fn from_plain(text: &str) -> Self {
        let word = |w: &str| Word { text: w.to_owned(), ..Word::default() };
        let line = |l: &str| Utterance { words: l.split_whitespace().map(word).collect() };
        let utterances = text.lines().map(line).filter(|u| !u.words.is_empty()).collect();
        Self { utterances, ..Self::default() }
    }

    /// The recording as the second pass heard it; none where there was none.
    pub fn of_second_pass(&self) -> Option<Self> {
        let heard = || Self { utterances: self.second_pass.clone(), second_pass: Vec::new(), ..self.clone() };
        (!self.second_pass.is_empty()).then(heard)
    }

    /// All words in order.
    pub fn words(&self) -> impl Iterator<Item = &Word> {
        self.utterances.iter().flat_map(|u| &u.words)
    }

    /// The words as one text, one utterance a line, and where each word stands in it.
    pub fn text(&self) -> (String, Vec<TextSpan>) {
        let mut text = String::new();
        let mut spans = Vec::new();
        for utterance in &self.utterances {
            for (n, word) in utterance.words.iter().enumerate() {
                if n > 0 {
                    text.push(' ');
                } else if !text.is_empty() {
                    text.push('\n');
                }
                let start = text.len();
                text.push_str(&word.text);
                spans.push(TextSpan { start, end: text.len() });
            }
        }
        (text, spans)
    }
}
