//! The office's store: one SQLite file in the folder of the recordings, with the words, every draft as drafted, and
//! every act of a person. Acts are only ever added. A process may be killed at any moment: what was acknowledged is
//! there, and nothing is there by half.

mod error;
mod files;
mod heard;
mod import;
mod schema;
mod standing;

pub use error::StoreError;
pub use files::size_and_change;
pub use heard::{Heard, Made};
pub use import::{Taken, drafts, take_in, unreadable};
pub use standing::{Counted, Stands};

use crate::model::{Clip, Draft};
use crate::scope::review::{Act, Scope, Standing};
use crate::speech::Transcript;
use rusqlite::{Connection, OptionalExtension, Transaction, TransactionBehavior, params};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The store's file name within its folder.
pub const FILE: &str = "eavesdraft.sqlite";

/// How long another process's writing is waited for.
const PATIENCE: Duration = Duration::from_secs(5);

/// A store that is open.
pub struct Store {
    connection: Connection,
    file: PathBuf,
}

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
    /// Opens a folder's store; makes one where there is none, and brings an older one up to date.
    ///
    /// # Errors
    /// Where the folder can't be written, the file is no store, or was made by a later program.
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        let file = folder.join(FILE);
        let failed = |cause| StoreError::Unusable { file: file.clone(), cause };
        let mut connection = Connection::open(&file).map_err(failed)?;
        connection.busy_timeout(PATIENCE).map_err(failed)?;
        // What was acknowledged outlives a power cut: every act is on the disk before its answer leaves.
        connection.pragma_update(None, "journal_mode", "wal").map_err(failed)?;
        connection.pragma_update(None, "synchronous", "full").map_err(failed)?;
        connection.pragma_update(None, "foreign_keys", true).map_err(failed)?;
        schema::migrate(&mut connection, &file)?;
        Ok(Self { connection, file })
    }

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

    /// Does all of it in one transaction: a thousand recordings cost little more than one.
    ///
    /// # Errors
    /// Where the store can't be written, or `work` fails; nothing has changed then.
    pub fn at_once<T>(&mut self, work: impl FnOnce(&Self) -> Result<T, StoreError>) -> Result<T, StoreError> {
        let tx = Transaction::new_unchecked(&self.connection, TransactionBehavior::Immediate);
        let tx = tx.map_err(|cause| self.failed(cause))?;
        let done = work(self)?;
        tx.commit().map_err(|cause| self.failed(cause))?;
        Ok(done)
    }

    /// See [`Store::put`]; within [`Store::at_once`].
    fn put_one(
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
            let standing = Standing::of(draft, &Scope::of(draft));
            self.keep_count(id, &Counted { draft: 1, act: 0, standing })?;
        }
        Ok(put)
    }

    /// The latest draft, and its number.
    fn latest(&self, id: &str) -> rusqlite::Result<Option<(u64, String)>> {
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

    /// Where a recording is, as far as the store knows; none where it isn't in the store.
    fn path(&self, id: &str) -> Result<Option<PathBuf>, StoreError> {
        let read = || {
            self.connection
                .prepare_cached("select path from recording where id = ?1")?
                .query_row([id], |row| row.get(0))
                .optional()
        };
        read().map(|path: Option<String>| path.map(PathBuf::from)).map_err(|cause| self.failed(cause))
    }

    /// A recording is found elsewhere than the last time.
    fn moved(&self, id: &str, path: &Path) -> Result<(), StoreError> {
        let row = params![id, path.to_string_lossy()];
        let done = self.connection.execute("update recording set path = ?2 where id = ?1", row);
        done.map(drop).map_err(|cause| self.failed(cause))
    }

    /// The acts on a recording whose numbers are greater than `after`, in order.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn acts(&self, recording: &str, after: u64) -> Result<Vec<Act>, StoreError> {
        acts(&self.connection, recording, after, &self.file)
    }

    /// Adds the act that `decide` gives, which sees the acts that came after number `after` first. Nobody else can
    /// add one meanwhile; where `decide` refuses, nothing is added.
    ///
    /// # Errors
    /// Where the store can't be written; nothing has changed then.
    pub fn act<E>(
        &mut self,
        recording: &str,
        after: u64,
        decide: impl FnOnce(Vec<Act>) -> Result<Act, E>,
    ) -> Result<Result<Act, E>, StoreError> {
        let file = self.file.clone();
        let failed = |cause| StoreError::Unusable { file: file.clone(), cause };
        let tx = self.connection.transaction_with_behavior(TransactionBehavior::Immediate).map_err(failed)?;
        let act = match decide(acts(&tx, recording, after, &file)?) {
            Ok(act) => act,
            Err(refusal) => return Ok(Err(refusal)),
        };
        add(&tx, recording, &act).map_err(failed)?;
        tx.commit().map_err(failed)?;
        Ok(Ok(act))
    }

    fn failed(&self, cause: rusqlite::Error) -> StoreError {
        StoreError::Unusable { file: self.file.clone(), cause }
    }

    fn parsed<T: serde::de::DeserializeOwned>(&self, json: &str) -> Result<T, StoreError> {
        serde_json::from_str(json).map_err(|cause| StoreError::Unreadable { file: self.file.clone(), cause })
    }
}

fn acts(connection: &Connection, recording: &str, after: u64, file: &Path) -> Result<Vec<Act>, StoreError> {
    let read = || {
        let mut rows = connection
            .prepare_cached("select json from act where recording = ?1 and number > ?2 order by number")?;
        rows.query_map(params![recording, after], |row| row.get(0))?.collect::<Result<Vec<String>, _>>()
    };
    let all = read().map_err(|cause| StoreError::Unusable { file: file.to_owned(), cause })?;
    let parsed = |json: &String| {
        serde_json::from_str(json).map_err(|cause| StoreError::Unreadable { file: file.to_owned(), cause })
    };
    all.iter().map(parsed).collect()
}

fn add(tx: &Transaction, recording: &str, act: &Act) -> rusqlite::Result<()> {
    tx.execute(
        "insert into act (recording, number, who, at, told, json) values (?1, ?2, ?3, ?4, ?5, ?6)",
        params![recording, act.number, act.who, act.at, act.told, written(act)],
    )?;
    Ok(())
}

/// Our own types always write.
fn written(value: &impl serde::Serialize) -> String {
    serde_json::to_string(value).unwrap_or_default()
}
