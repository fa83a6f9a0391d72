//! What a person has to settle before two sums say anything.

use super::amount::same;
use super::facts::Respect;
use super::group::{Group, Pairing, our_numbers, several_sides, their_lines, their_rows};
use super::sums::{Sums, their_amount};
use super::words::{by_count, list};
use crate::model::{Exact, Side, Work, wording};
use std::collections::BTreeSet;

/// As many respects left open as make a group unclear unless its numbers agree.
const TOO_MUCH: usize = 3;

/// What a person has to settle before anything can be said of the group; none where the sums speak for themselves.
pub(super) fn question(pairing: &Pairing, group: &Group, sums: Option<&Sums>) -> Option<String> {
    without_number(pairing, group)
        .or_else(|| several_works(pairing, group))
        .or_else(|| sums.is_none().then(|| format!("{}: which is measured how?", both(pairing, group))))
        .or_else(|| which_side(pairing, group, sums))
        .or_else(|| {
            let sums = sums.filter(|sums| !sums.agree())?;
            listed_twice(pairing, group, sums)
                .or_else(|| as_much_as_one(pairing, group, sums))
                .or_else(|| placed_by_above(pairing, group))
                .or_else(|| nowhere_known(pairing, group))
                .or_else(|| rest_or_all(pairing, group))
                .or_else(|| too_open(pairing, group))
        })
}

fn both(pairing: &Pairing, group: &Group) -> String {
    format!("{} and {}", their_rows(pairing, &group.theirs), our_numbers(pairing, &group.ours))
}

fn without_number(pairing: &Pairing, group: &Group) -> Option<String> {
    let ours: Vec<usize> =
        group.ours.iter().copied().filter(|o| pairing.ours[*o].facts.amount.is_none()).collect();
    let theirs: Vec<usize> =
        group.theirs.iter().copied().filter(|t| pairing.entries[*t].facts.amount.is_none()).collect();
    let lines =
        |of: &[usize]| their_lines(pairing, of).into_iter().map(|l| pairing.theirs[l].line.amount.clone());
    let written = |of: &[usize]| list(&lines(of).filter(|w| !w.is_empty()).collect::<Vec<_>>());
    if !ours.is_empty() {
        let there = written(&group.theirs);
        let there = if there.is_empty() { "no number either".to_owned() } else { there };
        let (us, verb) = (our_numbers(pairing, &ours), by_count(ours.len(), "has", "have"));
        return Some(format!("{us} {verb} no number; there it is {there}. How much is it?"));
    }
    (!theirs.is_empty()).then(|| {
        let written = written(&theirs);
        let read =
            if written.is_empty() { String::new() } else { format!(" that can be read (“{written}”)") };
        format!("{} gives no quantity{read}. How much is it?", their_rows(pairing, &theirs))
    })
}

/// One side says no work, and the other side several.
fn several_works(pairing: &Pairing, group: &Group) -> Option<String> {
    let ours: BTreeSet<Option<Work>> = group.ours.iter().map(|o| pairing.ours[*o].facts.work).collect();
    let theirs: BTreeSet<Option<Work>> =
        group.theirs.iter().map(|t| pairing.entries[*t].facts.work).collect();
    let several = [&ours, &theirs].into_iter().find(|works| works.len() > 1)?;
    let words: Vec<String> = several.iter().map(|work| wording::work(*work).to_owned()).collect();
    Some(format!("{}: which work is meant, {}?", both(pairing, group), words.join(" or ")))
}

/// Two lines of theirs say the very same, and one of them alone would agree with ours.
fn listed_twice(pairing: &Pairing, group: &Group, sums: &Sums) -> Option<String> {
    let mut once: Vec<usize> = Vec::new();
    let mut again: Vec<usize> = Vec::new();
    for theirs in &group.theirs {
        let twin = once.iter().find(|t| pairing.entries[**t].facts == pairing.entries[*theirs].facts);
        match twin {
            Some(twin) => again.extend([*twin, *theirs]),
            None => once.push(*theirs),
        }
    }
    again.sort_unstable();
    again.dedup();
    let without: Exact = once.iter().filter_map(|t| their_amount(pairing, *t, sums.unit)).sum();
    (!again.is_empty() && same(without, sums.ours)).then(|| {
        let rows = their_rows(pairing, &again);
        format!(
            "{rows} say the same, and one of them alone is as much as {}. Is it listed twice?",
            our_numbers(pairing, &group.ours)
        )
    })
}

