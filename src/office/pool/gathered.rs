//! A recognizer that hears nothing itself: it takes the words from a pool.

use super::hear::Reason;
use super::{Pool, PoolError, names};
use crate::model::digest;
use crate::speech::{HearError, Progress, Recognizer, Transcript, read};
use std::path::Path;

/// Gives the words that a pool has for a recording.
pub struct PoolRecognizer {
    pool: Pool,
    fingerprint: String,
}

impl PoolRecognizer {
    /// The words that the recognizer of that fingerprint left in the pool.
    pub fn new(pool: Pool, fingerprint: String) -> Self {
        Self { pool, fingerprint }
    }

    fn words(&self, digest: &str, name: &str) -> Result<Transcript, HearError> {
        let object = names::words(&self.fingerprint, digest);
        let Some(bytes) = self.pool.read(&object).map_err(told)? else {
            return Err(self.wordless(digest, name));
        };
        let transcript = read::transcript(&bytes, &object);
        let transcript = transcript.map_err(|error| told(self.pool.odd(&object, error.to_string())))?;
        match transcript.digest.as_deref() {
            Some(of) if of == digest => Ok(transcript),
            _ => Err(told(self.pool.odd(&object, "these are the words of another recording".to_owned()))),
        }
    }

    /// Why there are no words.
    fn wordless(&self, digest: &str, name: &str) -> HearError {
        let pool = self.pool.name();
        match self.pool.read_json(&names::skipped(&self.fingerprint, digest)) {
            // Whoever put it into the pool may have called it otherwise.
            Ok(Some(Reason { source, reason })) => HearError::Recording(reason.replace(&source, name)),
            Ok(None) => match self.pool.size(&names::recording(digest)) {
                Ok(Some(_)) => HearError::Passing(format!(
                    "`{name}` is not heard yet: run `eavesdraft pool hear {pool}`, then gather again"
                )),
                Ok(None) => HearError::Passing(format!(
                    "`{name}` is not in the pool: run `eavesdraft pool put FOLDER {pool}`, then `eavesdraft pool \
                     hear {pool}`"
                )),
                Err(error) => told(error),
            },
            Err(error) => told(error),
        }
    }
}

impl Recognizer for PoolRecognizer {
    fn hear(&self, path: &Path, progress: &mut dyn FnMut(Progress)) -> Result<Transcript, HearError> {
        let digest = digest::of_file(path)
            .map_err(|error| told(PoolError::File { file: path.to_owned(), why: error.to_string() }))?;
        let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
        let mut transcript = self.words(&digest, &name)?;
        // The same recording may lie here under another name.
        transcript.source = name.into_owned();
        let total = transcript.length.map(|length| length.seconds());
        progress(Progress { done: total.unwrap_or(0.0), total, heard: String::new() });
        Ok(transcript)
    }

    fn fingerprint(&self) -> Result<String, HearError> {
        Ok(self.fingerprint.clone())
    }

    fn repeats(&self) -> bool {
        true
    }
}

fn told(error: PoolError) -> HearError {
    HearError::Passing(error.to_string())
}
