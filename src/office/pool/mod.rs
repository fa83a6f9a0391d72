//! A pool: recordings and their words in a place that several machines reach, so that hearing can be shared out.
//!
//! Takes a folder that all of them see, or a bucket. What is heard depends on the recording and the recognizer alone,
//! so everything lies under digests:
//!
//! | object | what it holds |
//! |---|---|
//! | `recordings/RECORDING` | the bytes of a recording |
//! | `names/RECORDING.json` | its file name |
//! | `words/FINGERPRINT/RECORDING.json` | its transcript |
//! | `apart/FINGERPRINT/RECORDING.json` | why it can't be heard |
//!
//! RECORDING is the SHA-256 of the bytes, FINGERPRINT that of the recognizer. Each object is written whole or not at
//! all, and is the same whoever writes it: no machine knows of another, one that was killed is started again and goes
//! on, and two that do the same do no harm. Drafting is quick and stays where the office is: [`PoolRecognizer`] gives
//! it the words.

mod address;
mod error;
mod gathered;
mod hear;
mod names;
mod objects;
mod part;
mod put;
mod status;

pub use error::PoolError;
pub use gathered::PoolRecognizer;
pub use hear::{Heard, Share, hear, share};
pub use objects::Pool;
pub use part::{Part, PartError};
pub use put::{Put, name, put};
pub use status::{Skipped, Status, fingerprints, status};
