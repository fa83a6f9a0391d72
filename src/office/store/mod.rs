//! The office's store: one SQLite file in the folder of the recordings, with the words, every draft as drafted, and
//! every event: what a person did. Events are only ever added. A process may be killed at any moment: what was
//! acknowledged is there, and nothing is there by half.

mod drafts;
mod error;
mod events;
mod files;
mod form_three;
mod heard;
mod import;
mod progress;
mod recordings;
mod schema;

pub use drafts::{Origin, Put};
pub use error::StoreError;
pub use files::size_and_change;
pub use heard::{Heard, Made};
pub use import::{Taken, drafts, take_in, unreadable};
pub use progress::{Counted, RecordingProgress};
pub use recordings::{Drafted, Recording};

use rusqlite::{Connection, Transaction, TransactionBehavior};
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
        // What was acknowledged outlives a power cut: every event is on the disk before its answer leaves.
        connection.pragma_update(None, "journal_mode", "wal").map_err(failed)?;
        connection.pragma_update(None, "synchronous", "full").map_err(failed)?;
        connection.pragma_update(None, "foreign_keys", true).map_err(failed)?;
        schema::migrate(&mut connection, &file)?;
        Ok(Self { connection, file })
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

    fn failed(&self, cause: rusqlite::Error) -> StoreError {
        StoreError::Unusable { file: self.file.clone(), cause }
    }

    fn parsed<T: serde::de::DeserializeOwned>(&self, json: &str) -> Result<T, StoreError> {
        serde_json::from_str(json).map_err(|cause| StoreError::Unreadable { file: self.file.clone(), cause })
    }
}

/// Our own types always write.
fn written(value: &impl serde::Serialize) -> String {
    serde_json::to_string(value).unwrap_or_default()
}
