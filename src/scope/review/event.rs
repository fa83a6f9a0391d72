//! What a person did: who, when, what before, what after. Events are only ever added; what stands now is the draft with
//! all of them applied, so that undo, history and "who changed this" need no record of their own.

use super::command::Command;
use super::scope::{Done, Entry};
use super::sign_off::SignOff;
use crate::model::Measured;
use serde::{Deserialize, Serialize};

/// One event.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Event {
    /// Its number within the recording, from 1.
    pub number: u64,
    /// Who, as they call themselves.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
    /// What was asked for.
    pub command: Command,
    /// What came of it.
    pub changes: Vec<Change>,
    /// The event that this one undoes or redoes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<u64>,
    /// What was done, in plain words.
    pub summary: String,
}

/// One thing before and after an event.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "of", rename_all = "kebab-case")]
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
    /// Whether a photo, measurement or check was done.
    FollowUp {
        /// Which.
        id: String,
        /// Before.
        before: Option<Done>,
        /// After.
        after: Option<Done>,
    },
    /// What a person measured of a wall, gable or slope.
    Dimension {
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
    /// Whether the scope is signed off.
    SignOff {
        /// Before.
        before: Option<SignOff>,
        /// After.
        after: Option<SignOff>,
    },
}

impl Change {
    /// The change from one line to another.
    pub(super) fn line(before: Option<Entry>, after: Option<Entry>) -> Self {
        let id = before.as_ref().or(after.as_ref()).map(|entry| entry.id().to_owned()).unwrap_or_default();
        Change::Line { id, before: before.map(Box::new), after: after.map(Box::new) }
    }

    /// The line or follow-up that is changed; none for a dimension, a question, and for the whole scope.
    pub fn id(&self) -> Option<&str> {
        match self {
            Change::Line { id, .. } | Change::FollowUp { id, .. } => Some(id),
            Change::Dimension { .. } | Change::Answer { .. } | Change::SignOff { .. } => None,
        }
    }

    /// The change that undoes this one.
    pub fn inverse(&self) -> Self {
        match self.clone() {
            Change::Line { id, before, after } => Change::Line { id, before: after, after: before },
            Change::FollowUp { id, before, after } => Change::FollowUp { id, before: after, after: before },
            Change::Dimension { id, before, after } => Change::Dimension { id, before: after, after: before },
            Change::Answer { id, before, after } => Change::Answer { id, before: after, after: before },
            Change::SignOff { before, after } => Change::SignOff { before: after, after: before },
        }
    }
}

/// The events of one person that can be undone, and those that can be redone, the latest last.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Stack {
    /// Done, and not undone.
    pub done: Vec<u64>,
    /// Undone, with nothing done since.
    pub undone: Vec<u64>,
}

impl Stack {
    /// Those of this person.
    pub fn of(events: &[Event], who: &str) -> Self {
        let mut stack = Self::default();
        for event in events.iter().filter(|event| event.who == who) {
            match (&event.command, event.of) {
                (Command::Undo {}, Some(of)) => {
                    stack.done.retain(|number| *number != of);
                    stack.undone.push(of);
                }
                (Command::Redo {}, Some(of)) => {
                    stack.undone.retain(|number| *number != of);
                    stack.done.push(of);
                }
                _ => {
                    stack.undone.clear();
                    stack.done.push(event.number);
                }
            }
        }
        stack
    }
}
