//! Writing a transcript: as JSON, which keeps everything, and as WebVTT, which any player shows.
//!
//! Takes a [`Transcript`], gives bytes. It never touches a file.

mod cues;
mod webvtt;

pub use webvtt::{MARK, webvtt};

use super::Transcript;

/// What follows a recording's name in the names of its files of words.
pub const ENDINGS: [&str; 2] = ["transcript.json", "vtt"];

/// The transcript as JSON with one line a field, closed by a line end.
pub fn json(transcript: &Transcript) -> Vec<u8> {
    // Plain fields with text keys: there is nothing in them that JSON can't hold.
    let mut bytes = serde_json::to_vec_pretty(transcript).unwrap_or_default();
    bytes.push(b'\n');
    bytes
}

#[cfg(test)]
mod tests;
