//! What comes of a command: the event that carries it out, or why it is refused. Pure.

use super::command::Command;
use super::event::{Change, Event};
use super::refusal::Refusal;
use super::scope::{Done, Scope};
use super::summary;
use crate::language::rules::Grammar;
use crate::model::Draft;
use crate::speech::Transcript;
use std::collections::BTreeMap;

/// The versions of lines, follow-ups and dimensions that a person saw when deciding, by id; 0 where nobody had changed
/// them.
pub type Seen = BTreeMap<String, u64>;

/// Who does something when, and what they saw.
#[derive(Debug, Clone)]
pub struct Actor {
    /// Who, as they call themselves.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
    /// What they saw.
    pub seen: Seen,
}

impl Actor {
    /// That this person did something.
    pub(super) fn done(&self, note: Option<String>) -> Done {
        Done { who: self.who.clone(), at: self.at.clone(), note }
    }
}

/// What a command is judged by.
#[derive(Debug, Clone, Copy)]
pub struct ReviewContext<'a> {
    /// As drafted.
    pub draft: &'a Draft,
    /// The scope as it is now.
    pub scope: &'a Scope,
    /// All events so far.
    pub events: &'a [Event],
    /// The words.
    pub transcript: &'a Transcript,
    /// The rules that typed values are read by.
    pub grammar: &'a Grammar,
}

impl ReviewContext<'_> {
    /// The event that does what is asked for.
    ///
    /// # Errors
    /// Why it is refused; see [`Refusal`].
    pub fn decide(&self, actor: &Actor, command: Command) -> Result<Event, Refusal> {
        if let Some(signed) = self.scope.signed_off.as_ref().filter(|_| command != Command::Reopen {}) {
            return Err(Refusal::SignedOff(signed.clone()));
        }
        self.check_seen(actor, &command)?;
        let (changes, of) = match &command {
            Command::Undo {} => self.undone(actor)?,
            Command::Redo {} => self.redone(actor)?,
            other => (self.changes(actor, other)?, None),
        };
        let summary = self.summary(&command, &changes, of);
        let (who, at) = (actor.who.clone(), actor.at.clone());
        Ok(Event { number: self.scope.version + 1, who, at, command, changes, of, summary })
    }

    fn summary(&self, command: &Command, changes: &[Change], of: Option<u64>) -> String {
        match command {
            Command::SignOff {} => summary::signed_off(self.scope.questions(self.draft, self.grammar).len()),
            _ => summary::of(command, changes, of.and_then(|number| self.event(number))),
        }
    }

    /// The event of this number.
    pub(super) fn event(&self, number: u64) -> Option<&Event> {
        self.events.iter().find(|event| event.number == number)
    }

    /// What a command changes.
    pub(super) fn changes(&self, actor: &Actor, command: &Command) -> Result<Vec<Change>, Refusal> {
        match command {
            Command::Accept { lines } => self.accept(actor, lines),
            Command::Change { line, fields } => self.one(actor, line, |entry| self.put(entry, fields)),
            Command::ReadAs { line, reading } => self.read_as(actor, line, *reading),
            Command::Drop { lines, reason } => self.drop(actor, lines, reason),
            Command::Split { line, parts } => self.split(actor, line, parts),
            Command::Merge { lines } => self.merge(actor, lines),
            Command::Add { words, fields } => self.add(actor, *words, fields),
            Command::Move { lines, side, structure } => self.move_to(actor, lines, *side, structure.as_ref()),
            Command::Include { line } => self.include(actor, line),
            Command::LeaveOut { line } => self.leave_out(actor, line),
            Command::EnterMeasurement { follow_up, line, measurement } => {
                self.enter_measurement(actor, follow_up, line.as_deref(), measurement)
            }
            Command::SetDimension { dimension, measurements } => {
                self.set_dimension(actor, dimension, measurements)
            }
            Command::Done { follow_up } => self.mark(follow_up, Some(actor.done(None))),
            Command::NotDone { follow_up } => self.mark(follow_up, None),
            Command::Answer { question, with } => self.answer(actor, question, with),
            Command::SignOff {} => self.sign_off(actor),
            Command::Reopen {} => self.reopen(),
            Command::Undo {} | Command::Redo {} => Ok(Vec::new()),
        }
    }
}
