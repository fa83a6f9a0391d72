//! The seam at the slow part: whatever turns sound into words.

use crate::speech::Transcript;
use std::path::Path;

/// How far a recognition has come.
#[derive(Debug, Clone, PartialEq)]
pub struct Progress {
    /// Seconds of the recording done.
    pub done: f64,
    /// Seconds in all, where known.
    pub total: Option<f64>,
    /// Words heard since the last report, as text; the first words of a recording may be told, and then once more
    /// with what follows them.
    pub heard: String,
}

/// Turns a recording into words.
pub trait Recognizer: Send + Sync {
    /// Hears the whole recording at `path`, telling `progress` now and then.
    ///
    /// # Errors
    /// One sentence for a person: what was wrong, where, what to do.
    fn hear(&self, path: &Path, progress: &mut dyn FnMut(Progress)) -> Result<Transcript, HearError>;

    /// SHA-256, in hexadecimal, of all that its words depend on besides the sound: the same recording and the same
    /// fingerprint give the same words.
    ///
    /// # Errors
    /// One sentence for a person, where a model's file can no longer be read.
    fn fingerprint(&self) -> Result<String, HearError>;

    /// Whether it gives words that were heard elsewhere: how long that takes tells nothing of hearing.
    fn repeats(&self) -> bool {
        false
    }

    /// What it lacks to hear as well as it was asked to, as a sentence for a person.
    fn lacks(&self) -> Option<String> {
        None
    }
}

/// A recording that couldn't be turned into words: a sentence for a person.
#[derive(Debug, thiserror::Error)]
pub enum HearError {
    /// For what the recording is. It is so again, whenever it is heard, while it stays as it is.
    #[error("{0}")]
    Recording(String),
    /// For something around it: the recognizer failed, a drive was away. Another time it may go well.
    #[error("{0}")]
    Passing(String),
}

impl HearError {
    /// The same of a recording by its name.
    #[must_use]
    pub fn of(self, name: &str) -> Self {
        match self {
            Self::Recording(why) => Self::Recording(format!("`{name}`: {why}")),
            Self::Passing(why) => Self::Passing(format!("`{name}`: {why}")),
        }
    }
}
