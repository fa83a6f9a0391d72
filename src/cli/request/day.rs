//! What is meant by `day` and `watch`.

use super::{Looks, Show};
use crate::cli::args::{DayArgs, FolderArgs, WatchArgs};
use crate::cli::engine::Hearing;
use crate::office::day::Day;
use std::path::PathBuf;
use std::time::Duration;

/// A request to work through a day's folder.
#[derive(Debug)]
pub(in crate::cli) struct DayRequest {
    pub day: Day,
    pub show: Show,
    pub looks: Looks,
    /// A folder of rules to lay over the built-in ones.
    pub grammar: Option<PathBuf>,
    pub hearing: Hearing,
}

impl From<DayArgs> for DayRequest {
    fn from(args: DayArgs) -> Self {
        let show = if args.json { Show::Json } else { Show::Page };
        let looks = if args.strict { Looks::Forbidden } else { Looks::Allowed };
        Self { show, looks, ..Self::from(args.folder) }
    }
}

impl From<WatchArgs> for DayRequest {
    fn from(args: WatchArgs) -> Self {
        let mut request = Self::from(args.folder);
        // What is still being copied is looked at again anyway.
        request.day.patient = false;
        request
    }
}

impl From<FolderArgs> for DayRequest {
    fn from(args: FolderArgs) -> Self {
        let FolderArgs { folder, out, visit, still, grammar, hearing } = args;
        let still = Duration::from_secs(still);
        Self {
            day: Day { folder, out, by: visit.into(), still, patient: true },
            show: Show::Page,
            looks: Looks::Allowed,
            grammar,
            hearing: hearing.into(),
        }
    }
}
