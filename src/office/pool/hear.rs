//! Hearing a machine's part of a pool.

use super::{Part, Pool, PoolError, names};
use crate::office::retry::Failed;
use crate::speech::{Progress, Recognizer, Transcript, write};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// A machine's part of the recordings, by their digests.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Share {
    /// To be heard yet.
    pub open: Vec<String>,
    /// Heard already.
    pub heard: usize,
    /// Skipped already.
    pub skipped: Vec<String>,
}

/// What came of a recording.
#[derive(Debug)]
pub enum Heard {
    /// Its words, which the pool has now.
    Words(Box<Transcript>),
    /// The pool has now why it can't be heard.
    Skipped(String),
    /// The pool's bytes aren't those of the recording, or are gone. This is told, and kept nowhere: they may be put
    /// right.
    Damaged(String),
}

/// Why a recording was skipped.
#[derive(Serialize, Deserialize)]
pub(super) struct Reason {
    /// The recording's file name.
    pub source: String,
    pub reason: String,
}

/// What there is in a part for the recognizer of that fingerprint.
///
/// # Errors
/// Where the pool can't be read.
pub fn share(pool: &Pool, part: Part, fingerprint: &str) -> Result<Share, PoolError> {
    let within = |folder: &str| -> Result<BTreeSet<String>, PoolError> {
        pool.digests(&format!("{folder}/{fingerprint}"))
    };
    let (heard, skipped) = (within(names::WORDS)?, within(names::SKIPPED)?);
    let mut share = Share { open: Vec::new(), heard: 0, skipped: Vec::new() };
    for digest in pool.digests(names::RECORDINGS)?.into_iter().filter(|digest| part.has(digest)) {
        match (heard.contains(&digest), skipped.contains(&digest)) {
            (true, _) => share.heard += 1,
            (false, true) => share.skipped.push(digest),
            (false, false) => share.open.push(digest),
        }
    }
    Ok(share)
}

/// Hears a recording of the pool, which has that name there, and puts into the pool what came of it.
///
/// # Errors
/// Where the pool can't be read or written, or this machine has no room for the recording.
pub fn hear(
    pool: &Pool,
    digest: &str,
    name: &str,
    recognizer: &dyn Recognizer,
    fingerprint: &str,
    progress: &mut dyn FnMut(Progress),
) -> Result<Heard, PoolError> {
    let folder = tempfile::Builder::new().prefix("eavesdraft-").tempdir();
    let folder =
        folder.map_err(|error| PoolError::File { file: std::env::temp_dir(), why: error.to_string() })?;
    // Under its own name, since words and reasons tell it.
    let file = folder.path().join(name);
    let object = names::recording(digest);
    if pool.fetch(&object, &file)?.as_deref() != Some(digest) {
        return Ok(Heard::Damaged(damaged(pool, name, &object)));
    }
    Ok(match recognizer.hear(&file, progress) {
        Ok(transcript) => {
            pool.write(&names::words(fingerprint, digest), write::json(&transcript))?;
            pool.remove(&names::skipped(fingerprint, digest))?;
            Heard::Words(Box::new(transcript))
        }
        Err(error) => {
            // Where the file lay on this machine helps nobody.
            let reason = error.to_string().replace(&*file.to_string_lossy(), name);
            // Another machine may hear what this one failed at for something around it.
            if Failed::from(&error).permanent {
                let told = Reason { source: name.to_owned(), reason: reason.clone() };
                pool.write_json(&names::skipped(fingerprint, digest), &told)?;
            }
            Heard::Skipped(reason)
        }
    })
}

fn damaged(pool: &Pool, name: &str, object: &str) -> String {
    format!(
        "`{name}` is damaged in the pool `{}`, or gone: remove `{object}` there, put the recording in once more, and \
         run this again",
        pool.name()
    )
}
