//! How far every recording is settled, without reading its words, its draft and its acts: counted once, and anew where a
//! draft or an act came later.

use super::{Recording, Store, StoreError, written};
use crate::scope::review::{Standing, scope_and_strays};
use rusqlite::params;
use std::path::PathBuf;

/// A recording, and how far it is settled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stands {
    /// The recording.
    pub recording: Recording,
    /// How far it is; none where that has to be counted first, see [`Store::count`].
    pub standing: Option<Standing>,
}

/// Every recording with what was counted of it, where no draft and no act came later.
const ALL: &str = "
    with now as (
        select r.id, r.name, r.path,
            (select max(number) from draft where recording = r.id) as draft,
            (select coalesce(max(number), 0) from act where recording = r.id) as act
        from recording r
    )
    select now.id, now.name, now.path, s.json
    from now left join standing s on s.recording = now.id and s.draft = now.draft and s.act = now.act";

impl Store {
    /// Every recording, and how far it is settled where that is known.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn standings(&self) -> Result<Vec<Stands>, StoreError> {
        let read = || {
            let stands = |row: &rusqlite::Row| {
                let path: String = row.get(2)?;
                let recording = Recording { id: row.get(0)?, name: row.get(1)?, path: PathBuf::from(path) };
                // What an earlier program counted otherwise is counted anew.
                let json: Option<String> = row.get(3)?;
                Ok(Stands { recording, standing: json.and_then(|json| serde_json::from_str(&json).ok()) })
            };
            self.connection.prepare_cached(ALL)?.query_map([], stands)?.collect::<Result<Vec<_>, _>>()
        };
        read().map_err(|cause| self.failed(cause))
    }

    /// Counts how far a recording is settled now; none where it isn't in the store.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn count(&self, id: &str) -> Result<Option<Counted>, StoreError> {
        let Some((number, json)) = self.latest(id).map_err(|cause| self.failed(cause))? else {
            return Ok(None);
        };
        let draft = self.parsed(&json)?;
        let acts = self.acts(id, 0)?;
        let (scope, _) = scope_and_strays(&draft, &acts);
        Ok(Some(Counted { draft: number, act: scope.version, standing: Standing::of(&draft, &scope) }))
    }

    /// Keeps what was counted of a recording.
    ///
    /// # Errors
    /// Where the store can't be written; nothing has changed then.
    pub fn keep_count(&self, id: &str, counted: &Counted) -> Result<(), StoreError> {
        let write = || {
            self.connection
                .prepare_cached(
                    "insert or replace into standing (recording, draft, act, json) values (?1, ?2, ?3, ?4)",
                )?
                .execute(params![id, counted.draft, counted.act, written(&counted.standing)])
        };
        write().map(drop).map_err(|cause| self.failed(cause))
    }
}

/// What was counted of a recording, and when: after which draft and which act.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Counted {
    /// The number of the draft.
    pub draft: u64,
    /// The number of the act; 0 before the first.
    pub act: u64,
    /// What came of it.
    pub standing: Standing,
}
