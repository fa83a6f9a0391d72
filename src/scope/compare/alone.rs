//! What stands on one side only, and what the other side has that comes near it.

use super::facts::{Facts, Respect};
use super::finding::{Verdict, finding};
use super::group::{Group, Pairing, their_rows};
use super::model::{Certainty, Finding, Outcome};
use super::our::Our;
use super::words::{by_count, our_lines};
use crate::model::{Exact, Side, wording};
use std::collections::BTreeSet;

/// What stands on our side only.
pub(super) fn missing(pairing: &Pairing, ours: usize) -> Finding {
    let our = &pairing.ours[ours];
    let alike = |t: &usize| {
        let clash = pairing.relation(ours, *t).clash;
        !clash.contains(&Respect::Thing)
    };
    let there: Vec<usize> = (0..pairing.entries.len()).filter(alike).collect();
    let why = match there.is_empty() {
        true => format!("their list has no {} at all", our.line.item),
        false => {
            let verb = by_count(there.len(), "has", "have");
            format!(
                "{} {verb} {} too, for other work or in another place",
                their_rows(pairing, &there),
                our.line.item
            )
        }
    };
    let mut because = vec![why];
    because.extend(our.line.needs_look.then(|| "our line still needs review".to_owned()));
    let certainty = Certainty::with(because.len() - 1 + usize::from(!there.is_empty()));
    alone(
        pairing,
        Group { ours: vec![ours], theirs: Vec::new(), open: BTreeSet::new() },
        Outcome::MissingThere,
        certainty,
        because,
    )
}

/// What stands on their side only.
pub(super) fn only_there(pairing: &Pairing, theirs: usize) -> Finding {
    let entry = &pairing.entries[theirs];
    let alike = |facts: &Facts| {
        entry.things.iter().any(|thing| facts.thing == *thing || facts.thing.is_near(thing, pairing.grammar))
    };
    let numbers = |ours: &[Our]| -> Vec<usize> {
        ours.iter().filter(|our| alike(&our.facts)).map(|our| our.line.number).collect()
    };
    let (only_if, stand) = (numbers(pairing.only_if), numbers(pairing.ours));
    let mut because = Vec::new();
    if !only_if.is_empty() {
        let verb = by_count(only_if.len(), "is", "are");
        because.push(format!("{} {verb} conditional and may be this: confirm first", our_lines(&only_if)));
    }
    if !stand.is_empty() {
        let verb = by_count(stand.len(), "has", "have");
        because.push(format!("{} {verb} it too, for other work or in another place", our_lines(&stand)));
    }
    because.extend(cleared(pairing, theirs));
    because.extend(entry.doubts.clone());
    let certainty = Certainty::with(because.len());
    if because.is_empty() {
        because.push("nothing like it was said on the walk".to_owned());
    }
    alone(
        pairing,
        Group { ours: Vec::new(), theirs: vec![theirs], open: BTreeSet::new() },
        Outcome::OnlyThere,
        certainty,
        because,
    )
}

/// What we looked at and found sound, which they list.
fn cleared(pairing: &Pairing, theirs: usize) -> Option<String> {
    let entry = &pairing.entries[theirs];
    let ids: Vec<&str> = entry.things.iter().filter_map(|thing| thing.id(pairing.grammar)).collect();
    let same_place =
        |side: Side| side == entry.facts.side || Side::None == entry.facts.side || side == Side::None;
    let found = pairing
        .cleared
        .iter()
        .find(|seen| seen.item.as_deref().is_some_and(|id| ids.contains(&id)) && same_place(seen.side))?;
    let place = wording::whereabouts(&found.structure, found.side);
    Some(format!("on the walk it was looked at ({place}) and nothing was to be done: “{}”", found.quote))
}

/// A finding about what stands on one side only.
fn alone(
    pairing: &Pairing,
    group: Group,
    outcome: Outcome,
    certainty: Certainty,
    because: Vec<String>,
) -> Finding {
    let mut finding = finding(pairing, &group, Verdict { outcome, certainty, because, question: None });
    if let Some(our) = finding.ours.first() {
        (finding.our_quantity, finding.their_quantity, finding.unit) =
            (our.quantity, Some(Exact::ZERO), Some(our.unit));
        finding.difference = our.quantity.map(|quantity| -quantity);
    } else if let Some(their) = finding.theirs.first() {
        (finding.our_quantity, finding.their_quantity, finding.unit) =
            (Some(Exact::ZERO), their.quantity, their.unit);
        finding.difference = their.quantity;
    }
    finding
}
