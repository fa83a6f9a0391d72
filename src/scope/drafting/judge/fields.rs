//! The chances of each field of what may be a line, from what the reader says and what the rules drafted.

use super::Judge;
use super::groups::Group;
use super::weights::{Clue, Weights, chance, choose, log_odds, weigh};
use crate::language::reader::{Number, UNITS, WORKS};
use crate::model::{Flag, HOUSE, Line, Quantity, Side, Unit, Work};

/// How much; none where no number was said.
pub(super) type Value = Option<Quantity>;

/// The sides in the order of the reader's chances.
pub(super) const SIDES: [Side; 5] = [Side::Front, Side::Right, Side::Rear, Side::Left, Side::None];

/// The works in the order of the reader's chances.
const WORK_ORDER: [Work; WORKS] = [
    Work::DetachReset,
    Work::RemoveReplace,
    Work::Remove,
    Work::Install,
    Work::Repair,
    Work::Clean,
    Work::Paint,
    Work::Stain,
    Work::Protect,
];

/// The units in the order of the reader's chances.
const UNIT_ORDER: [Unit; UNITS] = [
    Unit::Each,
    Unit::Foot,
    Unit::SquareFoot,
    Unit::Square,
    Unit::Pair,
    Unit::Set,
    Unit::Roll,
    Unit::Sheet,
    Unit::Bundle,
    Unit::Inch,
    Unit::Yard,
    Unit::Box,
];

/// Two numbers nearer to each other than this share are one.
const ALIKE: f64 = 0.01;

/// What each field of a line may be, with its chance, the likeliest first.
#[derive(Debug)]
pub(super) struct Fields {
    /// That there is a line at all.
    pub exists: f64,
    pub side: Vec<(Side, f64)>,
    pub item: Vec<(Option<u16>, f64)>,
    pub quantity: Vec<(Value, f64)>,
    pub unit: Vec<(Unit, f64)>,
    pub structure: Vec<(String, f64)>,
    /// Each work by itself.
    pub works: Vec<(Work, f64)>,
    pub only_if: f64,
}

/// Weighs what both say.
pub(super) fn fields(judge: &Judge, group: &Group) -> Fields {
    let w = judge.weights;
    let rule = group.rules.first().map(|rule| &rule.line);
    Fields {
        exists: exists(group, rule, w),
        side: side(group, rule, w),
        item: item(judge, group, rule),
        quantity: quantity(judge, group, rule),
        unit: unit(group, rule, w),
        structure: structure(judge, group, rule),
        works: works(group, w),
        only_if: only_if(group, w),
    }
}

/// 1 where it holds.
fn yes(holds: bool) -> f64 {
    f64::from(u8::from(holds))
}

fn ln(chance: f32) -> f64 {
    f64::from(chance).max(1e-3).ln()
}

fn exists(group: &Group, rule: Option<&Line>, weights: &Weights) -> f64 {
    let anchor = group.anchor;
    let doubtful = rule.is_some_and(|line| line.flags.iter().any(|flag| *flag != Flag::RoughNumber));
    let unsaid = anchor.number.iter().find(|(n, _)| *n == Number::Unsaid).map_or(0.0, |(_, chance)| *chance);
    let most = |chances: &[f32]| f64::from(chances.iter().copied().fold(0.0, f32::max));
    let items: Vec<f32> = anchor.item.iter().map(|(_, chance)| *chance).collect();
    let clues: [Clue; 11] = [
        ("bias", 1.0),
        ("reader", log_odds(f64::from(group.mass.min(0.999)), 0.01)),
        ("drafted_by_rules", yes(rule.is_some())),
        ("rules", rule.map_or(0.0, |line| log_odds(line.confidence.min(0.99), 0.02))),
        ("rules_doubt", yes(doubtful)),
        ("cleared", log_odds(f64::from(anchor.status[2]), 0.01)),
        ("work", log_odds(most(&anchor.works), 0.02)),
        ("number", log_odds(1.0 - f64::from(unsaid), 0.02)),
        ("apart", yes(group.apart)),
        ("item", log_odds(if items.is_empty() { 0.5 } else { most(&items) }, 0.02)),
        ("rules_without_work", yes(rule.is_some_and(|line| line.work.is_none()))),
    ];
    chance(weigh(&clues, &weights.exists))
}

fn side(group: &Group, rule: Option<&Line>, weights: &Weights) -> Vec<(Side, f64)> {
    let clues = |side: Side, chance: f32| {
        vec![("reader", ln(chance)), ("rules", yes(rule.is_some_and(|line| line.side == side)))]
    };
    let options = SIDES.iter().zip(group.anchor.side).map(|(side, chance)| (*side, clues(*side, chance)));
    choose(options.collect(), &weights.side)
}

