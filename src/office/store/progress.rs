//! How far the review of every recording has come, without reading its words, its draft and its events: counted once, and
//! again where a draft or an event came later.

use super::{Recording, Store, StoreError, written};
use crate::scope::review::{ReviewProgress, scope_and_strays};
use rusqlite::params;
use std::path::PathBuf;

/// A recording, and how far its review has come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordingProgress {
    /// The recording.
    pub recording: Recording,
    /// How far that is; none where that has to be counted first, see [`Store::count`].
    pub progress: Option<ReviewProgress>,
}

/// Every recording with what was counted of it, where no draft and no event came later.
const ALL: &str = "
    with now as (
        select r.id, r.name, r.path,
            (select max(number) from draft where recording = r.id) as draft,
            (select coalesce(max(number), 0) from event where recording = r.id) as event
        from recording r
    )
    select now.id, now.name, now.path, s.json
    from now left join progress s on s.recording = now.id and s.draft = now.draft and s.event = now.event";

impl Store {
    /// Every recording, and how far its review has come where that is known.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn progress(&self) -> Result<Vec<RecordingProgress>, StoreError> {
        let read = || {
            let listed = |row: &rusqlite::Row| {
                let path: String = row.get(2)?;
                let recording = Recording { id: row.get(0)?, name: row.get(1)?, path: PathBuf::from(path) };
                // What an earlier program counted differently is counted again.
                let json: Option<String> = row.get(3)?;
                Ok(RecordingProgress {
                    recording,
                    progress: json.and_then(|json| serde_json::from_str(&json).ok()),
                })
            };
            self.connection.prepare_cached(ALL)?.query_map([], listed)?.collect::<Result<Vec<_>, _>>()
        };
        read().map_err(|cause| self.failed(cause))
    }

    /// Counts how far the review of a recording has come; none where it isn't in the store.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn count(&self, id: &str) -> Result<Option<Counted>, StoreError> {
        let Some((number, json)) = self.latest(id).map_err(|cause| self.failed(cause))? else {
            return Ok(None);
        };
        let draft = self.parsed(&json)?;
        let events = self.events(id, 0)?;
        let (scope, _) = scope_and_strays(&draft, &events);
        Ok(Some(Counted {
            draft: number,
            event: scope.version,
            progress: ReviewProgress::of(&draft, &scope),
        }))
    }

    /// Keeps what was counted of a recording.
    ///
    /// # Errors
    /// Where the store can't be written; nothing has changed then.
    pub fn keep_count(&self, id: &str, counted: &Counted) -> Result<(), StoreError> {
        let write = || {
            self.connection
                .prepare_cached(
                    "insert or replace into progress (recording, draft, event, json) values (?1, ?2, ?3, ?4)",
                )?
                .execute(params![id, counted.draft, counted.event, written(&counted.progress)])
        };
        write().map(drop).map_err(|cause| self.failed(cause))
    }
}

/// What was counted of a recording, and when: after which draft and which event.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Counted {
    /// The number of the draft.
    pub draft: u64,
    /// The number of the event; 0 before the first.
    pub event: u64,
    /// What came of it.
    pub progress: ReviewProgress,
}
