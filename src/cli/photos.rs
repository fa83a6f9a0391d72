//! Photos of a walk: from a folder to pictures that are tied to what was being said.

use super::args::PhotoArgs;
use crate::output::Job;
use crate::output::photos::{self, Photo, Stamp, Tied};
use std::path::PathBuf;

/// A folder of photos, and what is known of the clocks.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Photos {
    folder: PathBuf,
    /// When the recording was begun, or each of its clips; empty where their names tell.
    begun: Vec<Stamp>,
    /// By how many seconds the camera's clock is ahead; none where that is to be found.
    ahead: Option<i64>,
    /// Whether it is read where they were taken.
    with_location: bool,
}

impl Photos {
    /// What is asked for; none where no folder is named.
    pub fn new(args: &PhotoArgs, with_location: bool) -> Option<Self> {
        let PhotoArgs { photos, recorded_at, clock } = args;
        let folder = photos.clone()?;
        Some(Self { folder, begun: recorded_at.clone(), ahead: *clock, with_location })
    }

    /// Reads the pictures, by name.
    pub fn read(&self) -> anyhow::Result<Vec<Photo>> {
        let read = |path: &PathBuf| photos::read(path, self.with_location);
        Ok(photos::find(&self.folder)?.iter().map(read).collect::<Result<Vec<Photo>, _>>()?)
    }

    /// Ties them to what was being said.
    pub fn tie(&self, job: &Job, photos: &[Photo]) -> Tied {
        photos::tie(job, photos, &photos::stretches(job, &self.begun), self.ahead)
    }
}
