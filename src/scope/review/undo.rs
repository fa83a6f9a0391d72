//! Undoing what a person did last, and redoing it.

use super::context::{Actor, ReviewContext};
use super::event::{Change, Event, Stack};
use super::refusal::Refusal;
use super::scope::Entry;

/// Changes, and the event that they undo or redo.
type Reversed = (Vec<Change>, Option<u64>);

impl ReviewContext<'_> {
    /// The changes that undo the last event of a person.
    pub(super) fn undone(&self, actor: &Actor) -> Result<Reversed, Refusal> {
        let number = Stack::of(self.events, &actor.who).done.pop();
        let event = self.reversible(actor, number, "undo")?;
        self.checked(event, event.changes.iter().rev().map(Change::inverse).collect())
    }

    /// The changes that redo what a person undid last.
    pub(super) fn redone(&self, actor: &Actor) -> Result<Reversed, Refusal> {
        let number = Stack::of(self.events, &actor.who).undone.pop();
        let event = self.reversible(actor, number, "redo")?;
        self.checked(event, event.changes.clone())
    }

    fn reversible(&self, actor: &Actor, number: Option<u64>, what: &'static str) -> Result<&Event, Refusal> {
        let nothing = || Refusal::NothingTo { who: actor.who.clone(), what };
        number.and_then(|number| self.event(number)).ok_or_else(nothing)
    }

    /// The changes, unless somebody changed the same things since.
    fn checked(&self, event: &Event, changes: Vec<Change>) -> Result<Reversed, Refusal> {
        changes.iter().try_for_each(|change| self.check_unchanged(change))?;
        Ok((changes, Some(event.number)))
    }

    fn check_unchanged(&self, change: &Change) -> Result<(), Refusal> {
        match change {
            Change::Line { id, before, after } => {
                let now = self.scope.entry(id);
                unless(!same(now, before.as_deref()), || Refusal::LineChanged {
                    id: id.clone(),
                    now: now.cloned().map(Box::new),
                    wanted: after.clone(),
                })
            }
            Change::FollowUp { id, before, .. } => {
                let changed = self.scope.follow_up(id).is_some_and(|now| now.done != *before);
                unless(changed, || Refusal::FollowUpChanged { id: id.clone() })
            }
            Change::Dimension { id, before, .. } => {
                let changed = self.scope.measured.get(id) != before.as_deref();
                unless(changed, || since("somebody has changed this measurement since"))
            }
            Change::Answer { id, before, .. } => {
                let now = self.scope.answers.get(id).map(|done| &done.note);
                let changed = now != before.as_ref().map(|done| &done.note);
                unless(changed, || since("this question was answered differently since"))
            }
            Change::SignOff { before, after } => {
                let changed = self.scope.signed_off != *before;
                unless(changed, || since("this scope was signed off or reopened since"))?;
                let flagged = self.scope.flagged();
                unless(after.is_some() && flagged > 0, || Refusal::StillFlagged(flagged))
            }
        }
    }
}

fn unless(refused: bool, why: impl FnOnce() -> Refusal) -> Result<(), Refusal> {
    if refused { Err(why()) } else { Ok(()) }
}

fn since(why: &str) -> Refusal {
    Refusal::Invalid(why.to_owned())
}

/// Whether two lines are alike but for the event that changed them last.
fn same(a: Option<&Entry>, b: Option<&Entry>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => (&a.line, a.state, &a.reason) == (&b.line, b.state, &b.reason),
        (a, b) => a.is_none() && b.is_none(),
    }
}
