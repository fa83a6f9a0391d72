//! What questions are asked of: the lines as they stand, and what the draft keeps beside them.

use crate::language::rules::Grammar;
use crate::model::{Draft, Exact, Line, Side, Unit};
use std::collections::BTreeSet;

/// A house under review.
#[derive(Debug, Clone)]
pub struct HouseUnderReview<'a> {
    /// The lines that are part of the scope, in the order they were said.
    pub lines: Vec<&'a Line>,
    /// Those that a reviewer dropped: no part of any count, but mentioned.
    pub dropped: Vec<&'a Line>,
    /// What was drafted.
    pub draft: &'a Draft,
    /// The rules.
    pub grammar: &'a Grammar,
    /// The questions that were answered, and points of them, by id.
    pub answered: BTreeSet<&'a str>,
}

/// Whether two numbers are the same. Sums are told rounded, so a hundredth is no difference.
pub(super) fn same(a: Exact, b: Exact) -> bool {
    (a - b).abs() < Exact::new(1, 100)
}

/// Whether two sides of a house meet at a corner.
pub(super) fn touch(a: Side, b: Side) -> bool {
    let across = |side| match side {
        Side::Front => Side::Rear,
        Side::Rear => Side::Front,
        Side::Left => Side::Right,
        Side::Right => Side::Left,
        Side::None => Side::None,
    };
    a != Side::None && b != Side::None && a != b && across(a) != b
}

/// How much a line has in that unit; none where no number was said or the unit is no measure of it.
pub(super) fn amount(line: &Line, unit: Unit) -> Option<Exact> {
    Some(line.quantity?.value() * line.unit.in_unit(unit)?)
}

impl<'a> HouseUnderReview<'a> {
    /// The lines that count: what is conditional stays out until it is confirmed.
    pub(super) fn counted(&self) -> impl Iterator<Item = &'a Line> {
        self.lines.iter().copied().filter(|line| !line.only_if)
    }

    /// Those of them that are of one of these items.
    pub(super) fn counted_of(&self, items: &[String]) -> Vec<&'a Line> {
        self.counted().filter(|line| is_of(line.item.as_deref(), items)).collect()
    }

    /// Whether the narrator spoke of one of the items at a place: for a line, as sound or left alone, in passing, or as
    /// something still to do. What was said of no one side was said of each. No side: anywhere on the structure.
    pub(super) fn said(&self, items: &[String], structure: &str, side: Side) -> bool {
        let Draft { lines, no_work, mentioned, follow_ups, .. } = self.draft;
        let cleared = no_work.iter().chain(mentioned);
        let all = (lines.iter().map(|l| (&l.item, &l.structure, l.side)))
            .chain(cleared.map(|c| (&c.item, &c.structure, c.side)))
            .chain(follow_ups.iter().map(|f| (&f.item, &f.structure, f.side)));
        all.into_iter()
            .any(|(item, on, at)| is_of(item.as_deref(), items) && on == structure && is_there(at, side))
    }

    /// The same, or whether a reviewer put it there, even if only to drop it.
    pub(super) fn mentions(&self, items: &[String], structure: &str, side: Side) -> bool {
        let mut lines = self.lines.iter().chain(&self.dropped);
        lines.any(|l| is_of(l.item.as_deref(), items) && l.structure == structure && is_there(l.side, side))
            || self.said(items, structure, side)
    }

    /// The structures that have a line, in the order they come.
    pub(super) fn structures(&self) -> Vec<&'a str> {
        let mut all: Vec<&str> = Vec::new();
        for line in &self.lines {
            if !all.contains(&line.structure.as_str()) {
                all.push(&line.structure);
            }
        }
        all
    }

    /// A line as it was drafted.
    pub(super) fn drafted(&self, id: &str) -> Option<&'a Line> {
        self.draft.lines.iter().find(|line| line.id == id)
    }
}

fn is_there(at: Side, side: Side) -> bool {
    side == Side::None || at == Side::None || at == side
}

pub(super) fn is_of(item: Option<&str>, items: &[String]) -> bool {
    item.is_some_and(|item| items.iter().any(|known| known == item))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_touch_at_corners_only() {
        for (a, b, meets) in [
            (Side::Front, Side::Right, true),
            (Side::Left, Side::Rear, true),
            (Side::Front, Side::Rear, false),
            (Side::Left, Side::Right, false),
            (Side::Front, Side::Front, false),
            (Side::None, Side::Front, false),
        ] {
            assert_eq!((touch(a, b), touch(b, a)), (meets, meets), "{a:?} {b:?}");
        }
    }
}
