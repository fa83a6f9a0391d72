//! The recordings of a visit that was recorded in several, on one line of time.

use super::span::Moment;
use serde::{Deserialize, Serialize};

/// One recording of a visit that was recorded in several.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clip {
    /// Its file name, without folders.
    pub source: String,
    /// SHA-256 of that file, in hexadecimal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub digest: Option<String>,
    /// When it begins, on the visit's line of time.
    pub start: Moment,
    /// How long it is; none for text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Moment>,
    /// The first of its words, counted from 0 over the whole transcript.
    pub first_word: u32,
}

/// A moment within a clip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ClipMoment {
    /// Which clip, from 1.
    pub clip: usize,
    /// When in it.
    pub at: Moment,
}

/// Where a moment of the visit falls: in which clip, and when in it; none where the visit is one recording.
pub fn clip_moment(clips: &[Clip], moment: Moment) -> Option<ClipMoment> {
    if clips.len() < 2 {
        return None;
    }
    let clip = clips.iter().rposition(|clip| clip.start <= moment)?;
    Some(ClipMoment { clip: clip + 1, at: Moment(moment.0 - clips[clip].start.0) })
}
