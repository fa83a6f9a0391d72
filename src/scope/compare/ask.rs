//! What isn't decided here: lines under one number that name several things, and lines that are all but the same.

use super::amount::same;
use super::facts::{Respect, near_works};
use super::finding::{Verdict, finding};
use super::group::{Group, Left, Pairing, our_numbers, their_rows};
use super::model::{Certainty, Finding, Outcome};
use super::shown::their_place;
use super::sums::{Sums, their_amount};
use super::words::{amount, by_count, list};
use crate::model::{Work, wording};
use std::collections::BTreeSet;

/// Which lines that name several things or works are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Several {
    /// Those whose numbers agree with ours.
    Agreeing,
    /// All that may be about anything of ours.
    Any,
}

/// Their lines that name several things, or several works, under one number.
pub(super) fn several(pairing: &Pairing, left: &mut Left, which: Several) -> Vec<Finding> {
    let mut found = Vec::new();
    for theirs in left.theirs.clone() {
        if !pairing.entries[theirs].is_several() {
            continue;
        }
        let ours: Vec<usize> =
            left.ours.iter().copied().filter(|o| may_be_among(pairing, *o, theirs)).collect();
        if ours.is_empty() {
            continue;
        }
        let group = Group { ours, theirs: vec![theirs], open: BTreeSet::new() };
        if which == Several::Agreeing && !whole_and_agreeing(pairing, &group) {
            continue;
        }
        left.take(&group);
        found.push(of_several(pairing, &group));
    }
    found
}

/// Whether a line of ours may be one of the things and works that their line names.
fn may_be_among(pairing: &Pairing, ours: usize, theirs: usize) -> bool {
    let (our, entry) = (&pairing.ours[ours].facts, &pairing.entries[theirs]);
    let kin = entry.things.iter().any(|thing| our.thing.is_kin(thing, pairing.grammar));
    let work = our.work.is_none_or(|work| entry.works.is_empty() || entry.works.contains(&work));
    let clash = pairing.relation(ours, theirs).clash;
    kin && work
        && clash.iter().all(|respect| matches!(respect, Respect::Thing | Respect::Work | Respect::Unit))
}

fn of_several(pairing: &Pairing, group: &Group) -> Finding {
    let entry = &pairing.entries[group.theirs[0]];
    let rows = their_rows(pairing, &group.theirs);
    let things: Vec<String> = entry.things.iter().map(|thing| thing.words(pairing.grammar)).collect();
    let works: Vec<String> = entry.works.iter().map(|work| wording::work(Some(*work)).to_owned()).collect();
    let names = if things.len() > 1 { list(&things) } else { list(&works) };
    let ours = our_numbers(pairing, &group.ours);
    let mut because = vec![format!("{rows} names {names} under one number; {ours} may be among it")];
    because.extend(entry.doubts.clone());
    if whole_and_agreeing(pairing, group) {
        let certainty = Certainty::with(because.len());
        let verdict = Verdict { outcome: Outcome::Same, certainty, because, question: None };
        return finding(pairing, group, verdict);
    }
    let line = &pairing.theirs[entry.lines[0]].line;
    let number = if line.amount.is_empty() { "one number".to_owned() } else { line.amount.clone() };
    let question = Some(format!("{rows} names {names} with {number}. How much of it is which?"));
    finding(
        pairing,
        group,
        Verdict { outcome: Outcome::Unclear, certainty: Certainty::Low, because, question },
    )
}

/// Whether we have every thing and work that their line names, and the numbers agree: of several things their sum, of
/// several works each of them.
fn whole_and_agreeing(pairing: &Pairing, group: &Group) -> bool {
    let entry = &pairing.entries[group.theirs[0]];
    let ours = |o: &usize| &pairing.ours[*o].facts;
    let has = |thing| group.ours.iter().any(|o| ours(o).thing.is_kin(thing, pairing.grammar));
    let of_work = |work: Work| Group {
        ours: group.ours.iter().copied().filter(|o| ours(o).work == Some(work)).collect(),
        ..group.clone()
    };
    let agrees = |group: &Group| Sums::of(pairing, group).is_some_and(|sums| sums.agree());
    let works = entry.works.len() < 2 && agrees(group)
        || entry.works.len() > 1
            && entry.things.len() == 1
            && entry.works.iter().all(|work| agrees(&of_work(*work)));
    entry.things.iter().all(has) && works
}

