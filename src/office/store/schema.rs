//! The tables, and the way from one form of them to the next.

use super::{StoreError, form_three};
use rusqlite::{Connection, TransactionBehavior};
use std::path::Path;

/// Changes what is in the rows of a store, whose file is told.
type Rework = fn(&Connection, &Path) -> Result<(), StoreError>;

/// What brings the store from one form to the next.
struct Step {
    /// What is changed by SQL.
    sql: &'static str,
    /// What is changed after that.
    then: Option<Rework>,
}

/// The steps from each form to the next; the first makes it from nothing. A published one never changes.
const STEPS: [Step; 4] = [Step { sql: "
    create table recording (
        id text primary key,          -- SHA-256 of the recording or text
        name text not null,
        path text not null,
        words text not null,          -- the transcript, as `hear` writes it
        at text not null              -- when it came into the store, RFC 3339
    ) strict;
    create table draft (
        recording text not null references recording (id),
        number integer not null,      -- from 1; the latest counts, none is ever changed
        json text not null,           -- as `draft` writes it
        at text not null,
        primary key (recording, number)
    ) strict;
    create table act (
        recording text not null references recording (id),
        number integer not null,      -- from 1 without gaps
        who text not null,
        at text not null,
        told text not null,           -- in plain words
        json text not null,           -- what was asked for, and every line before and after
        primary key (recording, number)
    ) strict;
    create trigger draft_stays before update on draft begin select raise(abort, 'a draft is never changed'); end;
    create trigger act_stays before update on act begin select raise(abort, 'an act is never changed'); end;
    create trigger act_is_kept before delete on act begin select raise(abort, 'an act is never deleted'); end;
", then: None }, Step { sql: "
    create table heard (
        recording text not null,      -- SHA-256 of the recording
        ears text not null,           -- the fingerprint of what it was heard with
        words text not null,          -- the transcript, as `hear` writes it
        seconds real not null,        -- how long that took
        at text not null,
        primary key (recording, ears)
    ) strict;
    create table file (               -- files whose digest is known while size and time of change stay as they are
        path text primary key,
        size integer not null,
        changed integer not null,     -- nanoseconds since 1970
        digest text not null
    ) strict;
    create table taken (              -- drafts and words that `review` took in, while they stay as they were
        path text primary key,
        size integer not null,
        changed integer not null,     -- nanoseconds since 1970
        recording text not null
    ) strict;
    create table made (               -- what a recording's draft and documents were made of
        recording text primary key references recording (id),
        of text not null,             -- SHA-256 over words, rules and program
        told text not null            -- what a day's summary tells of it
    ) strict;
    create table standing (           -- how far a recording is settled; counted anew where draft or act are later
        recording text primary key references recording (id),
        draft integer not null,
        act integer not null,
        json text not null
    ) strict;
", then: None }, Step { sql: "
    drop trigger act_stays;
    drop trigger act_is_kept;
    alter table act rename to event;
    alter table event rename column told to summary;
    alter table heard rename column ears to fingerprint;
    drop table standing;
    create table progress (           -- how far the review has come; counted again where draft or event are later
        recording text primary key references recording (id),
        draft integer not null,
        event integer not null,
        json text not null
    ) strict;
", then: Some(form_three::rename) }, Step { sql: "
    create trigger event_stays before update on event begin select raise(abort, 'an event is never changed'); end;
    create trigger event_is_kept before delete on event begin select raise(abort, 'an event is never deleted'); end;
", then: None }];

/// Brings the store to the present form.
pub(super) fn migrate(connection: &mut Connection, file: &Path) -> Result<(), StoreError> {
    let failed = |cause| StoreError::Unusable { file: file.to_owned(), cause };
    let tx = connection.transaction_with_behavior(TransactionBehavior::Immediate).map_err(failed)?;
    let form: usize = tx.pragma_query_value(None, "user_version", |row| row.get(0)).map_err(failed)?;
    if form > STEPS.len() {
        return Err(StoreError::Later { file: file.to_owned(), form, known: STEPS.len() });
    }
    for step in &STEPS[form..] {
        tx.execute_batch(step.sql).map_err(failed)?;
        if let Some(then) = step.then {
            then(&tx, file)?;
        }
    }
    tx.pragma_update(None, "user_version", STEPS.len()).map_err(failed)?;
    tx.commit().map_err(failed)
}
