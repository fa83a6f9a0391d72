//! The likely answers to what a line leaves open, for a reviewer to choose with one key. Each is a command, ready to be
//! sent; the likeliest comes first.

use super::command::{Command, Fields};
use super::scope::{Entry, LineState, Scope};
use super::summary;
use crate::language::rules::Grammar;
use crate::model::{Flag, Line, Side, Unit, Work, wording};
use serde::Serialize;

/// One answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Choice {
    /// The answer in a few words: `11 ft`, `right`, `remove and replace`.
    pub label: String,
    /// Why it is offered.
    pub hint: String,
    /// What choosing it does.
    pub command: Command,
}

/// As many as there are keys for.
const MOST: usize = 9;

/// The works that are asked first where none was said: what storm work mostly is (common practice, no source).
const USUAL_WORKS: [Work; 4] = [Work::DetachReset, Work::RemoveReplace, Work::Repair, Work::Paint];

const SIDES: [Side; 4] = [Side::Front, Side::Right, Side::Rear, Side::Left];

/// The answers to what a line leaves open; none where it leaves nothing open.
pub fn choices(entry: &Entry, scope: &Scope, grammar: &Grammar) -> Vec<Choice> {
    if entry.state != LineState::Flagged {
        return Vec::new();
    }
    let line = &entry.line;
    let mut all = readings(line);
    all.extend(line.flags.iter().flat_map(|flag| of_flag(*flag, line, scope, grammar)));
    all.truncate(MOST);
    all
}

/// The other ways to read the words.
fn readings(line: &Line) -> Vec<Choice> {
    let choice = |(reading, at): (&_, usize)| Choice {
        label: wording::reading(line, reading),
        hint: reading.because.clone().into_owned(),
        command: Command::ReadAs { line: line.id.clone(), reading: at },
    };
    line.readings.iter().zip(0..).map(choice).collect()
}

/// What would answer a flag.
fn of_flag(flag: Flag, line: &Line, scope: &Scope, grammar: &Grammar) -> Vec<Choice> {
    match flag {
        Flag::OnlyIf => conditions(line),
        Flag::NoWork => USUAL_WORKS.map(|work| with_work(line, work)).into(),
        Flag::NoSide => SIDES.map(|side| with_side(line, side)).into(),
        Flag::NoNumber if line.unit == Unit::Each => ["1", "2"].map(|number| counted(line, number)).into(),
        Flag::OddUnit => usual_unit(line, grammar).into_iter().collect(),
        Flag::MaybeRepeat => said_twice(line, scope).into_iter().collect(),
        Flag::SoundsLike => as_said(line).into_iter().collect(),
        _ => Vec::new(),
    }
}

fn conditions(line: &Line) -> Vec<Choice> {
    let id = || line.id.clone();
    let choice =
        |label: &str, hint: &str, command| Choice { label: label.into(), hint: hint.into(), command };
    vec![
        choice("include it", "it counts in the totals", Command::Include { line: id() }),
        choice("leave it out", "the line is dropped", Command::LeaveOut { line: id() }),
        choice("keep as if found", "not in totals", Command::Accept { lines: vec![id()] }),
    ]
}

fn with_work(line: &Line, work: Work) -> Choice {
    let fields = Fields { work: Some(work), ..Fields::default() };
    change(line, wording::work(Some(work)), "no work was said", fields)
}

fn with_side(line: &Line, side: Side) -> Choice {
    let fields = Fields { side: Some(side), ..Fields::default() };
    change(line, wording::side(side), "no side was named", fields)
}

fn counted(line: &Line, number: &str) -> Choice {
    let fields = Fields { quantity: Some(number.into()), ..Fields::default() };
    change(line, &format!("{number} each"), "no number was said", fields)
}

/// The same number in the unit that the item is usually measured in.
fn usual_unit(line: &Line, grammar: &Grammar) -> Option<Choice> {
    let item = grammar.item_named(line.item.as_deref()?)?;
    let unit = grammar.items[usize::from(item)].unit;
    let counted = Line { unit, ..line.clone() };
    let label = wording::amount(&counted).unwrap_or_else(|| wording::unit(&counted).to_owned());
    let fields = Fields { unit: Some(unit), ..Fields::default() };
    Some(change(line, &label, "how it is usually measured", fields))
}

/// The line that may be the same thing: one of the same side first.
fn said_twice(line: &Line, scope: &Scope) -> Option<Choice> {
    let alike = |other: &&Entry| {
        other.state != LineState::Dropped
            && other.id() != line.id
            && (&other.line.item, &other.line.structure) == (&line.item, &line.structure)
    };
    let others = || scope.entries.iter().filter(alike);
    let other = others().find(|other| other.line.side == line.side).or_else(|| others().next())?;
    Some(Choice {
        label: "said twice: count it once".into(),
        hint: format!("the same as {}", summary::name(&other.line)),
        command: Command::Merge { lines: vec![other.id().to_owned(), line.id.clone()] },
    })
}

/// The item by the words that were written down.
fn as_said(line: &Line) -> Option<Choice> {
    let differs = line.item.is_some() && wording::item_of(line) != line.said;
    let fields = Fields { item: Some(line.said.clone()), ..Fields::default() };
    differs.then(|| change(line, &format!("“{}”", line.said), "as it was written down", fields))
}

fn change(line: &Line, label: &str, hint: &str, fields: Fields) -> Choice {
    let command = Command::Change { line: line.id.clone(), fields };
    Choice { label: label.to_owned(), hint: hint.to_owned(), command }
}
