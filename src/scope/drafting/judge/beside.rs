//! What stands beside the lines, as the reader finds it: what was cleared, what is still to do, what was measured.

use super::super::beside::words_at;
use super::fields::SIDES;
use super::{Judge, once};
use crate::language::discourse::Place;
use crate::language::reader::{Anchor, Part};
use crate::model::{Cleared, Dimension, Exact, FollowUp, FollowUpKind, HOUSE, Shape, Side};
use rustc_hash::FxHashMap;

/// A thing is cleared from this chance on; from the lower one where the rules cleared it too.
const CLEARED: f32 = 0.4;
const CLEARED_BY_BOTH: f32 = 0.15;

/// A part is taken from this chance on.
const PART: f32 = 0.65;

/// A thing is what is to be looked at from this chance on, where no other is likelier.
const ABOUT: f32 = 0.1;

const KINDS: [FollowUpKind; 3] = [FollowUpKind::Photo, FollowUpKind::Measure, FollowUpKind::Check];
const SHAPES: [Shape; 4] = [Shape::Wall, Shape::Gable, Shape::Opening, Shape::RoofSlope];

/// Things that were looked at and cleared, each once a place.
pub(in super::super) fn cleared(judge: &Judge, by_rules: &[Cleared]) -> Vec<Cleared> {
    let mut all: Vec<Cleared> = Vec::new();
    for anchor in judge.reading.anchors.iter().filter(|anchor| anchor.status[2] > CLEARED_BY_BOTH) {
        let Some(item) = anchor.item.first().and_then(|(item, _)| *item) else { continue };
        let place = Place { structure: structure(judge, anchor), side: likeliest(&anchor.side), named: true };
        let entry = words_at(judge.source, Some(item), judge.name_at(anchor.at), &place);
        let same = |known: &Cleared| (&known.item, known.side) == (&entry.item, entry.side);
        let least = if by_rules.iter().any(same) { CLEARED_BY_BOTH } else { CLEARED };
        let known = all.iter().any(|known| same(known) && known.structure == entry.structure);
        if anchor.status[2] > least && !known {
            all.push(by_rules.iter().find(|known| same(known)).map_or(entry.clone(), |known| Cleared {
                quote: known.quote.clone(),
                start: known.start,
                end: known.end,
                ..entry
            }));
        }
    }
    all
}

/// What is still to do, then what was said of it again.
pub(in super::super) fn follow_ups(judge: &Judge) -> (Vec<FollowUp>, Vec<FollowUp>) {
    let of = |part: &Part| {
        let (kind, chance) = most(&part.kind);
        let kind = *KINDS.get(kind).filter(|_| chance >= PART)?;
        let Cleared { structure, side, item, quote, start, end } = words_at(
            judge.source,
            about(judge, part),
            judge.span_of(part.first, part.last)?,
            &place(judge, part),
        );
        Some(FollowUp { kind, structure, side, item, quote, start, end })
    };
    once::follow_ups(judge.reading.parts.iter().filter_map(of).collect())
}

/// What a part is about. Several places may name the same thing: their chances are summed.
fn about(judge: &Judge, part: &Part) -> Option<u16> {
    let mut items: FxHashMap<u16, f32> = FxHashMap::default();
    for (thing, chance) in &part.item {
        if let Some(item) = thing.and_then(|n| judge.input.things.get(n)).and_then(|thing| thing.item) {
            *items.entry(item).or_default() += chance;
        }
    }
    let likelier = |a: &(u16, f32), b: &(u16, f32)| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0));
    items.into_iter().max_by(likelier).filter(|(_, chance)| *chance >= ABOUT).map(|(item, _)| item)
}

/// What was measured; in the rules' words where they found the same.
pub(in super::super) fn dimensions(judge: &Judge, by_rules: &[Dimension]) -> Vec<Dimension> {
    let known = |found: Dimension| {
        let same = |other: &&Dimension| {
            (other.shape, other.side, other.width_ft, other.height_ft)
                == (found.shape, found.side, found.width_ft, found.height_ft)
        };
        by_rules.iter().find(same).cloned().unwrap_or(found)
    };
    let of = |part: &Part| {
        let (kind, chance) = most(&part.kind);
        let shape = *SHAPES.get(kind.checked_sub(KINDS.len())?).filter(|_| chance >= PART)?;
        let (width_ft, height_ft) = (length(judge, &part.width), length(judge, &part.height));
        (width_ft.is_some() || height_ft.is_some()).then_some(())?;
        let (quote, start, end) = judge.source.quoted(judge.span_of(part.first, part.last)?);
        let Place { structure, side, .. } = place(judge, part);
        Some(Dimension { structure, side, shape, width_ft, height_ft, quote, start, end })
    };
    once::dimensions(judge.reading.parts.iter().filter_map(of).map(known))
}

/// Where a part is told of: the building of the nearest anchor before it.
fn place(judge: &Judge, part: &Part) -> Place {
    let before = judge.anchor_before(part.first);
    let structure = before.map_or_else(|| HOUSE.to_owned(), |anchor| structure(judge, anchor));
    Place { structure, side: likeliest(&part.side), named: true }
}

fn structure(judge: &Judge, anchor: &Anchor) -> String {
    let named = anchor.structure.first().and_then(|(named, _)| *named);
    named.and_then(|n| judge.input.structures.get(n)).map_or_else(|| HOUSE.to_owned(), |s| s.name.clone())
}

fn likeliest(chances: &[f32; 5]) -> Side {
    SIDES[most(chances).0]
}

fn most(chances: &[f32]) -> (usize, f32) {
    let first =
        |best: (usize, f32), (at, chance): (usize, f32)| if chance > best.1 { (at, chance) } else { best };
    chances.iter().copied().enumerate().fold((0, f32::MIN), first)
}

/// A length in feet: what was said in inches is converted.
fn length(judge: &Judge, chances: &[(Option<(usize, bool)>, f32)]) -> Option<Exact> {
    let (n, second) = chances.first()?.0?;
    let amount = &judge.input.amounts.get(n)?.amount;
    let (value, unit) = if second { (amount.by?, amount.by_unit) } else { (amount.low, amount.unit) };
    match unit.and_then(|unit| unit.in_unit(crate::model::Unit::Foot)) {
        Some(feet) => Some(value * feet),
        None => Some(value),
    }
}