/// Theirs may be any of several things of ours, and is as much as one of them.
fn as_much_as_one(pairing: &Pairing, group: &Group, sums: &Sums) -> Option<String> {
    let differ = [Respect::Thing, Respect::Size].iter().any(|respect| group.open.contains(respect));
    let alone = |o: &usize| pairing.ours[*o].facts.amount.is_some_and(|amount| same(amount, sums.theirs));
    let one = group.ours.iter().copied().find(alone).filter(|_| differ && group.ours.len() > 1)?;
    let (rows, verb) = (their_rows(pairing, &group.theirs), by_count(group.theirs.len(), "is", "are"));
    let (one, all) = (our_numbers(pairing, &[one]), our_numbers(pairing, &group.ours));
    Some(format!("{rows} {verb} as much as {one} alone. Is it that one, or all of {all}?"))
}

/// A line of theirs that names several sides under one number: clear only where we have it on all of these, and the sums
/// agree.
fn which_side(pairing: &Pairing, group: &Group, sums: Option<&Sums>) -> Option<String> {
    let named = group.theirs.iter().flat_map(|t| &pairing.entries[*t].facts.sides);
    let here = |side: Side| group.ours.iter().any(|o| pairing.ours[*o].facts.side == side);
    let lacking = named.filter(|side| !here(**side)).count() > 0;
    if !several_sides(pairing, group) || !lacking && sums.is_some_and(Sums::agree) {
        return None;
    }
    let rows = their_rows(pairing, &group.theirs);
    let beside = match lacking {
        true => {
            let verb = by_count(group.ours.len(), "is", "are");
            format!(", and {} {verb} all that is left to hold beside it", our_numbers(pairing, &group.ours))
        }
        false => String::new(),
    };
    Some(format!("{rows} names several sides under one number{beside}. How much of it is on which side?"))
}

/// Where a line of theirs is was taken from a row above it, and there it isn't as much as ours.
fn placed_by_above(pairing: &Pairing, group: &Group) -> Option<String> {
    let those: Vec<usize> =
        group.theirs.iter().copied().filter(|t| pairing.entries[*t].placed_by_above).collect();
    (!those.is_empty()).then(|| {
        let (rows, ours) = (their_rows(pairing, &those), our_numbers(pairing, &group.ours));
        let verb = by_count(those.len(), "names no place, and is", "name no place, and are");
        format!("{rows} {verb} not as much as {ours} in the place named above. Where is it?")
    })
}

/// Where a line of theirs is is told in words that are none of the four sides.
fn nowhere_known(pairing: &Pairing, group: &Group) -> Option<String> {
    let those: Vec<usize> = group.theirs.iter().copied().filter(|t| pairing.entries[*t].odd_place).collect();
    (!those.is_empty()).then(|| {
        let (rows, ours) = (their_rows(pairing, &those), our_numbers(pairing, &group.ours));
        let verb = by_count(those.len(), "is", "are");
        format!("On which side of the house {verb} {rows}? It may be about {ours}.")
    })
}

/// A line of theirs that names no side, where others of the same do.
fn rest_or_all(pairing: &Pairing, group: &Group) -> Option<String> {
    let sided = pairing.sided_elsewhere(group);
    let unsided = group.theirs.iter().all(|t| pairing.entries[*t].facts.side == Side::None);
    (group.open.contains(&Respect::Side) && unsided && !sided.is_empty()).then(|| {
        let (rows, others) = (their_rows(pairing, &group.theirs), their_rows(pairing, &sided));
        format!(
            "{rows} names no side, but {others} names one. Does it hold the whole house, or only the rest?"
        )
    })
}

fn too_open(pairing: &Pairing, group: &Group) -> Option<String> {
    let many = group.ours.len() > 1 && group.theirs.len() > 1 && group.open.len() > 1;
    (many || group.open.len() >= TOO_MUCH)
        .then(|| format!("{}: which belongs to which?", both(pairing, group)))
}
