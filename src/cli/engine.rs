//! Getting the recogniser ready.

use crate::words::Recognizer;
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// How recordings are to be heard.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Hearing {
    /// The model's file; none for the one in the store.
    pub model: Option<PathBuf>,
    /// Processor cores to use; none for all.
    pub jobs: Option<NonZeroUsize>,
}

/// Gets a recogniser ready. Slow: it reads the model.
pub type Load<'a> = &'a dyn Fn(&Hearing) -> anyhow::Result<Box<dyn Recognizer>>;

/// The recogniser of this build.
///
/// # Errors
/// Where the build has none, or its model can't be loaded.
pub fn load(_hearing: &Hearing) -> anyhow::Result<Box<dyn Recognizer>> {
    anyhow::bail!(
        "this build can't hear recordings: give a transcript or text, or build with `--features whisper`"
    )
}
