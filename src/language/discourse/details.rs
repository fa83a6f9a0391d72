//! What the words around a thing's name say of it: number, size, material.

use super::account::{Evidence, Field, Origin, Quantity, Span};
use super::tracker::Tracker;
use crate::language::mentions::{Mention, Thing};
use crate::language::numbers::Exact;

/// How far behind its name it is still told what a thing is made of, in tokens.
const STUFF_REACH: usize = 14;

impl Tracker<'_> {
    /// Takes number, size and the rest from the words around a thing's name.
    pub(super) fn take_words(&mut self, entity: usize, mention: &Mention, thing: &Thing) {
        let span = Span { first: mention.first, end: mention.end };
        if let Some(size) = thing.size {
            self.set_size(entity, &size);
        }
        let height = self.entities[entity].quantity.filter(|q| {
            !q.implied
                && thing.amount.is_some_and(|a| a.unit == q.unit && a.low > q.low)
                && self.was_height(entity, q.low)
        });
        if let (Some(height), Some(amount)) = (height, thing.amount) {
            self.entities[entity].quantity = None;
            self.set_size(
                entity,
                &crate::language::numbers::Amount { low: height.low, high: height.high, by: None, ..amount },
            );
        }
        let measured = self.entities[entity].quantity.is_some_and(|q| !q.implied && q.unit.is_some());
        match thing.amount {
            Some(amount) if measured && amount.unit.is_none() && !self.counted(thing) => {} // two of the balusters
            Some(amount) if self.numbers_pieces(thing, &amount) => {
                self.entities[entity].pieces = Some(amount.value());
            }
            Some(amount) => self.set_amount(entity, &amount, self.rough_near(amount.first, amount.end)),
            None if self.take_loose(entity, mention) => {}
            None if self.like_before.is_some() => self.take_like_before(entity),
            None if thing.every && self.says_both(mention) && !self.joins_another(mention, thing) => {
                let implied = self.entities[entity].quantity.is_some_and(|q| q.implied);
                if implied {
                    self.entities[entity].quantity = None;
                }
                self.imply(entity, 2, span)
            }
            None if self.on_each_side(mention, thing) => self.imply(entity, 2, span),
            None => self.imply_one(entity, thing, span),
        }
        let e = &mut self.entities[entity];
        e.subset = thing.some.map(|s| s.value()).or(e.subset);
        e.detail.extend(&thing.detail);
        e.plural |= thing.plural;
        e.span = e.span.join(span);
        self.focus.retain(|f| *f != entity);
        self.focus.push(entity);
        if self.focus.len() > 16 {
            self.focus.remove(0);
        }
    }

    /// "forty feet of it, six foot board on board": the number came first.
    fn take_loose(&mut self, entity: usize, mention: &Mention) -> bool {
        let Some(loose) = self.loose.take().filter(|l| l.end + 12 >= mention.first && l.end <= mention.first)
        else {
            return false;
        };
        let same = self.sentence(loose.first) == self.sentence(mention.first);
        let fits = same
            && self.entities[entity].quantity.is_none()
            && self.suits(entity, &loose)
            && (loose.of_them || loose.unit.is_some());
        if fits {
            let rough = self.rough_near(loose.first, loose.end);
            self.set_amount(entity, &loose, rough);
        }
        fits
    }

    /// "the fence. Wood, six foot tall", "sixty foot of vinyl": what it is made of tells which kind it is.
    pub(super) fn narrow_by_stuff(&mut self) {
        for entity in 0..self.entities.len() {
            let e = &self.entities[entity];
            let Some(item) = e.item else { continue };
            let id = &self.grammar.items[usize::from(item)].id;
            let kinds = |k: &&(usize, &crate::language::rules::Item)| k.1.kind_of.as_ref() == Some(id);
            let from = e.name.first.saturating_sub(2);
            let to = e.span.end.min(e.name.end + STUFF_REACH).min(self.tokens.list.len());
            let all: Vec<_> = self.grammar.items.iter().enumerate().collect();
            let found = (from..to).find_map(|t| {
                let word = self.tokens.list[t].word;
                all.iter().filter(kinds).find(|k| k.1.stuff.contains(&word)).map(|k| k.0 as u16)
            });
            if let Some(kind) = found {
                let place = self.entities[entity].place.clone();
                for todo in self.follow_ups.iter_mut().filter(|t| t.item == Some(item) && t.place == place) {
                    todo.item = Some(kind);
                }
                self.entities[entity].item = Some(kind);
            }
        }
    }

    fn take_like_before(&mut self, entity: usize) {
        if let Some((quantity, span)) = self.like_before.take() {
            let e = &mut self.entities[entity];
            e.quantity = Some(quantity);
            e.evidence.push(Evidence { field: Field::Quantity, origin: Origin::SameAsBefore, span });
        }
    }

    pub(super) fn says_both(&self, mention: &Mention) -> bool {
        (mention.first..mention.end).any(|t| self.word(t) == "both")
    }

    /// "both the mailbox and the doorbell": both are of the list.
    fn joins_another(&self, mention: &Mention, thing: &Thing) -> bool {
        !thing.plural && self.word(mention.end) == "and"
    }

    /// "twelve shingles blew off", "two gutters": pieces of what is measured are no measure of it.
    fn numbers_pieces(&self, thing: &Thing, amount: &crate::language::numbers::Amount) -> bool {
        use crate::model::Unit;
        let item = thing.item.map(|i| &self.grammar.items[usize::from(i)]);
        let pieces = item.is_some_and(|i| !i.counted() && !i.takes(Unit::Each) && !i.takes(Unit::Sheet));
        pieces
            && (thing.plural || amount.low == Exact::from_integer(1))
            && amount.unit.is_none()
            && amount.by.is_none()
            && amount.low.is_integer()
    }

    /// "a light on each side of the door": there are two.
    fn on_each_side(&self, mention: &Mention, thing: &Thing) -> bool {
        let at = mention.end + usize::from(self.word(mention.end) == "on");
        thing.determiner == crate::language::mentions::Determiner::Indefinite
            && !thing.plural
            && matches!(self.word(at), "each" | "either" | "both")
            && matches!(self.word(at + 1), "side" | "sides" | "end" | "ends")
            && self.break_between(mention.end - 1, at) == crate::language::tokens::Break::None
    }

    /// A single thing that is counted in pieces is one.
    fn imply_one(&mut self, entity: usize, thing: &Thing, span: Span) {
        let item = thing.item.map(|i| &self.grammar.items[usize::from(i)]);
        if thing.plural && item.is_some_and(crate::language::rules::Item::counted) && self.told_as_one(thing)
        {
            self.entities[entity].plural = false;
            return self.imply(entity, 1, span);
        }
        let one = item.is_none_or(|i| i.counted() && (!thing.plural || i.as_one));
        if one && !(thing.item.is_none() && thing.plural) {
            self.imply(entity, 1, span);
        }
    }

    pub(super) fn imply(&mut self, entity: usize, count: i64, span: Span) {
        let e = &mut self.entities[entity];
        if e.quantity.is_none()
            && !(e.plural
                && count == 1
                && !self.grammar.items.get(e.item.map_or(usize::MAX, usize::from)).is_some_and(|i| i.as_one))
        {
            let count = Exact::from_integer(count);
            e.quantity = Some(Quantity { low: count, high: count, unit: None, rough: false, implied: true });
            e.evidence.push(Evidence { field: Field::Quantity, origin: Origin::Singular, span });
        }
    }
}
