//! Files that needn't be read again: while a file's size and time of change stay as they were, so does its digest.

use super::{Store, StoreError};
use rusqlite::{OptionalExtension, params};
use std::fs::Metadata;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

/// A file's size, and when it was changed, in nanoseconds since 1970: what [`Store::known_file`] asks for.
pub fn size_and_change(file: &Metadata) -> (u64, i64) {
    let changed = file.modified().unwrap_or(SystemTime::UNIX_EPOCH);
    let nanoseconds = changed.duration_since(UNIX_EPOCH).unwrap_or_default().as_nanos();
    (file.len(), i64::try_from(nanoseconds).unwrap_or(i64::MAX))
}

impl Store {
    /// The digest that is known of a file; none where it isn't known, or has another size or time of change by now.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn known_file(&self, path: &Path, size: u64, changed: i64) -> Result<Option<String>, StoreError> {
        self.known(
            "select digest from file where path = ?1 and size = ?2 and changed = ?3",
            path,
            size,
            changed,
        )
    }

    /// Remembers the digest of a file of that size and time of change.
    ///
    /// # Errors
    /// Where the store can't be written; nothing has changed then.
    pub fn remember_file(
        &self,
        path: &Path,
        size: u64,
        changed: i64,
        digest: &str,
    ) -> Result<(), StoreError> {
        let add = "insert or replace into file (path, size, changed, digest) values (?1, ?2, ?3, ?4)";
        self.remember(add, path, size, changed, digest)
    }

    /// The recording whose draft or words a file held when it was taken into the store; none where it wasn't, or has
    /// another size or time of change by now.
    ///
    /// # Errors
    /// Where the store can't be read.
    pub fn taken_file(&self, path: &Path, size: u64, changed: i64) -> Result<Option<String>, StoreError> {
        self.known(
            "select recording from taken where path = ?1 and size = ?2 and changed = ?3",
            path,
            size,
            changed,
        )
    }

    /// Remembers that a file of that size and time of change was taken into the store.
    ///
    /// # Errors
    /// Where the store can't be written; nothing has changed then.
    pub fn take_file(&self, path: &Path, size: u64, changed: i64, recording: &str) -> Result<(), StoreError> {
        let add = "insert or replace into taken (path, size, changed, recording) values (?1, ?2, ?3, ?4)";
        self.remember(add, path, size, changed, recording)
    }

    fn known(&self, query: &str, path: &Path, size: u64, changed: i64) -> Result<Option<String>, StoreError> {
        let Some(path) = key(path) else { return Ok(None) };
        let read = || {
            let mut rows = self.connection.prepare_cached(query)?;
            rows.query_row(params![path, size, changed], |row| row.get(0)).optional()
        };
        read().map_err(|cause| self.failed(cause))
    }

    fn remember(
        &self,
        add: &str,
        path: &Path,
        size: u64,
        changed: i64,
        what: &str,
    ) -> Result<(), StoreError> {
        let Some(path) = key(path) else { return Ok(()) };
        let write = || self.connection.prepare_cached(add)?.execute(params![path, size, changed, what]);
        write().map(drop).map_err(|cause| self.failed(cause))
    }
}

/// The whole path; none for a name that isn't Unicode, since two of those could look alike.
fn key(path: &Path) -> Option<String> {
    std::path::absolute(path).map(PathBuf::into_os_string).ok()?.into_string().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_known_until_its_size_or_time_changes() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::open(folder.path()).unwrap();
        let file = folder.path().join("walk.wav");
        assert_eq!(store.known_file(&file, 5, 7).unwrap(), None);
        store.remember_file(&file, 5, 7, "one").unwrap();
        assert_eq!(store.known_file(&file, 5, 7).unwrap().as_deref(), Some("one"));
        assert_eq!(
            (store.known_file(&file, 6, 7).unwrap(), store.known_file(&file, 5, 8).unwrap()),
            (None, None)
        );
        store.remember_file(&file, 6, 8, "two").unwrap();
        assert_eq!(store.known_file(&file, 6, 8).unwrap().as_deref(), Some("two"));
        assert_eq!(store.known_file(&file, 5, 7).unwrap(), None);
        assert_eq!(store.taken_file(&file, 6, 8).unwrap(), None);
    }
}
