//! A pool that is open: its objects listed, read and written. Only here anything waits for a store.

use super::error::why;
use super::{PoolError, address, names};
use crate::model::digest::Hashing;
use object_store::buffered::BufWriter;
use object_store::path::Path as ObjectPath;
use object_store::{ObjectStore, ObjectStoreExt};
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::collections::BTreeSet;
use std::fs::File;
use std::io::{self, Read, Write};
use std::path::Path;
use std::sync::Arc;
use tokio::io::AsyncWriteExt;
use tokio::runtime::{self, Runtime};
use tokio_stream::StreamExt;

/// What is read and sent of a file at a time.
const PIECE: usize = 1 << 16;

/// A file larger than this is sent in parts of this size, two at a time, so that it need not fit into memory.
const PART: usize = 8 << 20;

/// A pool, in a folder or in a bucket.
pub struct Pool {
    name: String,
    store: Arc<dyn ObjectStore>,
    runtime: Runtime,
}

impl Pool {
    /// The pool of that name: a folder, or `s3://BUCKET/FOLDER`.
    ///
    /// # Errors
    /// Where there is none, or the name is no place for one.
    pub fn open(name: &str) -> Result<Self, PoolError> {
        Self::with(name, address::store(name, false)?)
    }

    /// The pool of that name; a folder is made where it is missing.
    ///
    /// # Errors
    /// Where it can't be made, or the name is no place for one.
    pub fn make(name: &str) -> Result<Self, PoolError> {
        Self::with(name, address::store(name, true)?)
    }

    fn with(name: &str, store: Arc<dyn ObjectStore>) -> Result<Self, PoolError> {
        let runtime = runtime::Builder::new_current_thread().enable_all().build();
        let runtime =
            runtime.map_err(|error| PoolError::Address { pool: name.to_owned(), why: error.to_string() })?;
        Ok(Self { name: name.to_owned(), store, runtime })
    }

    /// What the user calls it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The digests that the objects in a folder are called by, in order.
    pub(super) fn digests(&self, folder: &str) -> Result<BTreeSet<String>, PoolError> {
        let listed = self.runtime.block_on(async {
            let mut objects = self.store.list(Some(&ObjectPath::from(folder)));
            let mut digests = BTreeSet::new();
            while let Some(object) = objects.next().await {
                let location = object?.location;
                digests.extend(location.filename().and_then(names::digest).map(str::to_owned));
            }
            Ok(digests)
        });
        listed.map_err(|error: object_store::Error| self.refused(folder, &error))
    }

    /// The digests that the folders in a folder are called by, in order.
    pub(super) fn folders(&self, folder: &str) -> Result<BTreeSet<String>, PoolError> {
        let within = ObjectPath::from(folder);
        let listed = self.runtime.block_on(self.store.list_with_delimiter(Some(&within)));
        let listed = listed.map_err(|error| self.refused(folder, &error))?;
        let names = listed.common_prefixes.iter().filter_map(ObjectPath::filename);
        Ok(names.filter_map(names::digest).map(str::to_owned).collect())
    }

    /// The bytes an object has; none where there is none of that name.
    pub(super) fn size(&self, object: &str) -> Result<Option<u64>, PoolError> {
        let path = ObjectPath::from(object);
        self.there(object, self.runtime.block_on(self.store.head(&path)))
            .map(|meta| meta.map(|meta| meta.size))
    }

    /// An object; none where there is none of that name.
    pub(super) fn read(&self, object: &str) -> Result<Option<Vec<u8>>, PoolError> {
        let path = ObjectPath::from(object);
        let read = self.runtime.block_on(async { self.store.get(&path).await?.bytes().await });
        Ok(self.there(object, read)?.map(|bytes| bytes.to_vec()))
    }

    /// What the JSON of an object says; none where there is none of that name.
    pub(super) fn read_json<T: DeserializeOwned>(&self, object: &str) -> Result<Option<T>, PoolError> {
        let Some(bytes) = self.read(object)? else { return Ok(None) };
        serde_json::from_slice(&bytes).map(Some).map_err(|error| self.odd(object, error.to_string()))
    }

    /// Writes an object, whole or not at all.
    pub(super) fn write(&self, object: &str, bytes: Vec<u8>) -> Result<(), PoolError> {
        let path = ObjectPath::from(object);
        let written = self.runtime.block_on(self.store.put(&path, bytes.into()));
        written.map(drop).map_err(|error| self.refused(object, &error))
    }

    /// Writes an object of JSON.
    pub(super) fn write_json<T: Serialize>(&self, object: &str, value: &T) -> Result<(), PoolError> {
        let mut bytes =
            serde_json::to_vec_pretty(value).map_err(|error| self.odd(object, error.to_string()))?;
        bytes.push(b'\n');
        self.write(object, bytes)
    }

