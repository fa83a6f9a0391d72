//! How far the hearing of a pool has come.

use super::hear::Reason;
use super::{Part, Pool, PoolError, names, share};
use std::collections::BTreeSet;

/// How far it has come with one recognizer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Status {
    /// The recognizer's fingerprint.
    pub fingerprint: String,
    /// Recordings with words.
    pub heard: usize,
    /// Recordings that can't be heard.
    pub skipped: Vec<Skipped>,
    /// Recordings that are still to be heard.
    pub missing: usize,
}

/// A recording that can't be heard.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Skipped {
    /// Its file name.
    pub source: String,
    /// Why, as a sentence for a person.
    pub reason: String,
}

impl Status {
    /// How many recordings there are.
    pub fn recordings(&self) -> usize {
        self.heard + self.skipped.len() + self.missing
    }
}

/// The fingerprints of all recognizers that heard something of the pool, in order.
///
/// # Errors
/// Where the pool can't be read.
pub fn fingerprints(pool: &Pool) -> Result<BTreeSet<String>, PoolError> {
    let mut all = pool.folders(names::WORDS)?;
    all.append(&mut pool.folders(names::SKIPPED)?);
    Ok(all)
}

/// How far the recognizer of that fingerprint has come.
///
/// # Errors
/// Where the pool can't be read.
pub fn status(pool: &Pool, fingerprint: &str) -> Result<Status, PoolError> {
    let share = share(pool, Part::ALL, fingerprint)?;
    let (fingerprint, missing) = (fingerprint.to_owned(), share.open.len());
    let mut status = Status { fingerprint, heard: share.heard, skipped: Vec::new(), missing };
    for digest in share.skipped {
        let told = pool.read_json::<Reason>(&names::skipped(&status.fingerprint, &digest))?;
        status.skipped.extend(told.map(|Reason { source, reason }| Skipped { source, reason }));
    }
    Ok(status)
}
