//! Bare counts and what they count: the thing itself, pieces of it, something else, or everything that was listed.

use super::account::Quantity;
use super::tracker::Tracker;
use crate::language::numbers::{Amount, Exact};
use crate::language::rules::Meaning;
use crate::language::tokens::Break;
use crate::model::Unit;

impl Tracker<'_> {
    /// "solar, there's eight panels": the last word of its own name.
    pub(super) fn ends_its_name(&self, target: usize, token: usize) -> bool {
        let Some(word) = self.tokens.list.get(token).map(|t| self.grammar.singular(t.word)) else {
            return false;
        };
        self.entities[target].item.is_some_and(|i| {
            let item = &self.grammar.items[usize::from(i)];
            item.counted() && item.heads.iter().any(|h| *h == word || self.grammar.singular(*h) == word)
        })
    }

    /// "siding, three pieces blew off": of what is measured, pieces are no quantity.
    pub(super) fn counts_pieces(&self, target: usize, amount: &Amount) -> bool {
        let measured =
            self.entities[target].item.is_some_and(|i| !self.grammar.items[usize::from(i)].takes(Unit::Each));
        measured
            && self.is(amount.end, self.grammar.classes.no_thing)
            && self.break_between(amount.first, amount.end) == Break::None
            && self.mentions_in(amount.end, amount.end + 1).is_empty()
    }

    /// "valleys, two, twenty foot each": a bare number of what is measured.
    pub(super) fn counted_though_measured(&self, target: usize) -> Option<Exact> {
        let e = &self.entities[target];
        let item = &self.grammar.items[usize::from(e.item?)];
        let measured = !item.counted() && !item.takes(Unit::Each);
        e.quantity.filter(|q| measured && q.unit.is_none() && !q.implied).map(|q| q.low)
    }

    /// "deck boards, twelve of them": of what is measured, not counted.
    pub(super) fn numbers_pieces_of_it(&self, target: usize, amount: &Amount) -> bool {
        let measured = self.entities[target].item.is_some_and(|i| {
            let item = &self.grammar.items[usize::from(i)];
            !item.counted() && !item.takes(Unit::Each) && !item.takes(Unit::Sheet)
        });
        let them = matches!(self.word(amount.end - 1), "them" | "those" | "these" | "em");
        measured && amount.of_them && amount.unit.is_none() && them
    }

    /// "five items": a number of something else.
    pub(super) fn counts_another(&self, end: usize) -> bool {
        let c = &self.grammar.classes;
        let of_another = self.word(end) == "of"
            && self.is(end + 1, c.definite)
            && (self.is_plain(end + 2) || self.is(end + 2, c.no_thing));
        let of_part = self.is(end, c.definite) && (self.is_plain(end + 1) || self.is(end + 1, c.no_thing));
        if (of_another || of_part) && self.tokens.list.get(end).is_some_and(|t| t.before == Break::None) {
            return true; // two of the balusters
        }
        let of_it = matches!(self.word(end + 1), "ones" | "one" | "of") || self.is(end, c.adjective);
        let spoken_on = self.tokens.list.get(end).is_some_and(|t| t.before == Break::None);
        spoken_on && self.is_plain(end) && !of_it
    }

    /// "two at three inch, and one at four inch", "one 2 inch and one 3 inch": so many of a size that is said next.
    pub(super) fn counts_of_a_size(&mut self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let at = usize::from(self.word(amount.end) == "at");
        let listed = at == 1 || e.plural && e.works.is_empty();
        let sized = amount.unit.is_none()
            && listed
            && self.break_between(amount.first, amount.end + at) == Break::None
            && self.mentions_in(amount.end + at, amount.end + at + 1).iter().any(|m| match &m.kind {
                crate::language::mentions::Kind::Amount(size) => size.is_length(),
                _ => false,
            });
        if !sized {
            return false;
        }
        match self.entities[target].quantity.filter(|q| !q.implied) {
            Some(_) => self.more_of(target, amount),
            None => self.set_amount(target, amount, false),
        }
        let last = self.entities.len() - 1;
        if last != target && self.entities[last].size.is_some() {
            self.entities[last].size = None;
        }
        true
    }

    /// "two three inch pipe jacks and a four inch": one more, of its own size.
    pub(super) fn one_of_another_size(&mut self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let article = amount.first > 0 && self.is(amount.first - 1, self.grammar.classes.indefinite);
        let joined = amount.first > 1 && matches!(self.word(amount.first - 2), "and" | "plus");
        let further = article
            && joined
            && amount.unit == Some(Unit::Inch)
            && e.size.is_some()
            && self.open(target)
            && e.item.is_some_and(|i| self.grammar.items[usize::from(i)].counted())
            && self.sentence(e.span.end - 1) == self.sentence(amount.first);
        if further {
            let one = Amount { low: 1.into(), high: 1.into(), unit: None, ..*amount };
            if self.entities[target].quantity.is_none() {
                self.set_amount(target, &Amount { end: amount.first, first: amount.first - 1, ..one }, false);
            }
            self.more_of(target, &one);
            let new = self.entities.len() - 1;
            self.entities[new].size = None;
            self.set_size(new, amount);
        }
        further
    }

    /// "a light, the doorbell and a sign, and those three come down": as many as were listed.
    pub(super) fn points_at_the_list(&self, amount: &Amount) -> bool {
        let pointed = amount.first > 0 && matches!(self.word(amount.first - 1), "those" | "these" | "them");
        let listed = self.open_run().len();
        pointed
            && amount.unit.is_none()
            && self.break_between(amount.first - 1, amount.first) == Break::None
            && listed > 1
            && amount.low == Exact::from_integer(listed as i64)
    }

    /// "hose bib, hose reel, outlet, detach and reset all three of those".
    pub(super) fn points_at_the_whole_list(&self, amount: &Amount) -> bool {
        let every = amount.first > 0 && self.is(amount.first - 1, self.grammar.classes.every);
        let listed = self.open_run();
        let single = |e: &usize| !self.several(*e);
        every
            && amount.unit.is_none()
            && listed.len() > 1
            && listed.iter().all(single)
            && amount.low == Exact::from_integer(listed.len() as i64)
    }

    /// "a light on either side of it, so two of those": nothing else waits that the number could be of.
    pub(super) fn alone_in_sentence(&self, target: usize) -> bool {
        let sentence = self.sentence(self.entities[target].span.first);
        let beside = |n: usize| {
            n != target && self.open(n) && self.sentence(self.entities[n].span.end - 1) == sentence
        };
        self.entities[target].quantity.is_some_and(|q| q.implied) && !self.lately(target).any(beside)
    }

    /// "one on each side, so two": the number said before was of parts of it.
    pub(super) fn sums_its_own(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let parts = e.quantity.is_some_and(|q| !q.implied && q.unit.is_none() && q.low < amount.low);
        parts && self.sentence(e.name.first) == self.sentence(amount.first)
    }

    /// "meter box, cable box, outlet, detach and reset on all three": how many were listed.
    pub(super) fn counts_all_listed(&self, target: usize, amount: &Amount) -> bool {
        let all = amount.first > 0 && self.is(amount.first - 1, self.grammar.classes.every);
        let listed = (target.saturating_sub(8)..=target)
            .filter(|n| {
                let (e, last) = (&self.entities[*n], &self.entities[target]);
                !e.scratched && e.works.last().map(|w| w.span) == last.works.last().map(|w| w.span)
            })
            .count();
        all && amount.unit.is_none() && listed > 1 && amount.low == Exact::from_integer(listed as i64)
    }

    /// "a reel, a spigot and a box, all three of those": how many things were listed.
    pub(super) fn counts_the_list(&self, target: usize, amount: &Amount) -> bool {
        let every = amount.first > 0 && self.is(amount.first - 1, self.grammar.classes.every);
        let listed = self.open_run().len();
        let whole_list = listed > 1 && amount.low == Exact::from_integer(listed as i64);
        let measures = self.word(amount.end - 1) == "it"; // all forty of it
        amount.of_them && every && !measures && (whole_list || !self.entities[target].plural)
    }

    /// "two corner posts, ten foot": how long each of what was counted is.
    pub(super) fn length_of_counted(&self, target: usize, known: Quantity, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let pieces = matches!(known.unit, None | Some(Unit::Each))
            && e.item.is_some_and(|i| self.grammar.items[usize::from(i)].takes(Unit::Each));
        let summed =
            (amount.end..amount.end + 2).chain(amount.first.saturating_sub(2)..amount.first).any(|t| {
                matches!(
                    self.word(t),
                    "total" | "together" | "all" | "so" | "that" | "another" | "and" | "plus"
                )
            });
        pieces
            && amount.unit == Some(Unit::Foot)
            && e.size.is_none()
            && e.works.is_empty()
            && !summed
            && self.tokens.list[amount.first].before == Break::Comma
            && self.sentence(e.span.end - 1) == self.sentence(amount.first)
            && e.span.end == amount.first
    }

    /// "flag bracket, door knocker, all three": a number of the list, of no single thing in it.
    pub(super) fn counts_several_names(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let every = amount.first > 0 && self.is(amount.first - 1, self.grammar.classes.every);
        let sentence = self.sentence(e.name.first);
        let mut beside = (target.saturating_sub(4)..target)
            .filter(|n| self.sentence(self.entities[*n].name.first) == sentence)
            .peekable();
        let listed = beside.peek().is_some() && beside.all(|n| !self.several(n));
        every && !e.plural && amount.unit.is_none() && amount.low > Exact::from_integer(1) && listed
    }

    /// "one, two, three": counted aloud.
    pub(super) fn counts_up(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let next = e
            .quantity
            .is_some_and(|q| amount.unit.is_none() && amount.low == q.low + 1 && amount.low == amount.high);
        next && e.works.is_empty() && e.span.end + 8 >= amount.first
    }

    /// "corner posts, one at either end": two of what has no number yet.
    pub(super) fn one_at_each_end(&mut self, target: usize, amount: &Amount) -> bool {
        let at = amount.end + usize::from(matches!(self.word(amount.end), "on" | "at" | "by"));
        let each = matches!(self.word(at), "each" | "either" | "both")
            && matches!(self.word(at + 1), "side" | "sides" | "end" | "ends");
        let one = amount.unit.is_none() && amount.low == Exact::from_integer(1);
        if one && each && self.entities[target].quantity.is_none_or(|q| q.implied) && self.open(target) {
            let two = Amount { low: 2.into(), high: 2.into(), end: at + 2, ..*amount };
            self.set_amount(target, &two, false);
        }
        one && each
    }

    /// "one on each end", "two up and two down": parts of a number told already.
    pub(super) fn counts_parts(&self, target: usize, amount: &Amount) -> bool {
        let side = self.mentions_in(amount.end, amount.end + 1).iter().any(|m| {
            matches!(self.meaning(m), Some(Meaning::Side(_)))
                && self.is(m.first, self.grammar.classes.place_word)
        });
        if side || self.lists_lengths(&self.entities[target], amount) {
            return false; // five on the rear slope
        }
        let parts = amount.unit.is_none()
            || (amount.low == Exact::from_integer(1) && matches!(amount.unit, Some(Unit::Pair | Unit::Set)));
        parts && !amount.of_them && self.distributes(amount.end)
    }

    fn distributes(&self, end: usize) -> bool {
        let follows = self.tokens.list.get(end).is_some_and(|t| t.before == Break::None);
        follows
            && matches!(
                self.word(end),
                "on" | "by"
                    | "at"
                    | "up"
                    | "down"
                    | "each"
                    | "either"
                    | "over"
                    | "in"
                    | "per"
                    | "here"
                    | "with"
            )
    }

    /// Whether a bare count is said of the thing: behind a comma, behind "there's", or as "two of them".
    pub(super) fn speaks_of_number(&self, amount: &Amount) -> bool {
        let c = &self.grammar.classes;
        let before = |n: usize| amount.first.checked_sub(n);
        let comma = self.tokens.list[amount.first].before == Break::Comma
            && before(1).is_some_and(|b| self.named_at(b));
        let brought = (1..=3).filter_map(before).any(|b| self.is(b, c.be) || self.is(b, c.have));
        let every = before(1).is_some_and(|b| self.is(b, c.every) || self.word(b) == "just");
        let list = &self.tokens.list;
        let apart = list[amount.first].before != Break::None
            && list.get(amount.end).is_none_or(|t| t.before != Break::None)
            && before(1).is_some_and(|b| self.sentence(b) == self.sentence(amount.first));
        // "window wrap on three", "the wrap on the three"
        let on = (1..=2).filter_map(before).any(|b| {
            self.word(b) == "on"
                && b > 0
                && self.named_at(b - 1)
                && self.break_between(b - 1, amount.first) == Break::None
        });
        let on = on && list.get(amount.end).is_none_or(|t| t.before != Break::None);
        let summed = before(1).is_some_and(|b| self.word(b) == "so");
        amount.of_them
            || comma
            || on
            || apart
            || summed
            || (brought && !self.distributes(amount.end))
            || every
    }

    fn named_at(&self, token: usize) -> bool {
        self.mentions
            .iter()
            .rev()
            .any(|m| m.end == token + 1 && matches!(m.kind, crate::language::mentions::Kind::Thing(_)))
    }
}
