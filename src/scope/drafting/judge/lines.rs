//! The lines of what rules and reader say together: the likeliest reading, how sure it is, and the rival beside it.

use super::fields::{Fields, Value, alike};
use super::groups::Group;
use super::sure;
use super::weights::Clue;
use super::words::Found;
use super::{Judge, RuleLine};
use crate::model::{Area, Flag, Line, Quantity, Reading, Why, Work};
use std::borrow::Cow;
use std::collections::BTreeSet;

/// A work is taken from this chance on; where none is, the likeliest from the lower one on.
const DONE: f64 = 0.5;
const MAYBE_DONE: f64 = 0.25;

/// What gave a field that the reader gave, as people read it.
const BY_CONTEXT: &str = "the words around it";

/// A rival is shown from this chance on.
const RIVAL: f64 = 0.08;

/// The chances of a line's fields.
pub(super) struct Chosen<'a> {
    pub fields: &'a Fields,
    pub work: Option<Work>,
    /// That this work, or none, is right.
    pub work_chance: f64,
    pub several: bool,
}

/// A line as it is likeliest, and what is known of how likely that is.
pub(super) struct Drafted {
    pub line: Line,
    /// What speaks for and against it, taken by itself.
    pub clues: Vec<Clue>,
    /// The chances of its fields, multiplied, as log-odds.
    pub all: f64,
    /// The chance that somebody should look at it, whether it is right or not.
    pub look: f64,
    /// The word it is told at.
    pub at: usize,
}

/// The lines of a group.
pub(super) fn lines(judge: &Judge, group: &Group, fields: &Fields) -> Vec<Drafted> {
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

fn line(judge: &Judge, group: &Group, chosen: &Chosen) -> Drafted {
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
    let rivals: Vec<Reading> = rival(fields, &line).into_iter().chain(line.readings.clone()).collect();
    line.readings = rivals.into_iter().filter(|reading| line.read_as(reading) != line).collect();
    let (clues, all) = sure::clues(group, chosen, rule, &line);
    Drafted { line, clues, all, look: f64::from(group.anchor.look), at: group.anchor.at }
}

/// The number with its hedge; the rules' own value stays where it is the same number.
fn set_quantity(line: &mut Line, value: Value, found: &Found) {
    let same = matches!((line.quantity, value), (Some(a), Some(b)) if alike(a, b));
    if !same {
        line.quantity = value;
        line.rough = value.is_some() && found.rough;
    }
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
            all.push(Why { field: field.to_owned(), rule: BY_CONTEXT.to_owned(), words });
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
