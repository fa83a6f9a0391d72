//! The lines of what rules and reader say together: the likeliest reading, how sure it is, and the rival beside it.

use super::fields::{Fields, Value, alike};
use super::groups::Group;
use super::weights::{chance, log_odds, weigh};
use super::words::Found;
use super::{Judge, RuleLine};
use crate::model::{Area, Flag, Line, Quantity, Reading, Why, Work};
use std::borrow::Cow;
use std::collections::BTreeSet;

/// A work is taken from this chance on; where none is, the likeliest from the lower one on.
const DONE: f64 = 0.5;
const MAYBE_DONE: f64 = 0.25;

/// A rival is shown from this chance on.
const RIVAL: f64 = 0.08;

/// The chances of a line's fields.
struct Chosen<'a> {
    fields: &'a Fields,
    work: Option<Work>,
    /// That this work, or none, is right.
    work_chance: f64,
    several: bool,
}

/// The lines of a group, each with its words' first place.
pub(super) fn lines(judge: &Judge, group: &Group, fields: &Fields) -> Vec<Line> {
    let mut works: Vec<(Option<Work>, f64)> =
        fields.works.iter().filter(|(_, p)| *p > DONE).map(|(work, p)| (Some(*work), *p)).collect();
    if works.is_empty() {
        let most = fields.works.first().filter(|(_, p)| *p > MAYBE_DONE);
        let none = 1.0 - fields.works.first().map_or(0.0, |(_, p)| *p);
        works.push(most.map_or((None, none), |(work, p)| (Some(*work), *p)));
    }
    let several = works.len() > 1;
    let each = works.into_iter().map(|(work, work_chance)| Chosen { fields, work, work_chance, several });
    each.map(|chosen| line(judge, group, &chosen)).collect()
}

fn line(judge: &Judge, group: &Group, chosen: &Chosen) -> Line {
    let fields = chosen.fields;
    let of_work = group.rules.iter().find(|rule| rule.line.work == chosen.work);
    let rule: Option<&RuleLine> = of_work.or(group.rules.first()).copied();
    let found = Found::of(judge, group, chosen.work, fields.quantity[0].0);
    let mut line = rule.map_or_else(|| found.line(judge), |rule| rule.line.clone());
    let before = line.clone();
    line.side = fields.side[0].0;
    line.structure.clone_from(&fields.structure[0].0);
    line.work = chosen.work;
    line.unit = fields.unit[0].0;
    line.only_if = fields.only_if > DONE;
    line.item = fields.item[0].0.map(|item| judge.source.id(item));
    line.area = fields.item[0].0.map_or(line.area, |item| judge.area_of(item));
    set_quantity(&mut line, fields.quantity[0].0, &found);
    line.size = found.size(judge, group, &line);
    line.why = why(judge, &before, &line, rule, &found);
    line.flags = flags(judge, &before, &line, rule, &found);
    line.confidence = sure(judge, group, chosen, rule, &line);
    if line.confidence < judge.weights.sure || f64::from(group.anchor.look) > judge.weights.look {
        add_flag(&mut line, Flag::Unsure);
    }
    let rivals: Vec<Reading> = rival(fields, &line).into_iter().chain(line.readings.clone()).collect();
    line.readings = rivals.into_iter().filter(|reading| line.read_as(reading) != line).collect();
    line
}

/// The number with its hedge; the rules' own value stays where it is the same number.
fn set_quantity(line: &mut Line, value: Value, found: &Found) {
    let same = matches!((line.quantity, value), (Some(a), Some(b)) if alike(a, b));
    if !same {
        line.quantity = value;
        line.rough = value.is_some() && found.rough;
    }
}

/// The chance that every field is right.
fn sure(judge: &Judge, group: &Group, chosen: &Chosen, rule: Option<&RuleLine>, line: &Line) -> f64 {
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
    ];
    clues.extend(parts.iter().map(|(name, p)| (*name, log_odds(*p, 0.01))));
    (chance(weigh(&clues, &judge.weights.line)) * 100.0).round() / 100.0
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

