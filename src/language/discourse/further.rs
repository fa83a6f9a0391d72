//! More of a thing already named: "another eighty foot", "another one", "same footage", "the rest of it",
//! "it's the same twenty foot here".

use super::account::{Field, Quantity, Span};
use super::entity::Entity;
use super::tracker::Tracker;
use crate::language::numbers::{Amount, Exact};
use crate::model::Flag;

impl Tracker<'_> {
    /// "another eighty foot", "twenty foot more of it".
    pub(super) fn another_amount(&self, amount: &Amount) -> bool {
        let more = |t: usize| self.is(t, self.grammar.classes.more);
        (amount.first > 0
            && self.tokens.list[amount.first].before == crate::language::tokens::Break::None
            && more(amount.first - 1))
            || (amount.first..amount.end).any(more)
            || more(amount.end)
    }

    /// The same thing again, as much more of it.
    pub(super) fn more_of(&mut self, target: usize, amount: &Amount) {
        let span = Span { first: amount.first, end: amount.end };
        let known = &self.entities[target];
        let unit = known.quantity.and_then(|q| q.unit);
        let new = Entity {
            span,
            place: self.places.of(self.area_of(known)),
            quantity: None,
            pieces: None,
            subset: None,
            works: Vec::new(),
            cleared: None,
            flags: known.flags.iter().copied().filter(|f| *f == Flag::SoundsLike).collect(),
            evidence: known.evidence.iter().filter(|e| e.field == Field::Item).cloned().collect(),
            ..known.clone()
        };
        self.entities.push(new);
        let new = self.entities.len() - 1;
        let rough = self.rough_near(amount.first, amount.end);
        self.set_amount(new, &Amount { unit: amount.unit.or(unit), ..*amount }, rough);
        self.focus.push(new);
    }

    /// "it's the same twenty foot" on a new side where nothing was named yet: the last thing, here too.
    pub(super) fn carried_over(&mut self, amount: &Amount) -> Option<usize> {
        let same = amount.by.is_none() && amount.first > 0 && self.word(amount.first - 1) == "same";
        let last = self.last().filter(|_| {
            same && self.arrived.0 == self.entities.len() && amount.first < self.arrived.1 + 12
        })?;
        self.clone_here(last, Span { first: amount.first, end: amount.end })
    }

    /// The same kind of thing once more, where the narrator stands now.
    fn clone_here(&mut self, known: usize, span: Span) -> Option<usize> {
        let known = &self.entities[known];
        self.groups += 1;
        let new = Entity {
            span,
            name: span,
            place: self.places.of(self.area_of(known)),
            quantity: None,
            pieces: None,
            subset: None,
            works: Vec::new(),
            cleared: None,
            scratched: false,
            group: self.groups,
            flags: known.flags.iter().copied().filter(|f| *f == Flag::SoundsLike).collect(),
            evidence: known.evidence.iter().filter(|e| e.field == Field::Item).cloned().collect(),
            ..known.clone()
        };
        self.entities.push(new);
        self.focus.push(self.entities.len() - 1);
        self.focus.last().copied()
    }

    /// "another one": one more of the thing just named.
    pub(super) fn another_one(&mut self, span: Span) {
        if self.ignoring() || self.pointed_at_before(span) {
            return;
        }
        let Some(last) = self.last().filter(|l| self.countable_here(*l, span)) else { return };
        let many = (span.first..span.end).find_map(|t| match self.word(t) {
            "two" => Some(2),
            "three" => Some(3),
            _ => None,
        });
        if let Some(new) = self.clone_here(last, span) {
            let count = Exact::from_integer(many.unwrap_or(1));
            self.entities[new].plural = many.is_some();
            self.entities[new].quantity =
                Some(Quantity { low: count, high: count, unit: None, rough: false, implied: true });
            self.entities[new].group = self.entities[last].group;
        }
    }

    /// "one of these here and another one": what is meant is named only behind.
    fn pointed_at_before(&self, span: Span) -> bool {
        let from = span.first.saturating_sub(10);
        (from..span.first).any(|t| matches!(self.word(t), "these") && t > 0 && self.word(t - 1) == "of")
    }

    fn countable_here(&self, entity: usize, span: Span) -> bool {
        let e = &self.entities[entity];
        let counted = e.item.is_none_or(|i| self.grammar.items[usize::from(i)].counted());
        counted
            && !e.scratched
            && e.cleared.is_none()
            && e.span.end + 20 >= span.first
            && entity >= self.arrived.0
    }

    /// "same footage on the leaf guard": as much as was said of the last thing.
    pub(super) fn same_amount(&mut self, span: Span) {
        let quantity = self.last().and_then(|l| self.entities[l].quantity).filter(|q| !q.implied);
        let measured = self.entities.iter().rev().find_map(|e| e.quantity.filter(|q| !q.implied));
        let like = quantity.or(measured);
        let waiting = self.last().filter(|l| {
            let e = &self.entities[*l];
            e.quantity.is_none() && self.sentence(e.name.first) == self.sentence(span.first)
        });
        match waiting {
            Some(last) => self.entities[last].quantity = like,
            None => self.like_before = like.map(|q| (q, span)),
        }
    }

    /// The rest of the last thing, as a thing of its own.
    pub(super) fn rest_of_last(&mut self) -> Vec<usize> {
        let Some(last) = self.last() else { return Vec::new() };
        if self.open(last) {
            return vec![last]; // ninety foot of fence, power wash that whole run
        }
        let span = self.entities[last].name;
        self.clone_here(last, span).into_iter().collect()
    }
}
