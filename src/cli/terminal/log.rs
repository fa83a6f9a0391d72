//! What a service tells: lines with a time and a level, on standard error, where a journal takes them.

use super::Terminal;
use crate::model::wording::count;
use crate::office::day::Event;
use std::path::Path;
use tracing::dispatcher::{self, Dispatch};
use tracing::{info, warn};

/// A service's log.
pub struct Log(Dispatch);

impl Log {
    /// On standard error, in color where somebody watches.
    pub fn of(terminal: &Terminal) -> Self {
        let lines = tracing_subscriber::fmt().with_writer(std::io::stderr).with_target(false);
        Self(Dispatch::new(lines.with_ansi(terminal.watched).finish()))
    }

    /// The watch begins.
    pub fn begin(&self, folder: &Path) {
        self.with(|| info!("watching {}", folder.display()));
    }

    /// The watch ends.
    pub fn end(&self) {
        self.with(|| info!("stopping; finished work is kept"));
    }

    /// Something happened.
    pub fn event(&self, event: &Event) {
        self.with(|| match event {
            Event::Found { to_do, .. } if *to_do > 0 => info!("{} to do", count(*to_do, "visit", "visits")),
            Event::Note { note } => warn!("{note}"),
            Event::Waiting { file } => info!("{} is still being copied", file.display()),
            Event::Same { file, other } => info!("{} is the same as {}", file.display(), other.display()),
            Event::Heard { file, length, seconds } => {
                info!("heard {}: {length:.0} s in {seconds:.0} s", file.display());
            }
            Event::Drafted(row) => info!(
                "drafted {}: {}, {} to review",
                row.property,
                count(row.tally.lines, "line", "lines"),
                row.tally.flagged
            ),
            Event::Skipped(skipped) => warn!("skipped {}: {}", skipped.file.display(), skipped.why),
            Event::Found { .. } | Event::Hearing { .. } | Event::Finished { .. } => {}
        });
    }

    fn with(&self, tell: impl FnOnce()) {
        dispatcher::with_default(&self.0, tell);
    }
}
