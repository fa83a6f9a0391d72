//! Taking back what a person did last, and doing it again.

use super::act::{Act, Change, Stack};
use super::perform::{Desk, Hand};
use super::refusal::Refusal;
use super::scope::Entry;

impl Desk<'_> {
    /// The changes that take back the last act of a person.
    pub(super) fn taken_back(&self, hand: &Hand) -> Result<(Vec<Change>, Option<u64>), Refusal> {
        let number = Stack::of(self.acts, &hand.who).done.pop();
        self.reversed(hand, number, "undo", |act| act.changes.iter().rev().map(Change::inverse).collect())
    }

    /// The changes that do again what a person took back last.
    pub(super) fn done_again(&self, hand: &Hand) -> Result<(Vec<Change>, Option<u64>), Refusal> {
        let number = Stack::of(self.acts, &hand.who).undone.pop();
        self.reversed(hand, number, "do again", |act| act.changes.clone())
    }

    /// The changes that turn an act back or do it again, unless somebody changed the same lines since.
    fn reversed(
        &self,
        hand: &Hand,
        number: Option<u64>,
        deed: &'static str,
        changes: impl Fn(&Act) -> Vec<Change>,
    ) -> Result<(Vec<Change>, Option<u64>), Refusal> {
        let nothing = || Refusal::Nothing { who: hand.who.clone(), deed };
        let act = self.acts.iter().find(|act| Some(act.number) == number).ok_or_else(nothing)?;
        let changes = changes(act);
        for change in &changes {
            match change {
                Change::Line { id, before, after } => {
                    let now = self.scope.entry(id).cloned().map(Box::new);
                    if !same(now.as_deref(), before.as_deref()) {
                        return Err(Refusal::LineChanged { id: id.clone(), now, wanted: after.clone() });
                    }
                }
                Change::Task { id, before, .. } => {
                    if self.scope.task(id).is_some_and(|task| task.done != *before) {
                        return Err(Refusal::TaskChanged { id: id.clone() });
                    }
                }
                Change::Face { id, before, .. } => {
                    if self.scope.measured.get(id) != before.as_deref() {
                        return Err(Refusal::Senseless("this face was measured otherwise since".into()));
                    }
                }
                Change::Answer { id, before, .. } => {
                    let now = self.scope.answers.get(id);
                    if now.map(|done| &done.note) != before.as_ref().map(|done| &done.note) {
                        return Err(Refusal::Senseless("this question was answered otherwise since".into()));
                    }
                }
                Change::Settled { before, after } => {
                    if self.scope.settled != *before {
                        return Err(Refusal::Senseless("this scope was settled or reopened since".into()));
                    }
                    if after.is_some() && self.scope.open() > 0 {
                        return Err(Refusal::StillOpen(self.scope.open()));
                    }
                }
            }
        }
        Ok((changes, number))
    }
}

/// Whether two lines are alike but for the act that touched them last.
fn same(a: Option<&Entry>, b: Option<&Entry>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => (&a.line, a.state, &a.reason) == (&b.line, b.state, &b.reason),
        (a, b) => a.is_none() && b.is_none(),
    }
}
