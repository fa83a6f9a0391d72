//! When a recording that failed is tried again: the one place that decides it, for a day's runs, for a folder that is
//! watched and for a pool.
//!
//! What fails for what the recording is, fails again for as long as the file stays as it is: that is permanent, and it
//! is skipped. What fails for something around it (no memory, a drive that went away, a file that was changed while it
//! was heard) may go well the next time, and is tried again.

use crate::speech::HearError;
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// That a recording failed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failed {
    /// Why, as a sentence for a person.
    pub why: String,
    /// Whether it isn't tried again while the file stays as it is.
    pub permanent: bool,
}

impl Failed {
    /// For what the recording is.
    pub fn permanent(why: impl std::fmt::Display) -> Self {
        Self { why: why.to_string(), permanent: true }
    }

    /// For something around it.
    pub fn passing(why: impl std::fmt::Display) -> Self {
        Self { why: why.to_string(), permanent: false }
    }
}

impl From<&HearError> for Failed {
    fn from(error: &HearError) -> Self {
        Self { why: error.to_string(), permanent: matches!(error, HearError::Recording(_)) }
    }
}

/// The files that are skipped, with how each was when it failed and why.
#[derive(Debug, Clone)]
pub struct SkipList<Stamp>(HashMap<PathBuf, (Stamp, String)>);

impl<Stamp> Default for SkipList<Stamp> {
    fn default() -> Self {
        Self(HashMap::new())
    }
}

impl<Stamp: PartialEq> SkipList<Stamp> {
    /// Remembers a file that failed as it was then, if that is permanent.
    pub fn add(&mut self, file: &Path, stamp: Stamp, failed: &Failed) {
        if failed.permanent {
            self.0.insert(file.to_owned(), (stamp, failed.why.clone()));
        }
    }

    /// Why a file is skipped; none where it is to be tried, since it never failed for good or has changed since.
    pub fn why(&self, file: &Path, stamp: &Stamp) -> Option<&str> {
        let (failed_as, why) = self.0.get(file)?;
        (failed_as == stamp).then_some(why)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recording_is_skipped_while_it_stays_as_it_is_and_one_that_failed_in_passing_is_not() {
        let (bad, unlucky) = (Path::new("bad.wav"), Path::new("unlucky.wav"));
        let mut skipped = SkipList::default();
        skipped.add(bad, 7, &Failed::from(&HearError::Recording("nobody speaks in it".to_owned())));
        skipped.add(unlucky, 7, &Failed::from(&HearError::Passing("no memory".to_owned())));
        assert_eq!(skipped.why(bad, &7), Some("nobody speaks in it"));
        assert_eq!((skipped.why(bad, &8), skipped.why(unlucky, &7)), (None, None));
    }
}
