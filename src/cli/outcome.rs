//! How a run ended.

use std::process::ExitCode;

/// How a run ended, from well to badly; its number is the exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// All was done.
    Done = 0,
    /// All was done, and a line needs review where `--strict` forbids it.
    NeedsLook = 1,
    /// Something could not be done.
    Failed = 2,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        ExitCode::from(outcome as u8)
    }
}
