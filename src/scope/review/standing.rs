//! How far a recording is settled, in numbers: what a list of many shows of each.

use super::scope::{Done, Scope, State};
use crate::model::span::Moment;
use crate::model::{Draft, FollowUpKind};
use serde::{Deserialize, Serialize};

/// How far a recording is settled.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Standing {
    /// Its length; none for text.
    pub length: Option<Moment>,
    /// The file names of its clips; empty where it is one recording.
    pub clips: Vec<String>,
    /// The lines that are part of the scope.
    pub lines: usize,
    /// Those of them that need a look.
    pub open: usize,
    /// Photos, tapes and checks that are left.
    pub todos: usize,
    /// The photos among them.
    pub photos: usize,
    /// The tapes among them.
    pub tapes: usize,
    /// Who settled the scope; none while it is open.
    pub settled: Option<Done>,
}

impl Standing {
    /// Counts a scope that came of that draft.
    pub fn of(draft: &Draft, scope: &Scope) -> Self {
        let left = || scope.tasks.iter().filter(|task| task.done.is_none());
        let of_kind = |kind| left().filter(|task| task.follow_up.kind == kind).count();
        Self {
            length: draft.length,
            clips: draft.clips.iter().map(|clip| clip.source.clone()).collect(),
            lines: scope.entries.iter().filter(|entry| entry.state != State::Dropped).count(),
            open: scope.open(),
            todos: left().count(),
            photos: of_kind(FollowUpKind::Photo),
            tapes: of_kind(FollowUpKind::Measure),
            settled: scope.settled.clone(),
        }
    }
}
