//! Putting drafts into the store: each is kept as it was drafted, the latest one counts.

use super::{Counted, Recording, Store, StoreError, written};
use crate::model::Draft;
use crate::scope::review::{ReviewProgress, Scope};
use crate::speech::Transcript;
use rusqlite::{OptionalExtension, params};

/// Where a draft comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// From a file beside the recording. One that the store has or had already is no news: what was drafted here since
    /// holds.
    Folder,
    /// From the words in the store, with the rules as they are now.
    Here,
}

/// What became of a recording that was put into the store.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Put {
    /// It is new.
    New,
    /// It has a new draft.
    Redrafted,
    /// Nothing changed.
    Known,
}

impl Store {
    /// Puts a recording with its words and its draft into the store. A draft that differs from the latest one becomes
    /// the latest, unless it comes from the folder and was here before; what people did stays.
    ///
    /// # Errors
    /// Where the store can't be written; nothing has changed then.
    pub fn put(
        &mut self,
        recording: &Recording,
        transcript: &Transcript,
        draft: &Draft,
        origin: Origin,
        at: &str,
    ) -> Result<Put, StoreError> {
        self.at_once(|store| store.put_one(recording, transcript, draft, origin, at))
    }

    /// See [`Store::put`]; within [`Store::at_once`].
    pub(super) fn put_one(
        &self,
        recording: &Recording,
        transcript: &Transcript,
        draft: &Draft,
        origin: Origin,
        at: &str,
    ) -> Result<Put, StoreError> {
        let failed = |cause| self.failed(cause);
        let json = written(draft);
        let id = &recording.id;
        let before = self.latest(id).map_err(failed)?;
        self.put_words(recording, transcript, at).map_err(failed)?;
        let had = self.had(id, &json).map_err(failed)?;
        let put = match &before {
            Some(_) if had && origin == Origin::Folder => Put::Known,
            Some((_, latest)) if *latest == json => Put::Known,
            Some(_) => Put::Redrafted,
            None => Put::New,
        };
        if put != Put::Known {
            let number = before.map_or(1, |(number, _)| number + 1);
            self.put_draft(id, number, &json, at).map_err(failed)?;
        }
        if put == Put::New {
            let progress = ReviewProgress::of(draft, &Scope::of(draft));
            self.keep_count(id, &Counted { draft: 1, event: 0, progress })?;
        }
        Ok(put)
    }

    /// The latest draft, and its number.
    pub(super) fn latest(&self, id: &str) -> rusqlite::Result<Option<(u64, String)>> {
        self.connection
            .prepare_cached(
                "select number, json from draft where recording = ?1 order by number desc limit 1",
            )?
            .query_row([id], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()
    }

    /// Whether a recording has, or had, that draft.
    fn had(&self, id: &str, json: &str) -> rusqlite::Result<bool> {
        self.connection
            .prepare_cached("select exists (select 1 from draft where recording = ?1 and json = ?2)")?
            .query_row([id, json], |row| row.get(0))
    }

    fn put_words(&self, recording: &Recording, transcript: &Transcript, at: &str) -> rusqlite::Result<()> {
        let Recording { id, name, path } = recording;
        let sql = "insert into recording (id, name, path, words, at) values (?1, ?2, ?3, ?4, ?5) \
                   on conflict (id) do update set name = excluded.name, path = excluded.path, words = excluded.words";
        let row = params![id, name, path.to_string_lossy(), written(transcript), at];
        self.connection.prepare_cached(sql)?.execute(row).map(drop)
    }

    fn put_draft(&self, id: &str, number: u64, json: &str, at: &str) -> rusqlite::Result<()> {
        let sql = "insert into draft (recording, number, json, at) values (?1, ?2, ?3, ?4)";
        self.connection.prepare_cached(sql)?.execute(params![id, number, json, at]).map(drop)
    }
}
