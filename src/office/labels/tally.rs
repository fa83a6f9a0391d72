//! How a draft did, by the scope that was signed off.

use super::Signed;
use crate::model::Line;
use crate::scope::review::{Entry, LineState};
use std::collections::BTreeSet;
use std::iter::Sum;

/// Why a line was dropped that says nothing against its draft.
const NOT_MET: &str = "the condition isn't met";

/// Lines of a draft, counted. What nobody changed counts as right: whoever signs a scope off stands for all of it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Tally {
    /// Lines that were drafted.
    pub drafted: usize,
    /// Lines without a flag.
    pub unflagged: usize,
    /// Lines without a flag that were changed or dropped: silent errors.
    pub silent_errors: usize,
    /// Lines that were right.
    pub right: usize,
    /// Lines that were right and had a flag.
    pub flagged_for_nothing: usize,
    /// Lines that a person added.
    pub added: usize,
}

impl Tally {
    /// Counts the lines of a recording.
    pub fn of(signed: &Signed) -> Self {
        let mut tally = Self::default();
        for line in &signed.drafted.draft.lines {
            let (right, flagged) = (stands(line, signed.scope.entry(&line.id)), line.needs_look());
            tally.drafted += 1;
            tally.unflagged += usize::from(!flagged);
            tally.silent_errors += usize::from(!flagged && !right);
            tally.right += usize::from(right);
            tally.flagged_for_nothing += usize::from(flagged && right);
        }
        let drafted: BTreeSet<&str> =
            signed.drafted.draft.lines.iter().map(|line| line.id.as_str()).collect();
        let added = |entry: &&Entry| entry.state != LineState::Dropped && !drafted.contains(entry.id());
        tally.added = signed.scope.entries.iter().filter(added).count();
        tally
    }
}

impl Sum for Tally {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), |a, b| Self {
            drafted: a.drafted + b.drafted,
            unflagged: a.unflagged + b.unflagged,
            silent_errors: a.silent_errors + b.silent_errors,
            right: a.right + b.right,
            flagged_for_nothing: a.flagged_for_nothing + b.flagged_for_nothing,
            added: a.added + b.added,
        })
    }
}

/// Whether a line is in the scope as it was drafted, or was left out since its condition isn't met.
fn stands(line: &Line, entry: Option<&Entry>) -> bool {
    let Some(entry) = entry else { return false };
    let now = &entry.line;
    let same = (&line.item, line.side, &line.structure, line.work, line.quantity, line.unit)
        == (&now.item, now.side, &now.structure, now.work, now.quantity, now.unit);
    match entry.state {
        LineState::Dropped => entry.reason.as_deref() == Some(NOT_MET),
        _ => same && line.size == now.size,
    }
}
