//! The reader: a small network that was trained on labelled narrations to relate the pieces that the rules find.
//!
//! Rules find the pieces; which of them is a line and which is only talk, which number and which work belongs to it, and where
//! it stands, the rules' own following of the talk tells for speech it was written for. The reader has learned it from many
//! speakers, and errs elsewhere. `training/` makes it, `models/reader.safetensors` holds what it learned, and `models.md`
//! tells what it was trained on and how far to trust it.

mod answers;
mod chain;
mod encoder;
mod heads;
mod input;
mod network;
mod parts;
mod pointer;
mod read;
mod reading;
mod weights;
mod wordpiece;

pub use input::{Input, NamedStructure, NamedThing, ToldAmount};
pub use read::Reader;
pub use reading::{Anchor, Number, PARTS, Part, Reading, SIDES, UNITS, WORKS};
pub use weights::ReaderError;

use crate::language::rules;
use std::sync::LazyLock;

/// The file that holds what was learned.
const FILE: &str = "reader.safetensors";

/// What was learned.
static LEARNED: LazyLock<Result<Reader, ReaderError>> = LazyLock::new(|| {
    let bytes = rules::stored(FILE).ok_or_else(|| ReaderError::Missing(FILE.to_owned()))?;
    Reader::load(&bytes)
});

impl Reader {
    /// The reader that the program carries.
    ///
    /// # Errors
    /// Where it can't be loaded; a test holds that it can.
    pub fn built_in() -> Result<&'static Self, &'static ReaderError> {
        LEARNED.as_ref()
    }
}
