//! How far the review of a recording has come, in numbers: what a list of many shows of each.

use super::scope::{LineState, Scope};
use super::sign_off::SignOff;
use crate::model::span::Moment;
use crate::model::{Draft, FollowUpKind};
use serde::{Deserialize, Serialize};

/// How far the review of a recording has come.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReviewProgress {
    /// Its length; none for text.
    pub length: Option<Moment>,
    /// The file names of its clips; empty where it is one recording.
    pub clips: Vec<String>,
    /// The lines that are part of the scope.
    pub lines: usize,
    /// Those of them that need review.
    pub flagged: usize,
    /// Photos, measurements and checks that are still needed.
    pub follow_ups: usize,
    /// The photos among them.
    pub photos: usize,
    /// The measurements among them.
    pub measurements: usize,
    /// Who signed the scope off; none while it is open.
    pub signed_off: Option<SignOff>,
}

impl ReviewProgress {
    /// Counts a scope that came of that draft.
    pub fn of(draft: &Draft, scope: &Scope) -> Self {
        let left = || scope.follow_ups.iter().filter(|entry| entry.done.is_none());
        let of_kind = |kind| left().filter(|entry| entry.follow_up.kind == kind).count();
        Self {
            length: draft.length,
            clips: draft.clips.iter().map(|clip| clip.source.clone()).collect(),
            lines: scope.entries.iter().filter(|entry| entry.state != LineState::Dropped).count(),
            flagged: scope.flagged(),
            follow_ups: left().count(),
            photos: of_kind(FollowUpKind::Photo),
            measurements: of_kind(FollowUpKind::Measure),
            signed_off: scope.signed_off.clone(),
        }
    }
}
