//! A scope under review: the draft with everything that people did to it so far.

use super::event::{Change, Event};
use super::sign_off::SignOff;
use crate::model::{Draft, FollowUp, Line, Measured};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What became of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LineState {
    /// It has a flag that nobody has answered yet.
    Flagged,
    /// It has no flag, and nobody has looked at it yet.
    Unflagged,
    /// A person has decided on it.
    Reviewed,
    /// No part of the scope any more; kept with its reason.
    Dropped,
}

/// A line and what became of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// The line as it is now.
    pub line: Line,
    /// What became of it.
    pub state: LineState,
    /// Why it was dropped.
    pub reason: Option<String>,
    /// Who touched it last; none where it is as drafted.
    pub by: Option<String>,
    /// The number of the event that touched it last; 0 where it is as drafted.
    pub version: u64,
}

impl Entry {
    /// A line as it was drafted.
    pub fn drafted(line: Line) -> Self {
        let state = if line.needs_look() { LineState::Flagged } else { LineState::Unflagged };
        Self { line, state, reason: None, by: None, version: 0 }
    }

    /// What it is known by.
    pub fn id(&self) -> &str {
        &self.line.id
    }

    /// Where it stands among the others: by the words it came from.
    fn order(&self) -> (u32, &str) {
        (self.line.words.map_or(u32::MAX, |[first, _]| first), self.id())
    }
}

/// A photo, measurement or check that is still needed, and whether it was done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FollowUpEntry {
    /// What it is known by.
    pub id: String,
    /// What is needed.
    pub follow_up: FollowUp,
    /// When and by whom it was done.
    pub done: Option<Done>,
    /// The number of the event that touched it last; 0 where it is as drafted.
    pub version: u64,
}

/// That somebody did something.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Done {
    /// Who.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
    /// What came of it: the measurement that was typed, the answer that was given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// What a follow-up is known by: its kind and its words, so that a new draft of the same words has it too.
fn follow_up_id(follow_up: &FollowUp) -> String {
    let FollowUp { kind, quote, .. } = follow_up;
    format!("t{}", &crate::model::digest::of_bytes(format!("{kind:?} {quote}").as_bytes())[..8])
}

/// The draft with what people did to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Scope {
    /// The lines in the order they were said; those that a person wrote without words stand last.
    pub entries: Vec<Entry>,
    /// Photos, measurements and checks.
    pub follow_ups: Vec<FollowUpEntry>,
    /// What people measured, by id.
    pub measured: BTreeMap<String, Measured>,
    /// The questions about the house that were answered, and points of them, by id; the note tells with what.
    pub answers: BTreeMap<String, Done>,
    /// Who signed the scope off, and when; none while it is open.
    pub signed_off: Option<SignOff>,
    /// The number of the last event; 0 before the first.
    pub version: u64,
}

impl Scope {
    /// The scope before anybody did anything.
    pub fn of(draft: &Draft) -> Self {
        let mut follow_ups: Vec<FollowUpEntry> = Vec::new();
        for follow_up in &draft.follow_ups {
            let named = follow_up_id(follow_up);
            let again = follow_ups.iter().filter(|entry| entry.id.starts_with(&named)).count();
            let id = if again == 0 { named } else { format!("{named}-{again}") };
            follow_ups.push(FollowUpEntry { id, follow_up: follow_up.clone(), done: None, version: 0 });
        }
        Self {
            entries: draft.lines.iter().cloned().map(Entry::drafted).collect(),
            follow_ups,
            measured: BTreeMap::new(),
            answers: BTreeMap::new(),
            signed_off: None,
            version: 0,
        }
    }

    /// The scope after those events.
    pub fn after<'a>(draft: &Draft, events: impl IntoIterator<Item = &'a Event>) -> Self {
        let mut scope = Self::of(draft);
        events.into_iter().for_each(|event| scope.apply(event));
        scope
    }

    /// The line of this id.
    pub fn entry(&self, id: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.id() == id)
    }

    /// The photo, measurement or check of this id.
    pub fn follow_up(&self, id: &str) -> Option<&FollowUpEntry> {
        self.follow_ups.iter().find(|entry| entry.id == id)
    }

    /// How many lines still need review.
    pub fn flagged(&self) -> usize {
        self.entries.iter().filter(|entry| entry.state == LineState::Flagged).count()
    }

    /// Lets an event take effect. What it changed stands as the event has it, whatever stood there before.
    pub fn apply(&mut self, event: &Event) {
        for change in &event.changes {
            self.change(change, event.number);
        }
        self.version = event.number;
    }

    fn change(&mut self, change: &Change, version: u64) {
        match change {
            Change::Line { id, after, .. } => {
                self.entries.retain(|entry| entry.id() != id);
                if let Some(after) = after {
                    let entry = Entry { version, ..(**after).clone() };
                    let place = self.entries.iter().position(|other| other.order() > entry.order());
                    self.entries.insert(place.unwrap_or(self.entries.len()), entry);
                }
            }
            Change::FollowUp { id, after, .. } => {
                if let Some(entry) = self.follow_ups.iter_mut().find(|entry| entry.id == *id) {
                    entry.done.clone_from(after);
                    entry.version = version;
                }
            }
            Change::Dimension { id, after: Some(after), .. } => {
                self.measured.insert(id.clone(), (**after).clone());
            }
            Change::Dimension { id, after: None, .. } => {
                self.measured.remove(id);
            }
            Change::Answer { id, after: Some(after), .. } => {
                self.answers.insert(id.clone(), after.clone());
            }
            Change::Answer { id, after: None, .. } => {
                self.answers.remove(id);
            }
            Change::SignOff { after, .. } => self.signed_off.clone_from(after),
        }
    }

    /// The draft as it is now: the lines that are part of it, what is still needed, and what was measured meanwhile.
    pub fn draft(&self, drafted: &Draft) -> Draft {
        let kept = self.entries.iter().filter(|entry| entry.state != LineState::Dropped);
        let open = self.follow_ups.iter().filter(|entry| entry.done.is_none());
        Draft {
            lines: kept.map(|entry| entry.line.clone()).collect(),
            follow_ups: open.map(|entry| entry.follow_up.clone()).collect(),
            measured: self.measured.values().cloned().collect(),
            ..drafted.clone()
        }
    }
}
