//! What comes of lines that belong together, and what was left open on the way.

use super::facts::Respect;
use super::finding::{Verdict, finding};
use super::group::{Group, Pairing, our_numbers, several_sides, their_rows};
use super::model::{Certainty, Finding, Outcome};
use super::question::question;
use super::sums::Sums;
use super::words::{amount, by_count};
use crate::model::wording;
use crate::model::{Exact, HOUSE, Side};
use std::collections::BTreeSet;

/// A group that leaves the building open, where ours are at the house and at others too, is about the house, unless the
/// sum over all agrees.
pub(super) fn trimmed(pairing: &Pairing, group: Group) -> Group {
    let at_house = |o: &usize| pairing.ours[*o].line.structure == HOUSE;
    let (house, others): (Vec<usize>, Vec<usize>) = group.ours.iter().partition(|o| at_house(o));
    let agrees = Sums::of(pairing, &group).is_some_and(|sums| sums.agree());
    if !group.open.contains(&Respect::Structure) || house.is_empty() || others.is_empty() || agrees {
        return group;
    }
    pairing.opened(Group { ours: house, ..group })
}

/// What comes of a group: where all agrees and each of ours has one of theirs that is as much, a finding a pair; else one.
pub(super) fn findings(pairing: &Pairing, group: &Group) -> Vec<Finding> {
    let pairs = if group.open.is_empty() { pairs(pairing, group) } else { None };
    match pairs {
        Some(pairs) => pairs.iter().map(|pair| settled(pairing, pair)).collect(),
        None => vec![settled(pairing, group)],
    }
}

fn pairs(pairing: &Pairing, group: &Group) -> Option<Vec<Group>> {
    if group.ours.len() != group.theirs.len() {
        return None;
    }
    let (mut ours, mut theirs) = (group.ours.clone(), group.theirs.clone());
    ours.sort_by_key(|o| (pairing.ours[*o].facts.amount, *o));
    theirs.sort_by_key(|t| (pairing.entries[*t].facts.amount, *t));
    let pair = |(o, t): (usize, usize)| {
        let pair = Group { ours: vec![o], theirs: vec![t], open: BTreeSet::new() };
        Sums::of(pairing, &pair).filter(Sums::agree).map(|_| pair)
    };
    ours.into_iter().zip(theirs).map(pair).collect()
}

fn settled(pairing: &Pairing, group: &Group) -> Finding {
    let sums = Sums::of(pairing, group);
    let (mut because, mut open) = told_together(pairing, group, sums.as_ref());
    open.extend(left_open(pairing, group));
    open.extend(doubts(pairing, group, sums.as_ref()));
    let certainty = Certainty::with(open.len());
    let question = question(pairing, group, sums.as_ref());
    because.extend(open);
    let outcome = match (&question, &sums) {
        (None, Some(sums)) => sums.outcome(),
        _ => Outcome::Unclear,
    };
    finding(pairing, group, Verdict { outcome, certainty, because, question })
}

/// That several lines are taken together, which leaves something open only where the sums differ.
fn told_together(pairing: &Pairing, group: &Group, sums: Option<&Sums>) -> (Vec<String>, Vec<String>) {
    let entries = group.theirs.len();
    if group.ours.len() == 1 && entries == 1 {
        return (Vec::new(), Vec::new());
    }
    let (ours, theirs) = (our_numbers(pairing, &group.ours), their_rows(pairing, &group.theirs));
    let amounts = sums.map_or(String::new(), |sums| {
        let told = |plainly: Exact| amount(sums.told(plainly), Some(sums.unit));
        format!(": {} there, {} here", told(sums.theirs), told(sums.ours))
    });
    let verb = by_count(entries, "covers", "together cover");
    let together = format!("{theirs} {verb} {ours}{amounts}");
    if sums.is_some_and(Sums::agree) || !group.open.is_empty() {
        (vec![together], Vec::new())
    } else {
        (Vec::new(), vec![together])
    }
}

/// A sentence for each thing that was left open.
fn left_open(pairing: &Pairing, group: &Group) -> Vec<String> {
    let theirs = their_rows(pairing, &group.theirs);
    let ours = our_numbers(pairing, &group.ours);
    let entry = &pairing.entries[group.theirs[0]];
    let our = &pairing.ours[group.ours[0]];
    let none = |silent: bool, what: &str| match silent {
        true => format!("{theirs} {} no {what}", by_count(group.theirs.len(), "names", "name")),
        false => format!("{ours} {} no {what}", by_count(group.ours.len(), "names", "name")),
    };
    let odd = |t: &usize| pairing.theirs[pairing.entries[*t].lines[0]].odd_place.as_deref();
    let sentence = |respect: &Respect| match respect {
        Respect::Structure => format!("{theirs} may be about any building"),
        Respect::Side => match group.theirs.iter().find_map(odd) {
            Some(odd) if several_sides(pairing, group) => {
                format!("{theirs} says “{odd}” under one number; it is held beside {ours}")
            }
            Some(odd) => format!("{theirs} says “{odd}”, which is none of the four sides"),
            None => none(entry.facts.side == Side::None, "side"),
        },
        Respect::Thing => format!(
            "{theirs} says {}, {ours} {}: one is a kind of the other",
            entry.facts.thing.words(pairing.grammar),
            our.line.item
        ),
        Respect::Work => none(entry.facts.work.is_none(), "work"),
        Respect::Unit => {
            format!("{theirs} has no unit; it is read as {}", wording::unit_word(our.line.unit, false))
        }
        Respect::Size => none(entry.facts.size.is_none(), "size"),
    };
    group.open.iter().map(sentence).collect()
}

/// What else is doubtful about the lines themselves.
fn doubts(pairing: &Pairing, group: &Group, sums: Option<&Sums>) -> Vec<String> {
    let those =
        |is: &dyn Fn(&usize) -> bool| -> Vec<usize> { group.ours.iter().copied().filter(is).collect() };
    let looks = those(&|o| pairing.ours[*o].line.needs_look);
    let rough = those(&|o| pairing.ours[*o].rough);
    let mut doubts: Vec<String> =
        group.theirs.iter().flat_map(|t| pairing.entries[*t].doubts.clone()).collect();
    if !looks.is_empty() {
        let verb = by_count(looks.len(), "still needs", "still need");
        doubts.push(format!("{} {verb} a look", our_numbers(pairing, &looks)));
    }
    if !rough.is_empty() && sums.is_some_and(|sums| !sums.agree()) {
        doubts.push(format!("the quantity of {} is approximate", our_numbers(pairing, &rough)));
    }
    if pairing.entries[group.theirs[0]].facts.thing.is_named() {
        doubts.push("the catalogue doesn't have it: it is compared by its name".to_owned());
    }
    doubts
}
