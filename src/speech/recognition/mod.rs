//! Recognition: from the sound of a recording to its words.
//!
//! The voice in the sound is found and packed into chunks of half a minute (`voice`, `chunks`). Each chunk is heard by a
//! worker that is free (`workers`), with an engine (`engine`, `whisper`); the opening of a recording shows whether it is
//! English (`opening`), and a chunk that the engine is unsure of gets a second pass with a smaller model
//! (`second_pass`). What the engine wrote is spelled out in words (`spelling`), rid of noise and loops (`noise`), and put
//! together in order with the recording's own times (`gather`). `hearing` runs all of it at once.

mod recognizer;

mod voice;

mod chunks;

mod engine;

pub mod workers;

mod opening;

mod second_pass;

mod spelling;

mod noise;

mod gather;

mod hearing;

#[cfg(feature = "whisper")]
pub mod whisper;

pub use engine::{Engine, Language, Segments, Token};
pub use hearing::{Engines, hear};
pub use recognizer::{HearError, Progress, Recognizer};
pub use second_pass::SecondPass;
