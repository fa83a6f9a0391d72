//! Putting recordings into a pool.

use super::{Pool, PoolError, names};
use crate::model::digest;
use serde::{Deserialize, Serialize};
use std::path::Path;

/// What became of a recording.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Put {
    /// It was sent.
    Sent,
    /// The pool has it already.
    There,
}

/// What a recording is called.
#[derive(Serialize, Deserialize)]
struct Name {
    name: String,
}

/// Puts a recording into the pool. One that is there is not sent again.
///
/// # Errors
/// Where the file can't be read or changes meanwhile, or the pool can't be written.
pub fn put(file: &Path, pool: &Pool) -> Result<Put, PoolError> {
    let unread = |error: std::io::Error| PoolError::File { file: file.to_owned(), why: error.to_string() };
    let digest = digest::of_file(file).map_err(unread)?;
    let object = names::recording(&digest);
    // One of another length is no whole copy, whoever left it there.
    if pool.size(&object)? == Some(file.metadata().map_err(unread)?.len()) {
        return Ok(Put::There);
    }
    // The name goes first: whoever sees a recording finds its name.
    let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
    pool.write_json(&names::name(&digest), &Name { name })?;
    pool.send(file, &digest, &object)?;
    Ok(Put::Sent)
}

/// What a recording in the pool is called; its digest where the pool has no name for it that a file can have.
///
/// # Errors
/// Where the pool can't be read.
pub fn name(pool: &Pool, digest: &str) -> Result<String, PoolError> {
    let named = pool.read_json::<Name>(&names::name(digest))?.map(|named| named.name);
    Ok(named.filter(|name| is_file_name(name)).unwrap_or_else(|| digest.to_owned()))
}

/// A name from a pool may come from anyone: it must not lead out of the folder that the file is put into.
fn is_file_name(name: &str) -> bool {
    Path::new(name).file_name().is_some_and(|file| file == name)
        && !name.contains(|c: char| c.is_control() || c == '\\')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_leads_nowhere_else() {
        assert!(is_file_name("front and left.m4a"));
        for name in ["", ".", "..", "/etc/x.wav", "../x.wav", "a/b.wav", "x.wav/", "..\\x.wav", "x\n.wav"] {
            assert!(!is_file_name(name), "{name:?}");
        }
    }
}
