//! Photos, measurements and checks that were still needed: done, or entered into the line that they are for.

use super::command::Fields;
use super::context::{Actor, ReviewContext};
use super::event::Change;
use super::refusal::Refusal;
use super::scope::{Done, FollowUpEntry};
use super::typed;

impl ReviewContext<'_> {
    /// Marks a follow-up as done, or as not done.
    pub(super) fn mark(&self, id: &str, after: Option<Done>) -> Result<Vec<Change>, Refusal> {
        Ok(vec![change(self.find_follow_up(id)?, after)])
    }

    pub(super) fn enter_measurement(
        &self,
        actor: &Actor,
        id: &str,
        line: Option<&str>,
        measurement: &str,
    ) -> Result<Vec<Change>, Refusal> {
        let follow_up = self.find_follow_up(id)?;
        typed::checked("measurement", measurement)?;
        typed::quantity(measurement, self.grammar).map_err(|refusal| refusal.of_field("measurement"))?;
        let mut changes = vec![change(follow_up, Some(actor.done(Some(measurement.trim().to_owned()))))];
        if let Some(line) = line {
            let fields = Fields { quantity: Some(measurement.to_owned()), ..Fields::default() };
            changes.extend(self.one(actor, line, |entry| self.put(entry, &fields))?);
        }
        Ok(changes)
    }

    fn find_follow_up(&self, id: &str) -> Result<&FollowUpEntry, Refusal> {
        self.scope.follow_up(id).ok_or_else(|| Refusal::Unknown(id.to_owned()))
    }
}

fn change(follow_up: &FollowUpEntry, after: Option<Done>) -> Change {
    Change::FollowUp { id: follow_up.id.clone(), before: follow_up.done.clone(), after }
}
