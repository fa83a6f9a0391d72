//! The seam between the work around a recognizer (chunks, workers, words, times) and the engine itself.

use super::HearError;

/// An engine that hears one chunk at a time. Each worker has its own.
pub trait Engine: Send {
    /// Hears up to 28 s of sound at 16 kHz and gives what was said, segment by segment. The answer depends on
    /// these samples only, not on what was heard before.
    ///
    /// # Errors
    /// One sentence for a person, where the engine fails.
    fn hear(&mut self, samples: &[f32]) -> Result<Segments, HearError>;

    /// What language the sound that was heard last seems to be in; none where the engine can't tell, or need not.
    ///
    /// # Errors
    /// One sentence for a person, where the engine fails.
    fn language(&mut self) -> Result<Option<Language>, HearError>;
}

/// What was said in a chunk, segment by segment.
pub type Segments = Vec<Vec<Token>>;

/// What language a sound seems to be in.
#[derive(Debug, Clone, PartialEq)]
pub struct Language {
    /// The likeliest one, by its English name in small letters.
    pub name: String,
    /// How likely it is, from 0 to 1.
    pub probability: f32,
    /// How likely English is, from 0 to 1.
    pub english: f32,
}

/// A scrap of text as an engine gives it: a word, a part of one, or a punctuation mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Token {
    /// UTF-8, which may be cut within a character; a white space at its start begins a new word.
    pub text: Vec<u8>,
    /// When it begins, in seconds of the chunk.
    pub start: f64,
    /// When it ends, in seconds of the chunk.
    pub end: f64,
    /// The engine's probability, from 0 to 1.
    pub probability: f32,
}
