//! A scope under review: the draft with everything that people did to it so far.

use super::act::{Act, Change};
use crate::model::{Draft, FollowUp, Line, Measured};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// How a line stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum State {
    /// Needs a look, and nobody has settled it.
    Open,
    /// Part of the scope.
    Stands,
    /// No part of the scope any more; kept with its reason.
    Dropped,
}

/// A line and what became of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// The line as it is now.
    pub line: Line,
    /// How it stands.
    pub state: State,
    /// Why it was dropped.
    pub reason: Option<String>,
    /// Who touched it last; none where it is as drafted.
    pub by: Option<String>,
    /// The number of the act that touched it last; 0 where it is as drafted.
    pub version: u64,
}

impl Entry {
    /// A line as it was drafted.
    pub fn drafted(line: Line) -> Self {
        let state = if line.needs_look() { State::Open } else { State::Stands };
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

/// A photo to take, a tape to run, a thing to look into, and whether that was done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Task {
    /// What it is known by.
    pub id: String,
    /// What is to be done.
    pub follow_up: FollowUp,
    /// When and by whom it was done.
    pub done: Option<Done>,
    /// The number of the act that touched it last; 0 where it is as drafted.
    pub version: u64,
}

/// That somebody did something.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Done {
    /// Who.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
    /// What came of it: the measure that was typed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// What a task is known by: its kind and its words, so that a new draft of the same words has it too.
fn task_id(follow_up: &FollowUp) -> String {
    let FollowUp { kind, quote, .. } = follow_up;
    format!("t{}", &crate::model::digest::of_bytes(format!("{kind:?} {quote}").as_bytes())[..8])
}

/// The draft with what people did to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Scope {
    /// The lines in the order they were said; those that a person wrote without words stand last.
    pub entries: Vec<Entry>,
    /// Photos, tapes, things to look into.
    pub tasks: Vec<Task>,
    /// The faces that people measured, by id.
    pub measured: BTreeMap<String, Measured>,
    /// The questions about the house that were answered, and points of them, by id; the note tells with what.
    pub answers: BTreeMap<String, Done>,
    /// Who settled the scope, and when; none while it is open.
    pub settled: Option<Done>,
    /// The number of the last act; 0 before the first.
    pub version: u64,
}

impl Scope {
    /// The scope before anybody did anything.
    pub fn of(draft: &Draft) -> Self {
        let mut tasks: Vec<Task> = Vec::new();
        for follow_up in &draft.follow_ups {
            let named = task_id(follow_up);
            let again = tasks.iter().filter(|task| task.id.starts_with(&named)).count();
            let id = if again == 0 { named } else { format!("{named}-{again}") };
            tasks.push(Task { id, follow_up: follow_up.clone(), done: None, version: 0 });
        }
        Self {
            entries: draft.lines.iter().cloned().map(Entry::drafted).collect(),
            tasks,
            measured: BTreeMap::new(),
            answers: BTreeMap::new(),
            settled: None,
            version: 0,
        }
    }

    /// The scope after those acts.
    pub fn after<'a>(draft: &Draft, acts: impl IntoIterator<Item = &'a Act>) -> Self {
        let mut scope = Self::of(draft);
        acts.into_iter().for_each(|act| scope.apply(act));
        scope
    }

    /// The line of this id.
    pub fn entry(&self, id: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.id() == id)
    }

    /// The photo, tape or check of this id.
    pub fn task(&self, id: &str) -> Option<&Task> {
        self.tasks.iter().find(|task| task.id == id)
    }

    /// How many lines still need a look.
    pub fn open(&self) -> usize {
        self.entries.iter().filter(|entry| entry.state == State::Open).count()
    }

    /// Lets an act take effect. What it changed stands as the act has it, whatever stood there before.
    pub fn apply(&mut self, act: &Act) {
        for change in &act.changes {
            self.change(change, act.number);
        }
        self.version = act.number;
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
            Change::Task { id, after, .. } => {
                if let Some(task) = self.tasks.iter_mut().find(|task| task.id == *id) {
                    task.done.clone_from(after);
                    task.version = version;
                }
            }
            Change::Face { id, after: Some(after), .. } => {
                self.measured.insert(id.clone(), (**after).clone());
            }
            Change::Face { id, after: None, .. } => {
                self.measured.remove(id);
            }
            Change::Answer { id, after: Some(after), .. } => {
                self.answers.insert(id.clone(), after.clone());
            }
            Change::Answer { id, after: None, .. } => {
                self.answers.remove(id);
            }
            Change::Settled { after, .. } => self.settled.clone_from(after),
        }
    }

    /// The draft as it is now: the lines that stand, what is still to be done, and what was measured meanwhile.
    pub fn draft(&self, drafted: &Draft) -> Draft {
        let kept = self.entries.iter().filter(|entry| entry.state != State::Dropped);
        let open = self.tasks.iter().filter(|task| task.done.is_none());
        Draft {
            lines: kept.map(|entry| entry.line.clone()).collect(),
            follow_ups: open.map(|task| task.follow_up.clone()).collect(),
            measured: self.measured.values().cloned().collect(),
            ..drafted.clone()
        }
    }
}
