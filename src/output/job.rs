//! What papers are made from: the scope as it stands, and what comes of it.

use super::parts::property;
use crate::language::rules::Grammar;
use crate::model::{Draft, FollowUp, FollowUpKind, Line, wording};
use crate::scope::questions::Question;
use crate::scope::review::{Event, LineState, Scope};
use crate::scope::takeoff::{Takeoff, takeoff};

/// A scope on its way out of the office.
pub struct Job<'a> {
    /// As it was drafted.
    pub drafted: &'a Draft,
    /// As it stands now: what was dropped is gone, what was done is done.
    pub now: Draft,
    /// The lines and tasks with what became of them.
    pub scope: &'a Scope,
    /// What people did.
    pub events: &'a [Event],
    /// What its measures come to.
    pub takeoff: Takeoff,
    /// The questions about the house that nobody has answered.
    pub questions: Vec<Question>,
    /// The rules.
    pub grammar: &'a Grammar,
}

impl<'a> Job<'a> {
    /// A scope after its events.
    pub fn new(drafted: &'a Draft, scope: &'a Scope, events: &'a [Event], grammar: &'a Grammar) -> Self {
        let now = scope.draft(drafted);
        let takeoff = takeoff(&now, grammar);
        let questions = scope.questions(drafted, grammar);
        Self { drafted, now, scope, events, takeoff, questions, grammar }
    }

    /// What the paper is called.
    pub fn kind(&self) -> &'static str {
        if self.is_signed_off() { "Scope of work" } else { "DRAFT scope of work" }
    }

    /// The property: the recording's name without its ending.
    pub fn property(&self) -> &str {
        property(&self.drafted.source)
    }

    /// Whether a line needs review still: what a person has looked at is told as it stands.
    pub fn needs_review(&self, line: &Line) -> bool {
        self.scope.entry(&line.id).is_some_and(|entry| entry.state == LineState::Flagged)
    }

    /// Whether it is signed off, so that it need not be called a draft.
    pub fn is_signed_off(&self) -> bool {
        self.scope.signed_off.is_some()
    }

    /// The things of a kind that are still to be done.
    pub fn to_do(&self, kind: FollowUpKind) -> impl Iterator<Item = &FollowUp> {
        self.now.follow_ups.iter().filter(move |follow_up| follow_up.kind == kind)
    }

    /// What keeps it a draft, each a sentence; empty where it is signed off.
    pub fn open(&self) -> Vec<String> {
        if self.is_signed_off() {
            return Vec::new();
        }
        let only_if = self.now.lines.iter().filter(|line| line.only_if).count();
        let looks = self.scope.flagged() - only_if.min(self.scope.flagged());
        let lacking = self.takeoff.lacking.len();
        let to_do = |kind| self.to_do(kind).count();
        let counts = [
            (looks, "line needs review", "lines need review"),
            (only_if, "conditional line is not confirmed", "conditional lines are not confirmed"),
            (to_do(FollowUpKind::Measure) + lacking, "measurement is missing", "measurements are missing"),
            (to_do(FollowUpKind::Photo), "photo is missing", "photos are missing"),
            (self.questions.len(), "question about the house is open", "questions about the house are open"),
            (to_do(FollowUpKind::Check), "check is not done", "checks are not done"),
        ];
        let told = counts.into_iter().filter(|(number, ..)| *number > 0);
        told.map(|(number, one, more)| wording::sentence(&wording::count(number, one, more))).collect()
    }
}
