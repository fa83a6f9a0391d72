//! Which of the things that were spoken of belong in the scope.

use super::account::{Status, Thing, WorkSaid};
use super::entity::Entity;
use super::tracker::Tracker;

/// How far behind a thing what it introduces may stand, in tokens.
const INTRODUCED: usize = 60;

impl Tracker<'_> {
    /// The things that came to something, each with what it is to the scope.
    pub(super) fn things_of_scope(&self) -> Vec<Thing> {
        self.entities.iter().filter(|e| is_told(e)).map(|e| e.told(self.status(e))).collect()
    }

    fn status(&self, entity: &Entity) -> Status {
        if self.introduces(entity) {
            Status::Context
        } else if self.is_passing(entity) {
            Status::Mentioned
        } else {
            Status::Scope
        }
    }

    /// A thing named only to introduce what is on it, or as the kind of house before any side is named.
    fn introduces(&self, entity: &Entity) -> bool {
        let said_nothing = entity.works.is_empty();
        let counted = entity.quantity.is_some_and(|q| !q.implied);
        let carries = |other: &Entity| {
            let part =
                other.item.zip(entity.item).is_some_and(|(part, whole)| self.grammar.belongs_to(part, whole));
            part && other.place == entity.place
                && !other.scratched
                && other.name.first > entity.name.first
                && other.name.first < entity.name.end + INTRODUCED
        };
        let landmark = entity.item.is_some_and(|i| self.grammar.items[usize::from(i)].landmark)
            && entity.quantity.is_none_or(|q| q.unit.is_none());
        said_nothing && (landmark || (!entity.place.named && !counted) || self.entities.iter().any(carries))
    }

    /// A thing only named: no work, no number, not pointed out, and nothing left to do about it.
    fn is_passing(&self, entity: &Entity) -> bool {
        entity.works.is_empty()
            && !entity.presented
            && entity.quantity.is_none_or(|q| q.implied)
            && !self.follow_ups.iter().any(|f| f.item == entity.item && f.place == entity.place)
    }
}

/// Things that were cleared or taken back come to nothing, and what nobody knows only where something was said of it.
fn is_told(entity: &Entity) -> bool {
    let measured = entity.quantity.is_some_and(|q| !q.implied);
    let known = entity.item.is_some() || !entity.works.is_empty() || measured;
    entity.cleared.is_none() && !entity.scratched && !entity.weak && known
}

impl Entity {
    /// What is told of it outside.
    fn told(&self, status: Status) -> Thing {
        let work = |w: &super::entity::WorkHeard| WorkSaid {
            work: w.work,
            only_if: w.only_if,
            span: w.span,
            of: w.of,
        };
        Thing {
            status,
            item: self.item,
            name: self.name,
            span: self.span,
            place: self.place.clone(),
            quantity: self.quantity,
            replaced: self.replaced,
            size: self.size.clone(),
            detail: self.detail.clone(),
            works: self.works.iter().map(work).collect(),
            flags: self.flags.clone(),
            evidence: self.evidence.clone(),
        }
    }
}
