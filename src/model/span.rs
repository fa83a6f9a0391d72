//! Where something stands: in the text, and in the recording. Two types, so that the two can't be mixed up.

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::ops::Range;

/// A stretch of the transcript's text, in bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct TextSpan {
    /// The first byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl TextSpan {
    /// The same stretch as a range, to index a `str` with.
    pub fn range(self) -> Range<usize> {
        self.start..self.end
    }

    /// The smallest stretch that holds both.
    pub fn join(self, other: Self) -> Self {
        Self { start: self.start.min(other.start), end: self.end.max(other.end) }
    }
}

/// A moment of the recording, in milliseconds from its start. Written to JSON as seconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Moment(pub u64);

impl Moment {
    /// The moment that many seconds after the start; anything below zero, or not a number, is the start.
    pub fn from_seconds(seconds: f64) -> Self {
        Self((seconds * 1000.0).round().max(0.0) as u64)
    }

    /// Seconds from the start.
    pub fn seconds(self) -> f64 {
        self.0 as f64 / 1000.0
    }
}

impl Serialize for Moment {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(self.seconds())
    }
}

impl<'de> Deserialize<'de> for Moment {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let seconds = f64::deserialize(from)?;
        if !seconds.is_finite() || seconds < 0.0 {
            return Err(serde::de::Error::custom("a time is a number of seconds, zero or more"));
        }
        Ok(Self::from_seconds(seconds))
    }
}
