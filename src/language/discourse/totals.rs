//! Sums said aloud: what was pointed out one by one ("a light here and a light there, so two lights"), parts of
//! one length ("eighteen foot and twenty two, forty in all"), and totals over lines that were drafted already,
//! which add nothing.

use super::account::{Quantity, Span};
use super::entity::Entity;
use super::tracker::Tracker;
use crate::language::mentions::{Mention, Thing};
use crate::language::numbers::{Amount, Exact};
use crate::language::rules::Meaning;
use crate::model::{Flag, Unit, Work};

/// How near a total stands to its cue, in tokens: "so that's two".
const TOTAL_REACH: usize = 4;

/// How many sentences behind a number its parts may still be told.
const PARTS_REACH: u32 = 2;

/// No length is told in more parts.
const MOST_PARTS: usize = 8;

impl Tracker<'_> {
    /// "Totals again for the office. Gutter 80": what is known already is only said over again.
    pub(super) fn recapped(&mut self, thing: &Thing) -> bool {
        let Some(recap) = self.recap else { return false };
        let all: Vec<Exact> = (0..self.entities.len())
            .filter(|n| !self.entities[*n].scratched)
            .filter(
                |n| if thing.short { self.named_so(*n, thing) } else { self.entities[*n].item == thing.item },
            )
            .filter_map(|n| self.entities[n].quantity.map(|q| q.low))
            .collect();
        let same = |a: &Amount| all.contains(&a.low) || all.iter().sum::<Exact>() == a.low;
        let known = !all.is_empty() && thing.amount.as_ref().is_none_or(same);
        if known {
            self.recap = Some(super::tracker::Scope { used: true, ..recap });
        }
        known
    }

    /// What is told in parts and as a whole is kept once: "four pipe jacks, two three inch and two two inch", "sixty foot,
    /// forty up top and twenty down low", "22 and 16. So 38 feet, replace".
    pub(super) fn fold_totals(&mut self) {
        for whole in 0..self.entities.len() {
            for said_again in self.told_twice(whole) {
                self.entities[said_again].scratched = true;
            }
        }
    }

    /// Of a whole and its parts those that add nothing.
    fn told_twice(&self, whole: usize) -> Vec<usize> {
        let e = &self.entities[whole];
        let Some(total) = e.quantity.filter(|q| !q.implied && !e.scratched) else { return Vec::new() };
        let sums_up = |parts: &[usize]| {
            let said = parts.iter().filter_map(|n| self.entities[*n].quantity);
            parts.len() > 1 && said.map(|q| q.low).sum::<Exact>() == total.low
        };
        let same_unit = |p: &Entity| p.quantity.is_some_and(|q| !q.implied && q.unit == total.unit);
        let works = |e: &Entity| -> Vec<Work> { e.works.iter().map(|w| w.work).collect() };
        let named_together = |n: &usize| {
            let p = &self.entities[*n];
            p.item == e.item && p.name == e.name && !p.scratched && same_unit(p)
        };
        let sentence = self.sentence(e.name.first);
        let told_apart = |n: &usize| {
            let p = &self.entities[*n];
            named_together(n)
                && self.sentence(p.span.end - 1) <= sentence + PARTS_REACH
                && (p.size.is_some() || p.place != e.place)
                && (e.works.is_empty() || works(p) == works(e))
        };
        let behind: Vec<usize> = (whole + 1..self.entities.len()).take_while(told_apart).collect();
        if e.size.is_none() && sums_up(&behind) {
            return vec![whole];
        }
        let number = |e: &Entity| self.sentence(e.evidence_of_quantity());
        let in_one_breath = |n: &usize| {
            let p = &self.entities[*n];
            named_together(n) && p.place == e.place && p.size == e.size && number(p) == number(e)
        };
        let behind: Vec<usize> = (whole + 1..self.entities.len()).take_while(in_one_breath).collect();
        if sums_up(&behind) {
            return behind;
        }
        let waits = |n: &usize| {
            let p = &self.entities[*n];
            p.item == e.item && p.place == e.place && self.open(*n) && same_unit(p)
        };
        let before: Vec<usize> = (0..whole).rev().take_while(waits).collect();
        if sums_up(&before) && !e.works.is_empty() { before } else { Vec::new() }
    }

    /// "that makes eleven wraps, front and rear together": the sum over several lines.
    pub(super) fn repeats_a_sum(&self, at: usize, mention: &Mention, thing: &Thing) -> bool {
        let Some(amount) = thing.amount.filter(|a| a.low == a.high && !thing.more) else { return false };
        let near = at.saturating_sub(3)..(at + 3).min(self.mentions.len());
        let cue = self.mentions[near].iter().any(|m| {
            self.meaning(m) == Some(Meaning::Total) && self.sentence(m.first) == self.sentence(mention.first)
        });
        let same = |n: &usize| {
            let e = &self.entities[*n];
            let named = if thing.short { self.named_so(*n, thing) } else { e.item == thing.item };
            named && !e.scratched && e.cleared.is_none()
        };
        let all: Vec<usize> = (0..self.entities.len()).filter(same).collect();
        let known: Vec<Exact> =
            all.iter().filter_map(|n| self.entities[*n].quantity).map(|q| q.low).collect();
        let settled = all.iter().any(|n| !self.open(*n));
        cue && settled && known.len() > 1 && known.iter().sum::<Exact>() == amount.low
    }

    /// "eighteen foot one side and twenty two the other, forty total": one run of it, in parts.
    pub(super) fn sums_parts(&mut self, target: usize, amount: &Amount) -> bool {
        let item = self.entities[target].item;
        let sentence = self.sentence(amount.first);
        let parts: Vec<usize> = (target.saturating_sub(MOST_PARTS)..=target)
            .filter(|n| {
                let e = &self.entities[*n];
                self.open(*n) && e.item == item && self.sentence(e.span.end - 1) == sentence
            })
            .collect();
        let known: Vec<Exact> = parts
            .iter()
            .filter_map(|n| self.entities[*n].quantity)
            // A vent, and a vent next to it, so two of those.
            .filter(|q| !q.implied || amount.of_them)
            .map(|q| q.low)
            .collect();
        let sum: Exact = known.iter().copied().sum();
        if known.len() < 2 || known.len() != parts.len() || amount.low != amount.high || sum != amount.low {
            return false;
        }
        let unit = amount.unit.or(self.entities[parts[0]].quantity.and_then(|q| q.unit));
        for part in &parts[1..] {
            self.entities[*part].scratched = true;
            self.focus.retain(|f| f != part);
        }
        self.focus.retain(|f| *f != parts[0]);
        self.focus.push(parts[0]);
        self.entities[parts[0]].quantity = None;
        self.set_amount(parts[0], &Amount { unit, ..*amount }, false);
        true
    }

    /// "so that's forty in all".
    pub(super) fn sums_up(&self, at: usize, amount: &Amount) -> bool {
        let total = |m: &crate::language::mentions::Mention| {
            self.meaning(m) == Some(Meaning::Total)
                && self.sentence(m.first) == self.sentence(amount.first)
                && (m.first >= amount.end && m.first <= amount.end + 1
                    || m.end <= amount.first && m.end + TOTAL_REACH >= amount.first)
        };
        let near = at.saturating_sub(2)..(at + 3).min(self.mentions.len());
        self.mentions[near].iter().any(total)
    }

    /// A sum of what was said before takes its place without any doubt.
    pub(super) fn sum_amount(&mut self, target: usize, amount: &Amount, rough: bool) {
        let taken_back = self.takes_back(self.entities[target].span.end.min(amount.first), amount.first);
        self.entities[target].quantity = None;
        self.set_amount(target, amount, rough);
        if taken_back {
            self.entities[target].flags.insert(Flag::ChangedMind);
        }
    }

    /// "soffit, two foot by thirty, that's sixty square feet", "so that's a third of a square": the same, as an area.
    pub(super) fn told_in_another_unit(&self, known: Quantity, amount: &Amount) -> bool {
        let area = |u: Option<Unit>| matches!(u, Some(Unit::Square | Unit::SquareFoot));
        let before =
            |n: usize| amount.first.checked_sub(n).is_some_and(|t| self.is(t, self.grammar.classes.be));
        area(amount.unit) && !area(known.unit) && (1..=3).any(before)
    }

    /// Whether a number sums up what was pointed out one by one: "a light here and a light there, so two lights".
    pub(super) fn totals(&self, at: usize, mention: &Mention, thing: &Thing) -> bool {
        let Some(amount) = thing.amount.filter(|a| a.low == a.high && a.low.is_integer()) else {
            return false;
        };
        let parts = self.parts_of_total(thing);
        let pieces = amount.unit.is_none()
            && thing.item.is_some_and(|i| self.grammar.items[usize::from(i)].takes(crate::model::Unit::Each));
        let sized =
            amount.unit.is_some() && matches!(parts[..], [part] if self.entities[part].size.is_some());
        let said: Exact = parts.iter().filter_map(|p| self.entities[*p].quantity).map(|q| q.low).sum();
        let same = |p: &usize| self.sentence(self.entities[*p].name.first) == self.sentence(mention.first);
        let whole = amount.unit.is_some() && amount.low >= said && parts.iter().all(same);
        if parts.is_empty() || thing.more || !(self.counted(thing) || pieces || sized || whole) {
            return false;
        }
        let cue = self.mentions[..at]
            .iter()
            .rev()
            .take(3)
            .any(|m| self.meaning(m) == Some(Meaning::Total) && m.end + TOTAL_REACH >= mention.first);
        let sum: Exact = parts.iter().filter_map(|p| self.entities[*p].quantity).map(|q| q.low).sum();
        cue || (parts.len() > 1 && sum == amount.low)
    }

    /// The open mentions of the thing in this run.
    pub(super) fn parts_of_total(&self, thing: &Thing) -> Vec<usize> {
        (self.run..self.entities.len())
            .filter(|n| self.open(*n) && self.entities[*n].item == thing.item)
            .collect()
    }

    /// Joins the parts of a total into the first of them.
    pub(super) fn merge_total(&mut self, thing: &Thing) -> Option<usize> {
        let parts = self.parts_of_total(thing);
        let first = *parts.first()?;
        let end = self.entities[*parts.last()?].span.end;
        for part in &parts[1..] {
            self.entities[*part].scratched = true;
            self.focus.retain(|f| f != part);
        }
        let e = &mut self.entities[first];
        e.span = e.span.join(Span { first: e.span.first, end });
        let grown = thing.amount.is_some_and(|a| e.quantity.is_none_or(|q| q.low <= a.low));
        if grown || parts.len() > 1 {
            e.quantity = None;
        }
        if thing.amount.is_some_and(|a| a.unit.is_some()) {
            e.size = None; // two at nine foot, so eighteen foot of it
        }
        Some(first)
    }
}
