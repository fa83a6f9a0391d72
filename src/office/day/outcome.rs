//! What a run over a day's folder came to.

use super::event::{Row, Skipped};
use std::path::PathBuf;

/// What a run came to.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct DayOutcome {
    /// Every visit that is drafted, now or before, in the order of their files.
    pub rows: Vec<Row>,
    /// What couldn't be done.
    pub skipped: Vec<Skipped>,
    /// Files that have the bytes of others, and which.
    pub same: Vec<(PathBuf, PathBuf)>,
    /// Files that are still being copied.
    pub waiting: Vec<PathBuf>,
    /// Whether it was stopped before the end.
    pub stopped: bool,
    /// How many visits were drafted in this run.
    pub drafted: usize,
    /// Seconds of sound that were heard in this run.
    pub heard: f64,
    /// Seconds that the run took.
    pub seconds: f64,
}
