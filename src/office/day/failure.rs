//! Why a visit can't be finished.

use super::find::Stamp;
use super::plan::Clip;
use crate::office::retry::Failed;
use crate::office::store::StoreError;
use std::path::PathBuf;

/// The file that is to blame, how it was then, and why.
pub(super) struct FailedFile {
    pub file: PathBuf,
    pub stamp: Stamp,
    pub failed: Failed,
}

/// A visit that can't be finished.
pub(super) enum Failure {
    /// For a reason of its own.
    Own(FailedFile),
    /// For one that meets every other too.
    Everyones(anyhow::Error),
    /// The run was stopped.
    Stopped,
}

impl Failure {
    pub fn of(clip: &Clip, failed: Failed) -> Self {
        Self::Own(FailedFile { file: clip.file.clone(), stamp: clip.stamp, failed })
    }

    /// For what the recording is.
    pub fn permanent(clip: &Clip, error: &anyhow::Error) -> Self {
        Self::of(clip, Failed::permanent(format_args!("{error:#}")))
    }
}

impl From<StoreError> for Failure {
    fn from(error: StoreError) -> Self {
        Self::Everyones(error.into())
    }
}
