//! What a person did: who, when, what before, what after. Acts are only ever added; what stands now is the draft with
//! all of them applied, so that undo, history and "who changed this" need no record of their own.

use super::deed::Deed;
use super::scope::{Done, Entry};
use crate::model::Measured;
use serde::{Deserialize, Serialize};

/// One act.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Act {
    /// Its number within the recording, from 1.
    pub number: u64,
    /// Who, as they call themselves.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
    /// What was asked for.
    pub deed: Deed,
    /// What came of it.
    pub changes: Vec<Change>,
    /// The act that this one undoes or does again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<u64>,
    /// What was done, in plain words.
    pub told: String,
}

/// One thing before and after an act.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "of", rename_all = "lowercase")]
pub enum Change {
    /// A line; none before where it is new, none after where it goes as if it had never been.
    Line {
        /// Which.
        id: String,
        /// Before.
        before: Option<Box<Entry>>,
        /// After.
        after: Option<Box<Entry>>,
    },
    /// Whether a photo, a tape or a check was done.
    Task {
        /// Which.
        id: String,
        /// Before.
        before: Option<Done>,
        /// After.
        after: Option<Done>,
    },
    /// What a person measured of a face.
    Face {
        /// Which.
        id: String,
        /// Before; none where it stood as it was said.
        before: Option<Box<Measured>>,
        /// After; none where it stands as it was said.
        after: Option<Box<Measured>>,
    },
    /// What a question about the house was answered with.
    Answer {
        /// The question, or one point of it.
        id: String,
        /// Before.
        before: Option<Done>,
        /// After.
        after: Option<Done>,
    },
    /// Whether the scope is settled.
    Settled {
        /// Before.
        before: Option<Done>,
        /// After.
        after: Option<Done>,
    },
}

impl Change {
    /// The line or the task that is changed; none for a face, a question, and for the whole scope.
    pub fn id(&self) -> Option<&str> {
        match self {
            Change::Line { id, .. } | Change::Task { id, .. } => Some(id),
            Change::Face { .. } | Change::Answer { .. } | Change::Settled { .. } => None,
        }
    }

    /// The change that takes this one back.
    pub fn inverse(&self) -> Self {
        match self.clone() {
            Change::Line { id, before, after } => Change::Line { id, before: after, after: before },
            Change::Task { id, before, after } => Change::Task { id, before: after, after: before },
            Change::Face { id, before, after } => Change::Face { id, before: after, after: before },
            Change::Answer { id, before, after } => Change::Answer { id, before: after, after: before },
            Change::Settled { before, after } => Change::Settled { before: after, after: before },
        }
    }
}

/// The acts of one person that can be undone, and those that can be done again, the latest last.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Stack {
    /// Done, and not undone.
    pub done: Vec<u64>,
    /// Undone, with nothing done since.
    pub undone: Vec<u64>,
}

impl Stack {
    /// Those of this person.
    pub fn of(acts: &[Act], who: &str) -> Self {
        let mut stack = Self::default();
        for act in acts.iter().filter(|act| act.who == who) {
            match (&act.deed, act.of) {
                (Deed::Undo {}, Some(of)) => {
                    stack.done.retain(|number| *number != of);
                    stack.undone.push(of);
                }
                (Deed::Redo {}, Some(of)) => {
                    stack.undone.retain(|number| *number != of);
                    stack.done.push(of);
                }
                _ => {
                    stack.undone.clear();
                    stack.done.push(act.number);
                }
            }
        }
        stack
    }
}
