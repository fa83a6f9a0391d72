//! Speech: what was said, word by word, with times and the recognizer's own doubt where there are any.
//!
//! Takes a recording, or stored words in any of four text forms, and gives a [`Transcript`]. Nothing after this room
//! knows whether the words came from sound.

mod transcript;

pub mod sound;

pub mod recognition;

#[cfg(feature = "models")]
pub mod models;

pub mod clips;

pub mod clock;

pub mod read;

pub mod write;

pub use recognition::{HearError, Progress, Recognizer, SecondPass};
pub use transcript::{Transcript, Utterance, Word};
