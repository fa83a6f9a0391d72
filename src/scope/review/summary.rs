//! Events in plain words, for the history and for what the next undo would do.

use super::command::Command;
use super::event::{Change, Event};
use super::scope::Entry;
use crate::model::{Line, wording};

/// What was done. `of`: the event that is undone or redone.
pub(super) fn of(command: &Command, changes: &[Change], of: Option<&Event>) -> String {
    let what = named(changes);
    match command {
        Command::Accept { .. } => format!("{what}: accepted"),
        Command::Change { .. } | Command::ReadAs { .. } => format!("{what}: {}", differences(changes)),
        Command::Drop { reason, .. } => format!("{what}: dropped, {reason}"),
        Command::Split { parts, .. } => format!("{what}: split into {}", parts.len()),
        Command::Merge { .. } => format!("{what}: merged"),
        Command::Add { .. } => format!("{what}: added"),
        Command::Move { side, structure, .. } => match structure {
            Some(structure) => format!("{what}: moved to {}", wording::whereabouts(structure, *side)),
            None => format!("{what}: moved to {}", wording::side(*side)),
        },
        Command::Include { .. } => format!("{what}: included"),
        Command::LeaveOut { .. } => format!("{what}: left out"),
        Command::EnterMeasurement { measurement, .. } => format!("measured: {}", measurement.trim()),
        Command::SetDimension { .. } => super::dimensions::summary(changes),
        Command::Done { .. } => "follow-up marked as done".to_owned(),
        Command::NotDone { .. } => "follow-up marked as not done".to_owned(),
        Command::Answer { .. } => answers(changes),
        Command::SignOff {} => signed_off(0),
        Command::Reopen {} => "scope reopened".to_owned(),
        Command::Undo {} => format!("undone: {}", of.map_or("", |event| &event.summary)),
        Command::Redo {} => format!("redone: {}", of.map_or("", |event| &event.summary)),
    }
}

/// That a scope was signed off, with the questions that were left open.
pub(super) fn signed_off(open: usize) -> String {
    match open {
        0 => "scope signed off".to_owned(),
        open => format!("scope signed off, {} left open", wording::count(open, "question", "questions")),
    }
}

/// What questions were answered with.
fn answers(changes: &[Change]) -> String {
    let notes = changes.iter().filter_map(|change| match change {
        Change::Answer { after, .. } => after.as_ref()?.note.clone(),
        _ => None,
    });
    notes.collect::<Vec<_>>().join("; ")
}

/// A line by its thing and its place: `hose reel, rear`.
pub(super) fn name(line: &Line) -> String {
    match line.side {
        crate::model::Side::None => wording::item_of(line),
        side => format!("{}, {}", wording::item_of(line), wording::side(side)),
    }
}

/// The lines that are changed: by name where they are one or two.
fn named(changes: &[Change]) -> String {
    let entries: Vec<&Entry> = changes
        .iter()
        .filter_map(|change| match change {
            Change::Line { before, after, .. } => before.as_deref().or(after.as_deref()),
            _ => None,
        })
        .collect();
    match entries.as_slice() {
        [one] => name(&one.line),
        [one, other] => format!("{} and {}", name(&one.line), name(&other.line)),
        more => wording::count(more.len(), "line", "lines"),
    }
}

/// What is different, field by field, with what it was.
fn differences(changes: &[Change]) -> String {
    let lines = changes.iter().find_map(|change| match change {
        Change::Line { before: Some(before), after: Some(after), .. } => Some((&before.line, &after.line)),
        _ => None,
    });
    let Some((before, after)) = lines else { return "changed".to_owned() };
    let pairs = fields(after).into_iter().zip(fields(before));
    let different = pairs.filter(|(after, before)| after != before);
    let told: Vec<String> = different.map(|(after, before)| format!("{after}, was {before}")).collect();
    if told.is_empty() { "reviewed".to_owned() } else { told.join("; ") }
}

/// The fields of a line in plain words.
fn fields(line: &Line) -> [String; 6] {
    let or_none = |text: &Option<String>| text.clone().unwrap_or_else(|| "none".to_owned());
    [
        wording::item_of(line),
        amount(line),
        wording::work(line.work).to_owned(),
        wording::whereabouts(&line.structure, line.side),
        or_none(&line.size.as_ref().map(wording::size)),
        or_none(&line.detail),
    ]
}

fn amount(line: &Line) -> String {
    wording::amount(line).unwrap_or_else(|| "no number".to_owned())
}
