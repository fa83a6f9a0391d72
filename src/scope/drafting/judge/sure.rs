//! How sure a line is: what speaks for it by itself, and what the other lines say to that.

use super::RuleLine;
use super::fields::alike;
use super::groups::Group;
use super::lines::{Chosen, Drafted};
use super::weights::{Clue, Weights, chance, log_odds, weigh};
use crate::model::{Flag, HOUSE, Line};
use rustc_hash::FxHashMap;

/// Lines told within so many words keep each other company: where one is doubtful, so are its neighbors.
const COMPANY: usize = 40;

/// Below this chance of needing a look, nobody changed their mind about a line that is sure: rules take many a "no, wait"
/// for it.
const PLAIN: f64 = 0.05;

/// What speaks for a line by itself, and the chances of its fields multiplied, as log-odds.
pub(super) fn clues(
    group: &Group,
    chosen: &Chosen,
    rule: Option<&RuleLine>,
    line: &Line,
) -> (Vec<Clue>, f64) {
    let f = chosen.fields;
    let parts = [
        ("exist", f.exists),
        ("side", f.side[0].1),
        ("item", f.item[0].1),
        ("quantity", f.quantity[0].1),
        ("unit", f.unit[0].1),
        ("structure", f.structure[0].1),
        ("work", chosen.work_chance),
    ];
    let least = parts.iter().map(|(_, p)| *p).fold(1.0, f64::min);
    let all: f64 = parts.iter().map(|(_, p)| p).product();
    let yes = |holds: bool| f64::from(u8::from(holds));
    let drafted = group.rules.first().map(|rule| &rule.line);
    let had = |flag: Flag| yes(rule.is_some_and(|rule| rule.line.flags.contains(&flag)));
    let mut clues = vec![
        ("bias", 1.0),
        ("least", log_odds(least, 0.01)),
        ("all", log_odds(all, 0.01)),
        ("agreement", drafted.map_or(0.0, |drafted| agreement(drafted, line))),
        ("drafted_by_rules", yes(drafted.is_some())),
        ("look", log_odds(f64::from(group.anchor.look), 0.02)),
        ("several_works", yes(chosen.several)),
        ("only_if", log_odds(f.only_if, 0.02)),
        ("maybe_repeat", had(Flag::MaybeRepeat)),
        ("changed_mind", had(Flag::ChangedMind)),
        ("no_number", had(Flag::NoNumber)),
        ("no_side", had(Flag::NoSide)),
        ("sounds_like", had(Flag::SoundsLike)),
        ("not_in_catalogue", had(Flag::NotInCatalogue)),
        ("odd_unit", had(Flag::OddUnit)),
        ("odd_size", had(Flag::OddSize)),
        ("without_item", yes(line.item.is_none())),
        ("without_quantity", yes(line.quantity.is_none())),
        ("without_work", yes(line.work.is_none())),
        ("talk", log_odds(f64::from(group.anchor.status[0]), 0.01)),
        ("rule_lines", (group.rules.len() as f64).ln_1p()),
        ("outbuilding", yes(line.structure != HOUSE)),
    ];
    clues.extend(parts.iter().map(|(name, p)| (*name, log_odds(*p, 0.01))));
    (clues, log_odds(all, 0.02))
}

/// How much of what the rules drafted stands, from 0 to 1.
fn agreement(drafted: &Line, line: &Line) -> f64 {
    let number = match (drafted.quantity, line.quantity) {
        (Some(a), Some(b)) => alike(a, b),
        (a, b) => a == b,
    };
    let same = [
        drafted.side == line.side,
        drafted.item == line.item,
        drafted.unit == line.unit,
        drafted.structure == line.structure,
        number,
        true,
    ];
    same.iter().filter(|same| **same).count() as f64 / same.len() as f64
}

/// The lines with how sure each is, and a flag on those that aren't.
pub(super) fn judged(mut all: Vec<Drafted>, weights: &Weights) -> Vec<Line> {
    let (alike, company) = (alike_to_each(&all), company_of_each(&all));
    for ((one, alike), company) in all.iter_mut().zip(alike).zip(company) {
        one.clues.extend([("alike", alike), ("company", company)]);
        let line = &mut one.line;
        line.confidence = (chance(weigh(&one.clues, &weights.line)) * 100.0).round() / 100.0;
        if line.confidence < weights.sure || one.look > weights.look {
            line.flags.push(Flag::Unsure);
            line.flags.sort();
        } else if one.look < PLAIN {
            line.flags.retain(|flag| *flag != Flag::ChangedMind);
        }
    }
    all.into_iter().map(|one| one.line).collect()
}

/// Of how many lines of the same work on the same thing at the same place each is one, as a logarithm: a number said again
/// in other words comes out as one more.
fn alike_to_each(all: &[Drafted]) -> Vec<f64> {
    let what = |one: &Drafted| {
        let line = &one.line;
        (line.structure.clone(), line.side, line.item.clone(), line.work)
    };
    let mut counts: FxHashMap<_, u32> = FxHashMap::default();
    all.iter().for_each(|one| *counts.entry(what(one)).or_default() += 1);
    all.iter().map(|one| f64::from(counts[&what(one)]).ln()).collect()
}

/// How sure the lines around each are.
fn company_of_each(all: &[Drafted]) -> Vec<f64> {
    let mut told: Vec<(usize, f64)> = all.iter().map(|one| (one.at, one.all)).collect();
    told.sort_by_key(|(at, _)| *at);
    let sums: Vec<f64> = std::iter::once(0.0)
        .chain(told.iter().scan(0.0, |sum, (_, all)| {
            *sum += all;
            Some(*sum)
        }))
        .collect();
    let around = |one: &Drafted| {
        let first = told.partition_point(|(at, _)| at + COMPANY < one.at);
        let end = told.partition_point(|(at, _)| *at <= one.at + COMPANY);
        // Itself is among them.
        let others = end - first - 1;
        if others == 0 { 0.0 } else { (sums[end] - sums[first] - one.all) / others as f64 }
    };
    all.iter().map(around).collect()
}
