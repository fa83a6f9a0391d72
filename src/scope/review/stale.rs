//! What a person decides about something that somebody else has changed in the meantime is refused, so that they look at
//! it first.

use super::command::Command;
use super::context::{Actor, ReviewContext};
use super::event::Change;
use super::refusal::Refusal;
use super::scope::Entry;

impl ReviewContext<'_> {
    /// Refuses a command on a line, follow-up or dimension that isn't as the person saw it.
    pub(super) fn check_seen(&self, actor: &Actor, command: &Command) -> Result<(), Refusal> {
        match command {
            Command::SetDimension { dimension, .. } => self.check_dimension_seen(actor, dimension),
            Command::Answer { question, with } => {
                let touched = self.answer_touches(question, with);
                touched.iter().try_for_each(|id| self.check_one_seen(actor, command, id))
            }
            _ => command.touches().into_iter().try_for_each(|id| self.check_one_seen(actor, command, id)),
        }
    }

    fn check_one_seen(&self, actor: &Actor, command: &Command, id: &str) -> Result<(), Refusal> {
        let seen = actor.seen.get(id).copied();
        if let Some(entry) = self.scope.entry(id) {
            return match seen == Some(entry.version) {
                true => Ok(()),
                false => Err(self.line_changed(actor, command, entry)),
            };
        }
        if let Some(follow_up) = self.scope.follow_up(id) {
            return match seen == Some(follow_up.version) {
                true => Ok(()),
                false => Err(Refusal::FollowUpChanged { id: id.to_owned() }),
            };
        }
        match seen.is_some() && self.was_there(id) {
            true => Err(Refusal::LineChanged { id: id.to_owned(), now: None, wanted: None }),
            false => Err(Refusal::Unknown(id.to_owned())),
        }
    }

    /// The refusal, with the line as it is and as the person would have it.
    fn line_changed(&self, actor: &Actor, command: &Command, now: &Entry) -> Refusal {
        let id = now.id();
        let wanted = self.changes(actor, command).ok().and_then(|changes| line_after(&changes, id));
        Refusal::LineChanged { id: id.to_owned(), now: Some(Box::new(now.clone())), wanted }
    }

    /// Whether there ever was a line of this id.
    fn was_there(&self, id: &str) -> bool {
        self.events.iter().flat_map(|event| &event.changes).any(|change| change.id() == Some(id))
    }
}

fn line_after(changes: &[Change], wanted: &str) -> Option<Box<Entry>> {
    changes.iter().find_map(|change| match change {
        Change::Line { id, after, .. } if id == wanted => after.clone(),
        _ => None,
    })
}
