//! What commands do to lines that are there: keep them, change them, drop them, move them.

use super::command::Fields;
use super::context::{Actor, ReviewContext};
use super::event::Change;
use super::fields;
use super::refusal::Refusal;
use super::scope::{Entry, LineState};
use super::typed;
use crate::model::{Flag, Line, Side};

impl ReviewContext<'_> {
    pub(super) fn accept(&self, actor: &Actor, ids: &[String]) -> Result<Vec<Change>, Refusal> {
        self.each(actor, ids, |entry| {
            clear_flags(&mut entry.line);
            review(entry);
            Ok(())
        })
    }

    pub(super) fn read_as(&self, actor: &Actor, id: &str, reading: usize) -> Result<Vec<Change>, Refusal> {
        self.one(actor, id, |entry| {
            let chosen = entry.line.readings.get(reading).cloned();
            let chosen =
                chosen.ok_or_else(|| Refusal::Invalid("this line has no such reading".to_owned()))?;
            entry.line = entry.line.read_as(&chosen);
            self.resolve_read(&mut entry.line);
            review_unless_flagged(entry);
            Ok(())
        })
    }

    /// Takes away the flags that a chosen reading answers.
    fn resolve_read(&self, line: &mut Line) {
        let item = line.item.as_deref().and_then(|id| self.grammar.item_named(id));
        if let Some(item) = item.map(|n| &self.grammar.items[usize::from(n)]) {
            line.area = item.area;
        }
        let mut resolved = vec![Flag::SoundsLike, Flag::OddSize, Flag::OddUnit];
        resolved.extend(line.item.is_some().then_some(Flag::NotInCatalogue));
        resolved.extend(line.work.is_some().then_some(Flag::NoWork));
        resolved.extend(line.quantity.is_some().then_some(Flag::NoNumber));
        resolved.extend((line.side != Side::None).then_some(Flag::NoSide));
        fields::resolve(line, &resolved);
    }

    pub(super) fn drop(&self, actor: &Actor, ids: &[String], reason: &str) -> Result<Vec<Change>, Refusal> {
        let reason = typed::checked("reason", reason)?;
        if reason.is_empty() {
            let message = "say why the line is dropped".to_owned();
            return Err(Refusal::NotUnderstood { field: "reason", message });
        }
        self.each(actor, ids, |entry| {
            drop_for(entry, reason);
            Ok(())
        })
    }

    pub(super) fn move_to(
        &self,
        actor: &Actor,
        ids: &[String],
        side: Side,
        structure: Option<&String>,
    ) -> Result<Vec<Change>, Refusal> {
        let fields = Fields { side: Some(side), structure: structure.cloned(), ..Fields::default() };
        self.each(actor, ids, |entry| self.put(entry, &fields))
    }

    /// The condition is met.
    pub(super) fn include(&self, actor: &Actor, id: &str) -> Result<Vec<Change>, Refusal> {
        self.one(actor, id, |entry| {
            entry.line.only_if = false;
            fields::resolve(&mut entry.line, &[Flag::OnlyIf]);
            review_unless_flagged(entry);
            Ok(())
        })
    }

    /// The condition isn't met.
    pub(super) fn leave_out(&self, actor: &Actor, id: &str) -> Result<Vec<Change>, Refusal> {
        self.one(actor, id, |entry| {
            drop_for(entry, "the condition isn't met");
            Ok(())
        })
    }

    pub(super) fn find(&self, id: &str) -> Result<&Entry, Refusal> {
        self.scope.entry(id).ok_or_else(|| Refusal::Unknown(id.to_owned()))
    }

    /// The change of one line.
    pub(super) fn one(
        &self,
        actor: &Actor,
        id: &str,
        edit: impl Fn(&mut Entry) -> Result<(), Refusal>,
    ) -> Result<Vec<Change>, Refusal> {
        let before = self.find(id)?;
        let mut after = before.clone();
        edit(&mut after)?;
        after.by = Some(actor.who.clone());
        Ok(vec![Change::line(Some(before.clone()), Some(after))])
    }

    /// The same change of each of these lines.
    pub(super) fn each(
        &self,
        actor: &Actor,
        ids: &[String],
        edit: impl Fn(&mut Entry) -> Result<(), Refusal>,
    ) -> Result<Vec<Change>, Refusal> {
        if ids.is_empty() {
            return Err(Refusal::Invalid("choose a line first".to_owned()));
        }
        let mut changes = Vec::new();
        for (n, id) in ids.iter().enumerate() {
            if !ids[..n].contains(id) {
                changes.extend(self.one(actor, id, &edit)?);
            }
        }
        Ok(changes)
    }

    /// Puts typed fields into a line, which counts as reviewed where no flag is left.
    pub(super) fn put(&self, entry: &mut Entry, fields: &Fields) -> Result<(), Refusal> {
        if *fields == Fields::default() {
            return Err(Refusal::Invalid("nothing was changed".to_owned()));
        }
        fields::put(&mut entry.line, fields, self.grammar)?;
        review_unless_flagged(entry);
        Ok(())
    }
}

/// What a person has accepted is not asked again: only what the line itself says stays with it.
pub(super) fn clear_flags(line: &mut Line) {
    line.flags.retain(|flag| *flag == Flag::RoughNumber);
}

fn review(entry: &mut Entry) {
    entry.state = LineState::Reviewed;
    entry.reason = None;
}

pub(super) fn review_unless_flagged(entry: &mut Entry) {
    review(entry);
    if entry.line.needs_look() {
        entry.state = LineState::Flagged;
    }
}

pub(super) fn drop_for(entry: &mut Entry, reason: &str) {
    entry.state = LineState::Dropped;
    entry.reason = Some(reason.to_owned());
}
