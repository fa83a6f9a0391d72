//! The photos of a walk, wherever a command ties them to what was said.

use super::BESIDE;
use crate::output::photos::Stamp;
use clap::ValueHint;
use std::path::PathBuf;

/// A folder of photos, and what is known of the clocks.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct PhotoArgs {
    /// Tie the photos in DIR to the lines that were being said when they were taken
    #[arg(long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = BESIDE)]
    pub photos: Option<PathBuf>,

    /// The recording was begun at TIME: 2026-11-27T10:15:30-06:00; once for each clip of a visit
    ///
    /// Without it the time is read from the recording's name.
    #[arg(long, value_name = "TIME", requires = "photos", help_heading = BESIDE)]
    pub recorded_at: Vec<Stamp>,

    /// The camera's clock is SECONDS ahead of the recorder's; without it that is found from the photos
    #[arg(long, value_name = "SECONDS", requires = "photos", allow_negative_numbers = true, help_heading = BESIDE)]
    pub clock: Option<i64>,
}
