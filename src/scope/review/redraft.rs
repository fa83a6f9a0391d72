//! A new draft of the same recording, made with better rules, under what people already did. What a person decided
//! stays as they decided it; where the new draft has nothing from the same words, the line is kept apart and shown.

use super::event::{Change, Event};
use super::scope::{Entry, Scope};
use crate::model::{Draft, Line};
use std::collections::BTreeSet;

/// A line that a person reviewed and the new draft no longer has.
#[derive(Debug, Clone, PartialEq)]
pub struct Stray {
    /// The line as the person left it.
    pub entry: Entry,
    /// What became of its words.
    pub why: &'static str,
}

/// The scope of a draft after events, some of which may have been done on an earlier draft, and the lines that the draft
/// no longer has.
pub fn scope_and_strays(draft: &Draft, events: &[Event]) -> (Scope, Vec<Stray>) {
    let drafted: BTreeSet<&str> = draft.lines.iter().map(|line| line.id.as_str()).collect();
    let mut made: BTreeSet<&str> = BTreeSet::new();
    for change in events.iter().flat_map(|event| &event.changes) {
        if let Change::Line { id, before: None, .. } = change {
            made.insert(id);
        }
    }
    let mut scope = Scope::after(draft, events);
    let (fits, strays): (Vec<Entry>, Vec<Entry>) = std::mem::take(&mut scope.entries)
        .into_iter()
        .partition(|entry| drafted.contains(entry.id()) || made.contains(entry.id()));
    scope.entries = fits;
    let why = |entry: &Entry| match draft.lines.iter().any(|line| overlap(line, &entry.line)) {
        true => "the new draft reads these words as another line",
        false => "the new draft has no line from these words",
    };
    let strays = strays.into_iter().map(|entry| Stray { why: why(&entry), entry }).collect();
    (scope, strays)
}

fn overlap(a: &Line, b: &Line) -> bool {
    matches!((a.words, b.words), (Some(a), Some(b)) if a[0] <= b[1] && b[0] <= a[1])
}
