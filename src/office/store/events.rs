//! What people did to a recording: read in order, and only ever added.

use super::{Store, StoreError, written};
use crate::scope::review::Event;
use rusqlite::{Connection, Transaction, TransactionBehavior, params};
use std::path::Path;

impl Store {
    /// The events on a recording whose numbers are greater than `after`, in order.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn events(&self, recording: &str, after: u64) -> Result<Vec<Event>, StoreError> {
        events(&self.connection, recording, after, &self.file)
    }

    /// Adds the event that `decide` gives, which sees the events that came after number `after` first. Nobody else can
    /// add one in the meantime; where `decide` refuses, nothing is added.
    ///
    /// # Errors
    /// Where the store can't be written; nothing has changed then.
    pub fn add_event<E>(
        &mut self,
        recording: &str,
        after: u64,
        decide: impl FnOnce(Vec<Event>) -> Result<Event, E>,
    ) -> Result<Result<Event, E>, StoreError> {
        let file = self.file.clone();
        let failed = |cause| StoreError::Unusable { file: file.clone(), cause };
        let tx = self.connection.transaction_with_behavior(TransactionBehavior::Immediate).map_err(failed)?;
        let event = match decide(events(&tx, recording, after, &file)?) {
            Ok(event) => event,
            Err(refusal) => return Ok(Err(refusal)),
        };
        add(&tx, recording, &event).map_err(failed)?;
        tx.commit().map_err(failed)?;
        Ok(Ok(event))
    }
}

fn events(
    connection: &Connection,
    recording: &str,
    after: u64,
    file: &Path,
) -> Result<Vec<Event>, StoreError> {
    let read = || {
        let mut rows = connection
            .prepare_cached("select json from event where recording = ?1 and number > ?2 order by number")?;
        rows.query_map(params![recording, after], |row| row.get(0))?.collect::<Result<Vec<String>, _>>()
    };
    let all = read().map_err(|cause| StoreError::Unusable { file: file.to_owned(), cause })?;
    let parsed = |json: &String| {
        serde_json::from_str(json).map_err(|cause| StoreError::Unreadable { file: file.to_owned(), cause })
    };
    all.iter().map(parsed).collect()
}

fn add(tx: &Transaction, recording: &str, event: &Event) -> rusqlite::Result<()> {
    tx.execute(
        "insert into event (recording, number, who, at, summary, json) values (?1, ?2, ?3, ?4, ?5, ?6)",
        params![recording, event.number, event.who, event.at, event.summary, written(event)],
    )?;
    Ok(())
}