/// In what lines may contradict each other and be the same all the same, the likeliest first.
const NEAR: [Respect; 6] =
    [Respect::Size, Respect::Unit, Respect::Work, Respect::Side, Respect::Structure, Respect::Thing];

/// Lines that contradict each other in one respect only, and may be the same all the same.
pub(super) fn near(pairing: &Pairing, left: &mut Left) -> Vec<Finding> {
    let mut found = Vec::new();
    for respect in NEAR {
        let joined =
            |o: usize, t: usize| !pairing.entries[t].is_several() && near_in(pairing, o, t) == Some(respect);
        let groups = pairing.groups(left, &joined);
        groups.iter().for_each(|group| left.take(group));
        found.extend(groups.iter().map(|group| asked(pairing, group)));
    }
    found
}

/// The one respect in which two lines contradict each other, where they may yet be meant as one.
fn near_in(pairing: &Pairing, ours: usize, theirs: usize) -> Option<Respect> {
    let relation = pairing.relation(ours, theirs);
    let [respect] = relation.clash.as_slice() else { return None };
    let (our, their) = (&pairing.ours[ours], &pairing.entries[theirs].facts);
    let as_much = || {
        let theirs = their_amount(pairing, theirs, our.line.unit);
        matches!((our.facts.amount, theirs), (Some(a), Some(b)) if same(a, b))
    };
    let near = match respect {
        Respect::Side | Respect::Structure => as_much(),
        Respect::Thing => our.facts.thing.is_near(&their.thing, pairing.grammar),
        Respect::Work => matches!((our.facts.work, their.work), (Some(a), Some(b)) if near_works(a, b)),
        Respect::Unit | Respect::Size => true,
    };
    near.then_some(*respect)
}

fn asked(pairing: &Pairing, group: &Group) -> Finding {
    let mut because = Vec::new();
    let mut respects = BTreeSet::new();
    for (ours, theirs) in group.ours.iter().flat_map(|o| group.theirs.iter().map(move |t| (*o, *t))) {
        if let Some(respect) = near_in(pairing, ours, theirs) {
            because.push(differ(pairing, ours, theirs, respect));
            respects.insert(respect);
        }
    }
    let what: Vec<String> = respects.iter().map(|respect| other(*respect).to_owned()).collect();
    let (ours, rows) = (our_numbers(pairing, &group.ours), their_rows(pairing, &group.theirs));
    let verb = by_count(group.theirs.len(), "Is", "Are");
    let question = Some(format!("{verb} {rows} meant as {ours}, with {}?", list(&what)));
    let certainty = Certainty::with(because.len());
    finding(pairing, group, Verdict { outcome: Outcome::Unclear, certainty, because, question })
}

fn other(respect: Respect) -> &'static str {
    match respect {
        Respect::Structure => "another building",
        Respect::Side => "another side",
        Respect::Thing => "another name",
        Respect::Work => "another work",
        Respect::Unit => "another unit",
        Respect::Size => "another size",
    }
}

/// In what two lines differ, in a sentence.
fn differ(pairing: &Pairing, ours: usize, theirs: usize, respect: Respect) -> String {
    let (our, entry) = (&pairing.ours[ours], &pairing.entries[theirs]);
    let line = &pairing.theirs[entry.lines[0]].line;
    let building = |name: Option<&str>| name.unwrap_or(crate::model::HOUSE).to_owned();
    let size = |size: Option<String>| size.unwrap_or_else(|| "no size".to_owned());
    let (here, there) = match respect {
        Respect::Structure => (building(Some(&our.line.structure)), building(line.structure.as_deref())),
        Respect::Side => (wording::side(our.line.side).to_owned(), their_place(line)),
        Respect::Thing => (our.line.item.clone(), format!("“{}”", line.text)),
        Respect::Work => {
            (wording::work(our.line.work).to_owned(), wording::work(entry.facts.work).to_owned())
        }
        Respect::Unit => {
            let here = our.line.quantity.map(|quantity| amount(quantity, Some(our.line.unit)));
            let here = here.unwrap_or_else(|| wording::unit_word(our.line.unit, false).to_owned());
            (here, line.amount.clone())
        }
        Respect::Size => (size(our.line.size.as_ref().map(wording::size)), size(line.size.clone())),
    };
    let (rows, ours) = (their_rows(pairing, &[theirs]), our_numbers(pairing, &[ours]));
    format!("{rows} says {there}, {ours} {here}")
}
