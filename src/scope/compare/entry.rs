//! What is matched on their side: a line, or two that say one work in two halves ("remove siding", "install siding").

use super::amount::same;
use super::facts::{Facts, Thing};
use super::our::Our;
use super::their::Their;
use crate::language::rules::Grammar;
use crate::model::Work;

/// A line of theirs, or two halves of one.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Entry {
    /// Their lines, by place.
    pub lines: Vec<usize>,
    /// What is compared.
    pub facts: Facts,
    /// The things it names.
    pub things: Vec<Thing>,
    /// The works it names.
    pub works: Vec<Work>,
    /// It names a place that is none of the four sides.
    pub odd_place: bool,
    /// It names no place of its own; that of a row above is taken to hold.
    pub placed_by_above: bool,
    /// What is doubtful about it, in sentences.
    pub doubts: Vec<String>,
}

impl Entry {
    fn of(place: usize, their: &Their) -> Self {
        let row = their.line.row;
        let said = their.doubts.iter().map(|doubt| format!("row {row}: {doubt}"));
        Self {
            lines: vec![place],
            facts: their.facts.clone(),
            things: their.things.clone(),
            works: their.line.works.clone(),
            odd_place: their.odd_place.is_some(),
            placed_by_above: their.placed_by.is_some(),
            doubts: said.collect(),
        }
    }

    /// Whether it names several things, or several works, under one number.
    pub fn is_several(&self) -> bool {
        self.things.len() > 1 || self.works.len() > 1
    }

    fn is(&self, work: Work) -> bool {
        !self.is_several() && self.facts.work == Some(work)
    }
}

/// Their lines as they are matched.
pub(super) fn entries(theirs: &[Their], ours: &[Our], grammar: &Grammar) -> Vec<Entry> {
    let mut entries: Vec<Entry> = theirs.iter().enumerate().map(|(at, their)| Entry::of(at, their)).collect();
    let mut at = 0;
    while at < entries.len() {
        if entries[at].is(Work::Remove)
            && replaced_by_us(&entries[at].facts.thing, ours, grammar)
            && let Some(half) = other_half(&entries, at)
        {
            let new = entries[half].clone();
            join(&mut entries[at], new, theirs);
            entries.remove(half);
            at -= usize::from(half < at);
        }
        at += 1;
    }
    entries
}

/// Whether we replace such a thing, and nowhere only remove or install it: then the two halves may be read as one.
fn replaced_by_us(thing: &Thing, ours: &[Our], grammar: &Grammar) -> bool {
    let kin = |other: &Thing| match (thing, other) {
        (Thing::Item(a), Thing::Item(b)) => {
            a == b || grammar.is_kind_of(*a, *b) || grammar.is_kind_of(*b, *a)
        }
        _ => thing == other,
    };
    let done = |work| ours.iter().any(|our| kin(&our.facts.thing) && our.facts.work == Some(work));
    done(Work::RemoveReplace) && !done(Work::Remove) && !done(Work::Install)
}

/// The one line that installs what this one removes: the same thing in the same place, and as much of it.
fn other_half(entries: &[Entry], removed: usize) -> Option<usize> {
    let old = &entries[removed].facts;
    let fits = |new: &Entry| {
        let facts = &new.facts;
        let as_much = match (old.amount, facts.amount) {
            (Some(a), Some(b)) => same(a, b),
            _ => false,
        };
        new.is(Work::Install)
            && as_much
            && (facts.thing == old.thing
                && facts.side == old.side
                && facts.sides == old.sides
                && facts.structure == old.structure)
            && (facts.measure == old.measure && !new.odd_place)
    };
    let twins = |work| {
        entries
            .iter()
            .filter(|e| e.is(work) && e.facts.thing == old.thing && e.facts.side == old.side)
            .count()
    };
    let found = entries.iter().position(fits)?;
    (twins(Work::Remove) == 1 && twins(Work::Install) == 1).then_some(found)
}

fn join(old: &mut Entry, new: Entry, theirs: &[Their]) {
    let row = |entry: &Entry| theirs[entry.lines[0]].line.row;
    old.doubts.push(format!(
        "row {} removes it and row {} installs it: together they are read as remove and replace",
        row(old),
        row(&new)
    ));
    old.facts.work = Some(Work::RemoveReplace);
    old.facts.size = old.facts.size.clone().or(new.facts.size);
    old.works = vec![Work::RemoveReplace];
    old.placed_by_above |= new.placed_by_above;
    old.lines.extend(new.lines);
    old.doubts.extend(new.doubts);
}
