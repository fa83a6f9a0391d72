//! Lines of both lists that may belong together: what is being matched, what is left of it, and groups of it.

use super::entry::Entry;
use super::facts::{Relation, Respect, relation};
use super::our::Our;
use super::their::Their;
use super::words::{our_lines, rows};
use crate::language::rules::Grammar;
use crate::model::{Cleared, Side};
use std::collections::BTreeSet;

/// Both lists, and what of them has found no place yet.
pub(super) struct Pairing<'a> {
    /// Our lines that stand.
    pub ours: &'a [Our],
    /// Our conditional lines.
    pub only_if: &'a [Our],
    /// What we looked at and cleared.
    pub cleared: &'a [Cleared],
    /// Their lines.
    pub theirs: &'a [Their],
    /// Their lines as they are matched.
    pub entries: &'a [Entry],
    /// The rules.
    pub grammar: &'a Grammar,
    /// Whether a line of theirs that names no building may be about any: ours is about several, and theirs names none at
    /// all. Else it is about the house.
    pub any_building: bool,
}

/// What is left to be matched.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Left {
    /// Our lines, by place.
    pub ours: BTreeSet<usize>,
    /// Their entries, by place.
    pub theirs: BTreeSet<usize>,
}

/// Lines that belong together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Group {
    /// Our lines, by place.
    pub ours: Vec<usize>,
    /// Their entries, by place.
    pub theirs: Vec<usize>,
    /// What was left open between any two of them.
    pub open: BTreeSet<Respect>,
}

impl Pairing<'_> {
    /// How an entry of theirs stands to a line of ours.
    pub fn relation(&self, ours: usize, theirs: usize) -> Relation {
        let entry = &self.entries[theirs];
        let facts = &self.ours[ours].facts;
        relation(facts, &entry.facts, entry.odd_place, self.any_building, self.grammar)
    }

    /// Whether they may belong together, with nothing left open but this.
    pub fn belongs(&self, ours: usize, theirs: usize, allowed: &[Respect]) -> bool {
        let relation = self.relation(ours, theirs);
        relation.clash.is_empty() && relation.open.iter().all(|open| allowed.contains(open))
    }

    /// The groups that `joined` makes of what is left, each with at least one line of either list.
    pub fn groups(&self, left: &Left, joined: &dyn Fn(usize, usize) -> bool) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        for ours in &left.ours {
            if !groups.iter().any(|group| group.ours.contains(ours)) {
                groups.push(gathered(*ours, left, joined));
            }
        }
        groups.retain(|group| !group.theirs.is_empty());
        groups.sort_by(|a, b| a.ours.cmp(&b.ours));
        groups.into_iter().map(|group| self.opened(group)).collect()
    }

    /// The group with what is left open between its lines.
    pub fn opened(&self, mut group: Group) -> Group {
        let pairs = group.ours.iter().flat_map(|o| group.theirs.iter().map(move |t| (*o, *t)));
        group.open = pairs.flat_map(|(o, t)| self.relation(o, t).open).collect();
        group
    }

    /// Their entries of the same thing and work that name a side, outside of the group.
    pub fn sided_elsewhere(&self, group: &Group) -> Vec<usize> {
        let alike = |t: &usize| {
            let like = &self.entries[group.theirs[0]].facts;
            let facts = &self.entries[*t].facts;
            (facts.thing == like.thing && facts.work == like.work && facts.measure == like.measure)
                && facts.side != Side::None
                && !self.entries[*t].is_several()
        };
        (0..self.entries.len()).filter(|t| !group.theirs.contains(t)).filter(alike).collect()
    }
}

impl Left {
    /// Takes a group's lines away.
    pub fn take(&mut self, group: &Group) {
        group.ours.iter().for_each(|o| {
            self.ours.remove(o);
        });
        group.theirs.iter().for_each(|t| {
            self.theirs.remove(t);
        });
    }
}

/// All that hangs together with a line of ours: lines of theirs that are joined to it, lines of ours that are joined to
/// those, and so on.
fn gathered(start: usize, left: &Left, joined: &dyn Fn(usize, usize) -> bool) -> Group {
    let (mut ours, mut theirs) = (BTreeSet::from([start]), BTreeSet::new());
    let mut new = vec![start];
    while let Some(one) = new.pop() {
        for t in left.theirs.iter().copied().filter(|t| joined(one, *t)) {
            if theirs.insert(t) {
                new.extend(left.ours.iter().copied().filter(|o| joined(*o, t) && ours.insert(*o)));
            }
        }
    }
    Group { ours: ours.into_iter().collect(), theirs: theirs.into_iter().collect(), open: BTreeSet::new() }
}

/// Their lines that entries stand for, by place.
pub(super) fn their_lines(pairing: &Pairing, theirs: &[usize]) -> Vec<usize> {
    let mut lines: Vec<usize> =
        theirs.iter().flat_map(|t| pairing.entries[*t].lines.iter().copied()).collect();
    lines.sort_unstable();
    lines
}

/// `rows 4 and 5`: those of the entries.
pub(super) fn their_rows(pairing: &Pairing, theirs: &[usize]) -> String {
    rows(&their_lines(pairing, theirs).iter().map(|l| pairing.theirs[*l].line.row).collect::<Vec<_>>())
}

/// `our lines 3 and 5`.
pub(super) fn our_numbers(pairing: &Pairing, ours: &[usize]) -> String {
    our_lines(&ours.iter().map(|o| pairing.ours[*o].line.number).collect::<Vec<_>>())
}

/// Whether a line of theirs names several sides.
pub(super) fn several_sides(pairing: &Pairing, group: &Group) -> bool {
    group.theirs.iter().any(|t| !pairing.entries[*t].facts.sides.is_empty())
}
