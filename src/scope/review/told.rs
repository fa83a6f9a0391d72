//! Acts in plain words, for the history and for what the next undo would do.

use super::act::{Act, Change};
use super::deed::Deed;
use super::scope::Entry;
use crate::model::{Line, wording};

/// What was done. `of`: the act that is undone or done again.
pub(super) fn told(deed: &Deed, changes: &[Change], of: Option<&Act>) -> String {
    let what = named(changes);
    match deed {
        Deed::Accept { .. } => format!("{what}: accepted"),
        Deed::Change { .. } | Deed::ReadAs { .. } => format!("{what}: {}", differences(changes)),
        Deed::Drop { reason, .. } => format!("{what}: dropped, {reason}"),
        Deed::Split { parts, .. } => format!("{what}: split into {}", parts.len()),
        Deed::Merge { .. } => format!("{what}: merged"),
        Deed::Add { .. } => format!("{what}: added"),
        Deed::Move { side, structure, .. } => match structure {
            Some(structure) => format!("{what}: moved to {}", wording::whereabouts(structure, *side)),
            None => format!("{what}: moved to {}", wording::side(*side)),
        },
        Deed::Confirm { .. } => format!("{what}: the condition holds"),
        Deed::Refuse { .. } => format!("{what}: the condition doesn't hold"),
        Deed::Tape { measure, .. } => format!("tape: {}", measure.trim()),
        Deed::Measure { .. } => super::measures::told(changes),
        Deed::Done { .. } => "ticked off".to_owned(),
        Deed::NotDone { .. } => "no longer ticked off".to_owned(),
        Deed::Answer { .. } => answers(changes),
        Deed::Settle {} => settled(0),
        Deed::Reopen {} => "scope reopened".to_owned(),
        Deed::Undo {} => format!("undone: {}", of.map_or("", |act| &act.told)),
        Deed::Redo {} => format!("done again: {}", of.map_or("", |act| &act.told)),
    }
}

/// That a scope was settled, with the questions that were left open.
pub(super) fn settled(open: usize) -> String {
    match open {
        0 => "scope settled".to_owned(),
        open => format!("scope settled, {} left open", wording::count(open, "question", "questions")),
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

/// What is otherwise, field by field, with what it was.
fn differences(changes: &[Change]) -> String {
    let lines = changes.iter().find_map(|change| match change {
        Change::Line { before: Some(before), after: Some(after), .. } => Some((&before.line, &after.line)),
        _ => None,
    });
    let Some((before, after)) = lines else { return "changed".to_owned() };
    let much = |line: &Line| wording::amount(line).unwrap_or_else(|| "no number".to_owned());
    let or_none = |text: &Option<String>| text.clone().unwrap_or_else(|| "none".to_owned());
    let fields = [
        (wording::item_of(after), wording::item_of(before)),
        (much(after), much(before)),
        (wording::work(after.work).to_owned(), wording::work(before.work).to_owned()),
        (
            wording::whereabouts(&after.structure, after.side),
            wording::whereabouts(&before.structure, before.side),
        ),
        (or_none(&after.size.as_ref().map(wording::size)), or_none(&before.size.as_ref().map(wording::size))),
        (or_none(&after.detail), or_none(&before.detail)),
    ];
    let told: Vec<String> = fields
        .iter()
        .filter(|(after, before)| after != before)
        .map(|(after, before)| format!("{after}, was {before}"))
        .collect();
    if told.is_empty() { "looked at".to_owned() } else { told.join("; ") }
}
