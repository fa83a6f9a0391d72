//! Recordings, with their words and their latest drafts.

use super::{Store, StoreError};
use crate::model::{Clip, Draft};
use crate::speech::Transcript;
use rusqlite::{OptionalExtension, params};
use std::path::{Path, PathBuf};

/// A recording in the store.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recording {
    /// What it is known by: the SHA-256 of the recording or text, in hexadecimal.
    pub id: String,
    /// Its file name.
    pub name: String,
    /// Where it is, or was; of a visit in several clips the first of them.
    pub path: PathBuf,
}

impl Recording {
    /// Where its sound is: its own file, or those of its clips, which lie in one folder.
    pub fn files<'a>(&self, clips: impl IntoIterator<Item = &'a str>) -> Vec<PathBuf> {
        let files: Vec<PathBuf> = clips.into_iter().map(|clip| self.path.with_file_name(clip)).collect();
        if files.is_empty() { vec![self.path.clone()] } else { files }
    }

    /// See [`Recording::files`], for the clips of a draft.
    pub fn files_of(&self, clips: &[Clip]) -> Vec<PathBuf> {
        self.files(clips.iter().map(|clip| clip.source.as_str()))
    }
}

/// A recording with its words and its latest draft.
#[derive(Debug, Clone, PartialEq)]
pub struct Drafted {
    /// The recording.
    pub recording: Recording,
    /// Its words.
    pub transcript: Transcript,
    /// The latest draft, as drafted.
    pub draft: Draft,
    /// The draft's number, from 1.
    pub number: u64,
}

impl Store {
    /// Every recording, by name.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn recordings(&self) -> Result<Vec<Recording>, StoreError> {
        let read = || {
            let mut rows =
                self.connection.prepare("select id, name, path from recording order by name, id")?;
            let recording = |row: &rusqlite::Row| {
                let path: String = row.get(2)?;
                Ok(Recording { id: row.get(0)?, name: row.get(1)?, path: PathBuf::from(path) })
            };
            rows.query_map([], recording)?.collect::<Result<Vec<_>, _>>()
        };
        read().map_err(|cause| self.failed(cause))
    }

    /// A recording with its words and its latest draft; none where it isn't in the store.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn drafted(&self, id: &str) -> Result<Option<Drafted>, StoreError> {
        let row = self
            .connection
            .query_row(
                "select r.name, r.path, r.words, d.json, d.number from recording r join draft d on d.recording = r.id \
                 where r.id = ?1 order by d.number desc limit 1",
                [id],
                |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?, row.get(4)?)),
            )
            .optional()
            .map_err(|cause| self.failed(cause))?;
        let Some((name, path, words, json, number)): Option<(String, String, String, String, u64)> = row
        else {
            return Ok(None);
        };
        Ok(Some(Drafted {
            recording: Recording { id: id.to_owned(), name, path: PathBuf::from(path) },
            transcript: self.parsed(&words)?,
            draft: self.parsed(&json)?,
            number,
        }))
    }

    /// Where a recording is, as far as the store knows; none where it isn't in the store.
    pub(super) fn path(&self, id: &str) -> Result<Option<PathBuf>, StoreError> {
        let read = || {
            self.connection
                .prepare_cached("select path from recording where id = ?1")?
                .query_row([id], |row| row.get(0))
                .optional()
        };
        read().map(|path: Option<String>| path.map(PathBuf::from)).map_err(|cause| self.failed(cause))
    }

    /// A recording is found elsewhere than the last time.
    pub(super) fn moved(&self, id: &str, path: &Path) -> Result<(), StoreError> {
        let row = params![id, path.to_string_lossy()];
        let done = self.connection.execute("update recording set path = ?2 where id = ?1", row);
        done.map(drop).map_err(|cause| self.failed(cause))
    }
}