    /// Removes an object, if it is there.
    pub(super) fn remove(&self, object: &str) -> Result<(), PoolError> {
        let path = ObjectPath::from(object);
        self.there(object, self.runtime.block_on(self.store.delete(&path))).map(drop)
    }

    /// Writes an object with the bytes of a file of that digest, whole or not at all.
    pub(super) fn send(&self, file: &Path, digest: &str, object: &str) -> Result<(), PoolError> {
        let unread = |error: io::Error| PoolError::File { file: file.to_owned(), why: error.to_string() };
        let mut from = File::open(file).map_err(unread)?;
        let path = ObjectPath::from(object);
        let mut writer = BufWriter::with_capacity(self.store.clone(), path, PART).with_max_concurrency(2);
        self.runtime.block_on(async {
            let mut sent = Hashing::new(io::sink());
            let mut piece = vec![0; PIECE];
            loop {
                let read = from.read(&mut piece).map_err(unread)?;
                if read == 0 {
                    break;
                }
                sent.write_all(&piece[..read]).map_err(unread)?;
                writer.write_all(&piece[..read]).await.map_err(|error| self.refused(object, &error))?;
            }
            if sent.finish().1 != digest {
                // Best effort: parts that stay behind in a store belong to no object.
                let _ = writer.abort().await;
                return Err(PoolError::Changed(file.to_owned()));
            }
            writer.shutdown().await.map_err(|error| self.refused(object, &error))
        })
    }

    /// Writes the bytes of an object into a new file, and gives the digest of what came; none where there is no object
    /// of that name.
    pub(super) fn fetch(&self, object: &str, file: &Path) -> Result<Option<String>, PoolError> {
        let unwritten = |error: io::Error| PoolError::File { file: file.to_owned(), why: error.to_string() };
        let path = ObjectPath::from(object);
        let Some(got) = self.there(object, self.runtime.block_on(self.store.get(&path)))? else {
            return Ok(None);
        };
        let mut to = Hashing::new(File::create_new(file).map_err(unwritten)?);
        self.runtime.block_on(async {
            let mut pieces = got.into_stream();
            while let Some(piece) = pieces.next().await {
                let piece = piece.map_err(|error| self.refused(object, &error))?;
                to.write_all(&piece).map_err(unwritten)?;
            }
            Ok(Some(to.finish().1))
        })
    }

    fn there<T>(&self, object: &str, result: object_store::Result<T>) -> Result<Option<T>, PoolError> {
        match result {
            Ok(value) => Ok(Some(value)),
            Err(object_store::Error::NotFound { .. }) => Ok(None),
            Err(error) => Err(self.refused(object, &error)),
        }
    }

    fn refused(&self, object: &str, error: &dyn std::error::Error) -> PoolError {
        PoolError::Refused { pool: self.name.clone(), object: object.to_owned(), why: why(error) }
    }

    pub(super) fn odd(&self, object: &str, why: String) -> PoolError {
        PoolError::Odd { pool: self.name.clone(), object: object.to_owned(), why }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::digest;

    /// A folder that is a pool, and a file of so many bytes beside it.
    fn pool_and_file(bytes: usize) -> (tempfile::TempDir, Pool, std::path::PathBuf, String) {
        let folder = tempfile::tempdir().unwrap();
        let pool = Pool::make(&folder.path().join("pool").to_string_lossy()).unwrap();
        let file = folder.path().join("walk.wav");
        let content: Vec<u8> = (0..bytes).map(|n| (n % 251) as u8).collect();
        std::fs::write(&file, &content).unwrap();
        (folder, pool, file, digest::of_bytes(&content))
    }

    #[test]
    fn what_is_sent_comes_back_in_one_piece_or_in_many() {
        for bytes in [0, 1, PIECE, PART, 2 * PART + 5] {
            let (folder, pool, file, digest) = pool_and_file(bytes);
            pool.send(&file, &digest, "recordings/x").unwrap();
            assert_eq!(pool.size("recordings/x").unwrap(), Some(bytes as u64));
            let back = folder.path().join("back");
            assert_eq!(pool.fetch("recordings/x", &back).unwrap(), Some(digest));
            assert_eq!(std::fs::read(back).unwrap(), std::fs::read(file).unwrap());
        }
    }

    #[test]
    fn of_a_file_that_changes_meanwhile_nothing_is_kept() {
        for bytes in [100, 2 * PART + 5] {
            let (folder, pool, file, _) = pool_and_file(bytes);
            let error = pool.send(&file, &digest::of_bytes(b"as it was before"), "recordings/x").unwrap_err();
            assert!(matches!(error, PoolError::Changed(_)), "{error}");
            assert_eq!(pool.size("recordings/x").unwrap(), None);
            assert!(pool.fetch("recordings/x", &folder.path().join("back")).unwrap().is_none());
        }
    }
}