fn item(judge: &Judge, group: &Group, rule: Option<&Line>) -> Vec<(Option<u16>, f64)> {
    let drafted = rule.map(|line| line.item.as_deref().and_then(|id| judge.place_of(id)));
    let mut said: Vec<(Option<u16>, f32)> = group.anchor.item.clone();
    if let Some(drafted) = drafted
        && said.iter().all(|(item, _)| *item != drafted)
    {
        said.push((drafted, 0.0));
    }
    let options = said.into_iter().map(|(item, chance)| {
        (item, vec![("reader", ln(chance)), ("rules", yes(drafted.is_some_and(|drafted| drafted == item)))])
    });
    choose(options.collect(), &judge.weights.item)
}

fn quantity(judge: &Judge, group: &Group, rule: Option<&Line>) -> Vec<(Value, f64)> {
    let mut said: Vec<(Value, f32)> = Vec::new();
    for (number, chance) in &group.anchor.number {
        let value = judge.value(*number);
        match said.iter_mut().find(|(known, _)| *known == value) {
            Some((_, sum)) => *sum += chance,
            None => said.push((value, *chance)),
        }
    }
    let drafted = rule.map(|line| {
        let same = |value: &Value| matches!((value, line.quantity), (Some(a), Some(b)) if alike(*a, b));
        said.iter().map(|(value, _)| *value).find(same).unwrap_or(line.quantity)
    });
    if let Some(drafted) = drafted
        && said.iter().all(|(value, _)| *value != drafted)
    {
        said.push((drafted, 0.0));
    }
    let options = said.into_iter().map(|(value, chance)| {
        let same = drafted == Some(value);
        let clues = vec![
            ("reader", ln(chance)),
            ("rules", yes(same && value.is_some())),
            ("rules_unsaid", yes(same && value.is_none())),
        ];
        (value, clues)
    });
    choose(options.collect(), &judge.weights.quantity)
}

/// Whether two quantities are one, to a hundredth.
pub(super) fn alike(a: Quantity, b: Quantity) -> bool {
    let (a, b) = (a.value().decimal(), b.value().decimal());
    (a - b).abs() <= ALIKE * b.abs() + 1e-6
}

fn unit(group: &Group, rule: Option<&Line>, weights: &Weights) -> Vec<(Unit, f64)> {
    let clues = |unit: Unit, chance: f32| {
        vec![("reader", ln(chance)), ("rules", yes(rule.is_some_and(|line| line.unit == unit)))]
    };
    let options =
        UNIT_ORDER.iter().zip(group.anchor.unit).map(|(unit, chance)| (*unit, clues(*unit, chance)));
    choose(options.collect(), &weights.unit)
}

fn structure(judge: &Judge, group: &Group, rule: Option<&Line>) -> Vec<(String, f64)> {
    let mut said: Vec<(String, f32)> = Vec::new();
    for (named, chance) in &group.anchor.structure {
        let name = named.and_then(|n| judge.input.structures.get(n)).map_or(HOUSE, |s| s.name.as_str());
        match said.iter_mut().find(|(known, _)| known == name) {
            Some((_, sum)) => *sum += chance,
            None => said.push((name.to_owned(), *chance)),
        }
    }
    if let Some(line) = rule
        && said.iter().all(|(name, _)| *name != line.structure)
    {
        said.push((line.structure.clone(), 0.0));
    }
    let options = said.into_iter().map(|(name, chance)| {
        let drafted = yes(rule.is_some_and(|line| line.structure == name));
        (name, vec![("reader", ln(chance)), ("rules", drafted)])
    });
    choose(options.collect(), &judge.weights.structure)
}

fn works(group: &Group, weights: &Weights) -> Vec<(Work, f64)> {
    let drafted: Vec<Work> = group.rules.iter().filter_map(|rule| rule.line.work).collect();
    let weighed = WORK_ORDER.iter().zip(group.anchor.works).map(|(work, said)| {
        let same = drafted.contains(work);
        let clues = [
            ("reader", log_odds(f64::from(said), 0.005)),
            ("rules", yes(same)),
            ("rules_other", yes(!drafted.is_empty() && !same)),
            ("bias", 1.0),
        ];
        (*work, chance(weigh(&clues, &weights.work)))
    });
    let mut works: Vec<(Work, f64)> = weighed.collect();
    works.sort_by(|a, b| b.1.total_cmp(&a.1));
    works
}

fn only_if(group: &Group, weights: &Weights) -> f64 {
    let clues = [
        ("reader", log_odds(f64::from(group.anchor.only_if), 0.01)),
        ("rules", yes(group.rules.iter().any(|rule| rule.line.only_if))),
        ("drafted_by_rules", yes(!group.rules.is_empty())),
        ("bias", 1.0),
    ];
    chance(weigh(&clues, &weights.only_if))
}
