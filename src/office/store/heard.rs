//! What was heard in recordings, and what drafts were made of: so that work is never done twice.

use super::{Store, StoreError, written};
use crate::speech::Transcript;
use rusqlite::{OptionalExtension, params};

/// The words of a recording, and how long it took to hear them.
#[derive(Debug, Clone, PartialEq)]
pub struct Heard {
    /// The words.
    pub transcript: Transcript,
    /// Seconds.
    pub seconds: f64,
}

/// What the latest draft of a recording was made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// SHA-256 over words, rules and program.
    pub of: String,
    /// What a day's summary tells of it, as JSON.
    pub told: String,
}

impl Store {
    /// What was heard in a recording by the recognizer of that fingerprint; without one, what was heard last.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn heard(&self, recording: &str, fingerprint: Option<&str>) -> Result<Option<Heard>, StoreError> {
        let row: Option<(String, f64)> = self
            .connection
            .query_row(
                "select words, seconds from heard where recording = ?1 and (?2 is null or fingerprint = ?2) \
                 order by at desc, fingerprint limit 1",
                params![recording, fingerprint],
                |row| Ok((row.get(0)?, row.get(1)?)),
            )
            .optional()
            .map_err(|cause| self.failed(cause))?;
        row.map(|(words, seconds)| Ok(Heard { transcript: self.parsed(&words)?, seconds })).transpose()
    }

    /// Whether a recording was heard by the recognizer of that fingerprint.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn has_heard(&self, recording: &str, fingerprint: Option<&str>) -> Result<bool, StoreError> {
        self.connection
            .prepare_cached(
                "select exists (select 1 from heard where recording = ?1 and (?2 is null or fingerprint = ?2))",
            )
            .and_then(|mut rows| rows.query_row(params![recording, fingerprint], |row| row.get(0)))
            .map_err(|cause| self.failed(cause))
    }

    /// Keeps what was heard in a recording by the recognizer of that fingerprint.
    ///
    /// # Errors
    /// Where the store can't be written.
    pub fn keep_heard(
        &self,
        recording: &str,
        fingerprint: &str,
        heard: &Heard,
        at: &str,
    ) -> Result<(), StoreError> {
        self.connection
            .execute(
                "insert or replace into heard (recording, fingerprint, words, seconds, at) values (?1, ?2, ?3, ?4, ?5)",
                params![recording, fingerprint, written(&heard.transcript), heard.seconds, at],
            )
            .map(drop)
            .map_err(|cause| self.failed(cause))
    }

    /// What the latest draft of a recording was made of; none where that isn't known.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn made(&self, recording: &str) -> Result<Option<Made>, StoreError> {
        let made = |row: &rusqlite::Row| Ok(Made { of: row.get(0)?, told: row.get(1)? });
        self.connection
            .prepare_cached("select of, told from made where recording = ?1")
            .and_then(|mut rows| rows.query_row([recording], made).optional())
            .map_err(|cause| self.failed(cause))
    }

    /// Keeps what the latest draft of a recording in the store was made of.
    ///
    /// # Errors
    /// Where the store can't be written.
    pub fn keep_made(&self, recording: &str, made: &Made) -> Result<(), StoreError> {
        self.connection
            .execute(
                "insert or replace into made (recording, of, told) values (?1, ?2, ?3)",
                params![recording, made.of, made.told],
            )
            .map(drop)
            .map_err(|cause| self.failed(cause))
    }
}