/// Why a reviewer should look: what stands in the fields, and what the rules doubted of what still stands.
fn flags(judge: &Judge, before: &Line, line: &Line, rule: Option<&RuleLine>, found: &Found) -> Vec<Flag> {
    let item = line.item.as_deref().and_then(|id| judge.place_of(id)).map(|item| judge.item(item));
    let as_one = item.is_some_and(|item| item.as_one);
    let odd = item.is_some_and(|item| !item.takes(line.unit) && line.unit != item.unit);
    let doubts = [
        (Flag::RoughNumber, line.rough || line.quantity.is_some_and(Quantity::is_range)),
        (Flag::NoNumber, line.quantity.is_none() && !as_one),
        (Flag::NoWork, line.work.is_none()),
        (Flag::OnlyIf, line.only_if),
        (Flag::NotInCatalogue, line.item.is_none()),
        (Flag::OddUnit, odd),
        (Flag::UnclearAudio, found.unclear(judge)),
        (Flag::SoundsLike, line.item.is_some() && !found.named_plainly(judge, line.item.as_deref())),
    ];
    let mut flags: BTreeSet<Flag> = doubts.into_iter().filter(|(_, is)| *is).map(|(flag, _)| flag).collect();
    let Some(rule) = rule else { return flags.into_iter().collect() };
    let same_number = before.quantity == line.quantity;
    let standing = rule.line.flags.iter().copied().filter(|flag| match flag {
        Flag::ChangedMind => true,
        Flag::MaybeRepeat | Flag::OddSize => same_number,
        Flag::NoSide => before.side == line.side,
        Flag::SoundsLike => before.item == line.item,
        // Without sound it tells that words run together; the judge has weighed that.
        Flag::UnclearAudio => judge.source.tokens.from_sound,
        _ => false,
    });
    flags.extend(standing);
    flags.into_iter().collect()
}

fn add_flag(line: &mut Line, flag: Flag) {
    if !line.flags.contains(&flag) {
        line.flags.push(flag);
        line.flags.sort();
    }
}

/// What gave the fields: the rules where they stand, else the reader and its words.
fn why(judge: &Judge, before: &Line, line: &Line, rule: Option<&RuleLine>, found: &Found) -> Vec<Why> {
    let drafted = rule.is_some();
    let changed = [
        ("item", before.item != line.item),
        ("side", before.side != line.side || before.structure != line.structure),
        ("work", before.work != line.work),
        ("quantity", before.quantity != line.quantity || before.unit != line.unit),
        ("size", before.size != line.size),
    ];
    let is_changed = |field: &str| changed.iter().any(|(name, is)| *name == field && *is);
    let mut all: Vec<Why> = if drafted {
        before.why.iter().filter(|why| !is_changed(&why.field)).cloned().collect()
    } else {
        Vec::new()
    };
    for (field, is) in changed {
        if is || !drafted && field != "size" {
            let words = found.words_of(judge, field);
            all.push(Why { field: field.to_owned(), rule: "the reader".to_owned(), words });
        }
    }
    all
}

/// The likeliest other reading.
fn rival(fields: &Fields, line: &Line) -> Option<Reading> {
    let next = |chances: &[f64]| chances.get(1).copied().unwrap_or(0.0);
    let list = |side: &[(crate::model::Side, f64)]| side.iter().map(|(_, p)| *p).collect::<Vec<f64>>();
    let numbers: Vec<f64> = fields.quantity.iter().map(|(_, p)| *p).collect();
    let works: Vec<f64> =
        fields.works.iter().filter(|(w, _)| Some(*w) != line.work).map(|(_, p)| *p).collect();
    let side = next(&list(&fields.side));
    let number = next(&numbers);
    let work = works.first().copied().unwrap_or(0.0);
    let most = side.max(number).max(work);
    if most < RIVAL {
        return None;
    }
    let mut reading =
        Reading { because: Cow::Borrowed("another way to read the same words"), ..Reading::default() };
    if most == side {
        reading.side = Some(fields.side[1].0);
    } else if most == number {
        reading.quantity = Some(fields.quantity[1].0?);
        reading.unit = Some(line.unit);
    } else {
        reading.work = fields.works.iter().map(|(work, _)| *work).find(|work| Some(*work) != line.work);
    }
    reading.differs().then_some(reading)
}

/// A line's area where neither says it.
pub(super) const AREA: Area = Area::Wall;
