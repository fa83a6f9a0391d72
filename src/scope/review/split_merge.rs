//! One line becomes several, or several become one.

use super::command::Fields;
use super::context::{Actor, ReviewContext};
use super::event::Change;
use super::fields;
use super::lines::{drop_for, review_unless_flagged};
use super::refusal::Refusal;
use super::scope::Entry;
use super::summary;

/// The most lines that a line may be split into.
const MOST_PARTS: usize = 20;

impl ReviewContext<'_> {
    pub(super) fn split(&self, actor: &Actor, id: &str, parts: &[Fields]) -> Result<Vec<Change>, Refusal> {
        if parts.len() < 2 || parts.len() > MOST_PARTS {
            return Err(Refusal::Invalid(format!("split a line into 2 to {MOST_PARTS} parts")));
        }
        let before = self.find(id)?;
        let mut changes = Vec::new();
        for (n, fields) in parts.iter().enumerate() {
            let part = self.part(actor, before, fields, n)?;
            changes.push(Change::line((n == 0).then(|| before.clone()), Some(part)));
        }
        Ok(changes)
    }

    /// The part of that number, from 0; the first stays the line that it was.
    fn part(&self, actor: &Actor, whole: &Entry, fields: &Fields, n: usize) -> Result<Entry, Refusal> {
        let mut part = whole.clone();
        if n > 0 {
            part.line.id = format!("{}.{}-{n}", whole.id(), self.scope.version + 1);
        }
        fields::put(&mut part.line, fields, self.grammar)?;
        fields::resolve(&mut part.line, &[]);
        review_unless_flagged(&mut part);
        part.by = Some(actor.who.clone());
        Ok(part)
    }

    pub(super) fn merge(&self, actor: &Actor, ids: &[String]) -> Result<Vec<Change>, Refusal> {
        let [first, others @ ..] = ids else {
            return Err(Refusal::Invalid("choose two or more lines".to_owned()));
        };
        if others.is_empty() || others.contains(first) {
            return Err(Refusal::Invalid("choose two or more different lines".to_owned()));
        }
        let reason = format!("same as {}", summary::name(&self.find(first)?.line));
        let mut changes = self.one(actor, first, |entry| {
            fields::resolve(&mut entry.line, &[]);
            review_unless_flagged(entry);
            Ok(())
        })?;
        changes.extend(self.each(actor, others, |entry| {
            drop_for(entry, &reason);
            Ok(())
        })?);
        Ok(changes)
    }
}
