//! Numbers that cling to no name: "it's forty six foot", "there's two of them", "no, three", "another eighty".

use super::account::{Entity, Evidence, Quantity, Span, WorkSaid};
use super::listener::Listener;
use crate::draft::{Flag, Unit};
use crate::grammar::Meaning;
use crate::numbers::{Amount, Exact};
use crate::tokens::Break;

/// How near a hedge stands to its number, in tokens.
const ROUGH_REACH: usize = 3;

/// How far behind a thing a number may still tell how much of it there is, in tokens.
const REACH: usize = 24;

impl Listener<'_> {
    /// A number that clings to no name is said.
    pub fn amount(&mut self, at: usize, amount: &Amount) {
        if self.ignoring() || self.face_length(at, amount) {
            return;
        }
        if self.belongs_behind(at, amount) {
            self.loose = Some(*amount);
            return;
        }
        let Some(target) = self.carried_over(amount).or_else(|| self.amount_target(amount)) else {
            self.loose = amount.of_them.then_some(*amount);
            return;
        };
        if self.rest.take().is_some() && amount.unit.is_some() {
            return self.more_of(target, amount);
        }
        if amount.by.is_some() || self.tells_height(target, amount) {
            return self.set_size(target, amount);
        }
        self.place_amount(at, target, amount);
    }

    /// "two hundred square feet on the house wrap": the number is of the thing behind it.
    fn belongs_behind(&self, at: usize, amount: &Amount) -> bool {
        let measured = amount.unit.is_some_and(|u| !matches!(u, Unit::Pair | Unit::Set | Unit::Each));
        let joined = matches!(self.word(amount.end), "on" | "for") && measured;
        joined && self.after(at).is_some_and(|m| m.first == amount.end + 1 && matches!(m.kind, crate::mentions::Kind::Thing(_)))
    }

    /// The thing a number speaks of.
    fn amount_target(&self, amount: &Amount) -> Option<usize> {
        let last = self.last()?;
        let e = &self.entities[last];
        let near = e.span.end + REACH >= amount.first;
        let here = last >= self.arrived.0 || e.place.side == self.places.here.side || self.sentence(e.name.first) == self.sentence(amount.first);
        (here && near && !e.scratched || self.correcting.is_some()).then_some(last)
    }

    /// "six foot tall" of a fence.
    fn tells_height(&self, target: usize, amount: &Amount) -> bool {
        let sized = self.entities[target].item.is_some_and(|i| {
            let item = &self.grammar.items[usize::from(i)];
            item.counted() || item.length_before == crate::grammar::LengthBefore::Size
        });
        sized && amount.is_length() && self.is(amount.end, self.grammar.classes.height)
    }

    /// Whether a number can be how much of a thing there is.
    pub fn suits(&self, entity: usize, amount: &Amount) -> bool {
        self.fit(&self.entities[entity], amount) == Fit::Quantity
    }

    fn place_amount(&mut self, at: usize, target: usize, amount: &Amount) {
        let e = &self.entities[target];
        if self.another_amount(amount) && e.quantity.is_some_and(|q| !q.implied) {
            return self.more_of(target, amount);
        }
        match self.fit(e, amount) {
            Fit::Size => self.set_size(target, amount),
            Fit::None => {}
            Fit::Quantity if self.counts_parts(amount) => {}
            Fit::Quantity => self.fit_quantity(at, target, amount),
        }
    }

    fn fit_quantity(&mut self, at: usize, target: usize, amount: &Amount) {
        let rough = self.rough_near(amount.first, amount.end);
        let e = &self.entities[target];
        let settled_number = e.quantity.filter(|q| !q.implied);
        match settled_number {
            None if amount.unit.is_none() && !self.speaks_of_number(amount) => {}
            None => self.set_amount(target, amount, rough),
            Some(q) if q.low == amount.low && q.high == amount.high => self.stretch(target, amount),
            Some(_) if self.corrects_amount(target, amount) => self.correct_amount(target, amount, rough),
            Some(_) if self.counts_up(target, amount) => self.sum_amount(target, amount, rough),
            Some(q) if amount.of_them && amount.value() < q.low => self.entities[target].subset = Some(amount.value()),
            Some(_) if self.sums_up(at, amount) => self.sum_amount(target, amount, rough),
            Some(_) if amount.unit.is_some() && !amount.of_them && self.adds(e, amount) => self.more_of(target, amount),
            Some(_) => {}
        }
    }

    /// "one, two, three": counted aloud.
    fn counts_up(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let next = e.quantity.is_some_and(|q| amount.unit.is_none() && amount.low == q.low + 1 && amount.low == amount.high);
        next && e.works.is_empty() && e.span.end + 8 >= amount.first
    }

    /// Whether a further length is a further piece: in the same list, or in a new sentence once the first is settled.
    fn adds(&self, e: &Entity, amount: &Amount) -> bool {
        e.works.is_empty() || self.sentence(e.name.first) != self.sentence(amount.first)
    }

    /// "it's the same twenty foot" on a new side where nothing was named yet: the last thing, here too.
    fn carried_over(&mut self, amount: &Amount) -> Option<usize> {
        let same = amount.by.is_none() && amount.first > 0 && self.word(amount.first - 1) == "same";
        let last = self.last().filter(|_| same && self.arrived.0 == self.entities.len() && amount.first < self.arrived.1 + 12)?;
        self.clone_here(last, Span { first: amount.first, end: amount.end })
    }

    /// The same kind of thing once more, where the narrator stands now.
    pub fn clone_here(&mut self, known: usize, span: Span) -> Option<usize> {
        let known = &self.entities[known];
        self.groups += 1;
        let new = Entity {
            span,
            name: span,
            place: self.places.of(self.area_of(known)),
            quantity: None,
            subset: None,
            works: Vec::new(),
            cleared: None,
            scratched: false,
            group: self.groups,
            flags: known.flags.iter().copied().filter(|f| *f == Flag::SoundsLike).collect(),
            evidence: known.evidence.iter().filter(|e| e.field == "item").cloned().collect(),
            ..known.clone()
        };
        self.entities.push(new);
        self.focus.push(self.entities.len() - 1);
        self.focus.last().copied()
    }

    /// "another one": one more of the thing just named.
    pub fn another_one(&mut self, span: Span) {
        if self.ignoring() || self.pointed_at_before(span) {
            return;
        }
        let Some(last) = self.last().filter(|l| self.countable_here(*l, span)) else { return };
        let many = (span.first..span.end).find_map(|t| match self.word(t) { "two" => Some(2), "three" => Some(3), _ => None });
        if let Some(new) = self.clone_here(last, span) {
            let count = Exact::from_integer(many.unwrap_or(1));
            self.entities[new].plural = many.is_some();
            self.entities[new].quantity = Some(Quantity { low: count, high: count, unit: None, rough: false, implied: true });
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
        counted && !e.scratched && e.cleared.is_none() && e.span.end + 20 >= span.first && entity >= self.arrived.0
    }

    /// "same footage on the leaf guard": as much as was said of the last thing.
    pub fn same_amount(&mut self, span: Span) {
        let quantity = self.last().and_then(|l| self.entities[l].quantity).filter(|q| !q.implied);
        let measured = self.entities.iter().rev().find_map(|e| e.quantity.filter(|q| !q.implied));
        self.like_before = quantity.or(measured).map(|q| (q, span));
    }

    /// The rest of the last thing, as a thing of its own.
    pub fn rest_of_last(&mut self) -> Vec<usize> {
        let Some(last) = self.last() else { return Vec::new() };
        let span = self.entities[last].name;
        self.clone_here(last, span).into_iter().collect()
    }

    /// Whether a bare count is said of the thing: behind a comma, behind "there's", or as "two of them".
    fn speaks_of_number(&self, amount: &Amount) -> bool {
        let c = &self.grammar.classes;
        let before = |n: usize| amount.first.checked_sub(n);
        let comma = self.tokens.list[amount.first].before == Break::Comma && before(1).is_some_and(|b| self.named_at(b));
        let brought = (1..=3).filter_map(before).any(|b| self.is(b, c.be) || self.is(b, c.have));
        let every = before(1).is_some_and(|b| self.is(b, c.every) || self.word(b) == "just");
        amount.of_them || comma || (brought && !self.distributes(amount.end)) || every
    }

    /// "one on each end", "two up and two down": parts of a number told already.
    fn counts_parts(&self, amount: &Amount) -> bool {
        let parts = amount.unit.is_none() || (amount.low == Exact::from_integer(1) && matches!(amount.unit, Some(Unit::Pair | Unit::Set)));
        parts && !amount.of_them && self.distributes(amount.end)
    }

    fn distributes(&self, end: usize) -> bool {
        let follows = self.tokens.list.get(end).is_some_and(|t| t.before == Break::None);
        follows && matches!(self.word(end), "on" | "by" | "at" | "up" | "down" | "each" | "either" | "over" | "in" | "per" | "here" | "with")
    }

    fn named_at(&self, token: usize) -> bool {
        self.mentions.iter().rev().any(|m| m.end == token + 1 && matches!(m.kind, crate::mentions::Kind::Thing(_)))
    }

    fn stretch(&mut self, target: usize, amount: &Amount) {
        let e = &mut self.entities[target];
        e.span = e.span.join(Span { first: amount.first, end: amount.end });
    }

    /// "another eighty foot", "twenty foot more of it".
    fn another_amount(&self, amount: &Amount) -> bool {
        let more = |t: usize| self.is(t, self.grammar.classes.more);
        (amount.first > 0 && more(amount.first - 1)) || (amount.first..amount.end).any(more) || more(amount.end)
    }

    /// The same thing again, as much more of it.
    fn more_of(&mut self, target: usize, amount: &Amount) {
        let span = Span { first: amount.first, end: amount.end };
        let known = &self.entities[target];
        let new = Entity {
            span,
            place: self.places.of(self.area_of(known)),
            quantity: None,
            subset: None,
            works: Vec::new(),
            cleared: None,
            flags: known.flags.iter().copied().filter(|f| *f == Flag::SoundsLike).collect(),
            evidence: known.evidence.iter().filter(|e| e.field == "item").cloned().collect(),
            ..known.clone()
        };
        self.entities.push(new);
        let new = self.entities.len() - 1;
        let rough = self.rough_near(amount.first, amount.end);
        self.set_amount(new, amount, rough);
        self.focus.push(new);
    }

    pub fn area_of(&self, entity: &Entity) -> crate::draft::Area {
        entity.item.map_or(crate::draft::Area::Wall, |i| self.grammar.items[usize::from(i)].area)
    }

    /// Whether the narrator corrects the number of a thing.
    fn corrects_amount(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        self.correcting.is_some() || self.takes_back(e.span.end.min(amount.first), amount.first)
    }

    /// A sum of what was said before takes its place without any doubt.
    fn sum_amount(&mut self, target: usize, amount: &Amount, rough: bool) {
        let taken_back = self.takes_back(self.entities[target].span.end.min(amount.first), amount.first);
        self.entities[target].quantity = None;
        self.set_amount(target, amount, rough);
        if taken_back {
            self.entities[target].flags.insert(Flag::ChangedMind);
        }
    }

    fn correct_amount(&mut self, target: usize, amount: &Amount, rough: bool) {
        self.correcting = None;
        self.entities[target].quantity = None;
        self.set_amount(target, amount, rough);
        self.entities[target].scratched = false;
        self.entities[target].flags.insert(Flag::ChangedMind);
    }

    /// "so that's forty in all".
    fn sums_up(&self, at: usize, amount: &Amount) -> bool {
        let total = |m: &crate::mentions::Mention| self.meaning(m) == Some(Meaning::Total) && m.first <= amount.end + 3 && m.end + 4 >= amount.first;
        let near = at.saturating_sub(2)..(at + 3).min(self.mentions.len());
        self.mentions[near].iter().any(total)
    }

    /// Whether a number can be how much of a thing there is, or how large each is.
    fn fit(&self, e: &Entity, amount: &Amount) -> Fit {
        let item = e.item.map(|i| &self.grammar.items[usize::from(i)]);
        match (amount.unit, item) {
            (None, Some(item)) => if item.counted() || self.right_behind(e, amount) || (amount.of_them && item.takes(Unit::Each)) { Fit::Quantity } else { Fit::None },
            (None, None) => Fit::Quantity,
            (Some(unit), Some(item)) if item.takes(unit) => Fit::Quantity,
            (Some(Unit::Inch), _) => Fit::Size,
            (Some(Unit::Foot), Some(item)) if item.counted() => if self.describes(amount) { Fit::Size } else { Fit::None },
            (Some(Unit::Pair | Unit::Set), Some(item)) if item.counted() => Fit::Quantity,
            (Some(_), Some(item)) if item.counted() => Fit::None,
            _ => Fit::Quantity,
        }
    }

    /// "gutter, twenty six": in the item's own unit.
    fn right_behind(&self, e: &Entity, amount: &Amount) -> bool {
        amount.first == e.name.end && self.tokens.list[amount.first].before == Break::Comma
    }

    /// "it's a six foot": a length with an article describes.
    fn describes(&self, amount: &Amount) -> bool {
        amount.first > 0 && self.is(amount.first - 1, self.grammar.classes.indefinite)
    }

    /// Sets how much of a thing there is.
    pub fn set_amount(&mut self, target: usize, amount: &Amount, rough: bool) {
        let span = Span { first: amount.first, end: amount.end };
        let corrected = self.entities[target].quantity.is_some_and(|q| !q.implied && (q.low != amount.low || q.high != amount.high));
        let e = &mut self.entities[target];
        if corrected {
            e.flags.insert(Flag::ChangedMind);
        }
        let unit = amount.unit.or_else(|| e.quantity.and_then(|q| q.unit));
        e.quantity = Some(Quantity { low: amount.low, high: amount.high, unit, rough, implied: false });
        e.span = e.span.join(span);
        e.evidence.retain(|v| v.field != "quantity");
        e.evidence.push(Evidence { field: "quantity", rule: "number said".into(), span });
        if corrected {
            self.correcting = None;
        }
    }

    /// "replace forty foot", "paint all five pair": the number right behind the work.
    pub fn amount_for_work(&mut self, targets: &[usize], amount: &Amount, said: &WorkSaid) -> bool {
        let [target] = targets else { return false };
        let e = &self.entities[*target];
        if self.fit(e, amount) != Fit::Quantity {
            return false;
        }
        let known = e.quantity.filter(|q| !q.implied);
        if known.is_none() {
            let rough = self.rough_near(amount.first, amount.end);
            self.set_amount(*target, amount, rough);
        }
        let part = known.is_some_and(|q| amount.value() < q.low);
        self.entities[*target].subset = part.then(|| amount.value());
        let span = said.span.join(Span { first: amount.first, end: amount.end });
        self.bind(&[*target], &WorkSaid { span, ..said.clone() });
        true
    }

    /// Whether a hedge stands beside a number.
    pub fn rough_near(&self, first: usize, end: usize) -> bool {
        self.mentions.iter().any(|m| {
            self.meaning(m) == Some(Meaning::Rough)
                && (m.end <= first && m.end + ROUGH_REACH > first && self.break_between(m.first, first) < Break::Sentence
                    || m.first >= end && m.first < end + 2
                    || m.first >= first && m.end <= end)
        })
    }

    /// Sets how large a thing is.
    pub fn set_size(&mut self, target: usize, amount: &Amount) {
        let text = self.size_text(self.entities[target].item, amount);
        let span = Span { first: amount.first, end: amount.end };
        let e = &mut self.entities[target];
        if e.size.as_ref().is_some_and(|known| *known != text) {
            e.flags.insert(Flag::ChangedMind);
        }
        e.size = Some(text);
        e.span = e.span.join(span);
        e.evidence.push(Evidence { field: "size", rule: "size said".into(), span });
    }

    /// A size as it is written: `9 ft x 7 ft`, `3 in`.
    pub fn size_text(&self, item: Option<u16>, amount: &Amount) -> String {
        let own = item.map(|i| &self.grammar.items[usize::from(i)]);
        let small = own.is_some_and(|i| i.counted()) && amount.low > Exact::from_integer(18);
        let lumber = amount.by.is_some() && own.is_some_and(|i| i.unit == Unit::Foot);
        let unit = amount.unit.or(amount.by_unit).unwrap_or(if small || lumber { Unit::Inch } else { Unit::Foot });
        let one = length_text(amount.low, unit);
        match amount.by {
            Some(by) => format!("{one} x {}", length_text(by, amount.by_unit.unwrap_or(unit))),
            None => one,
        }
    }
}

/// A length as it is written: `6 ft 6 in`, `2.5 in`.
fn length_text(value: Exact, unit: Unit) -> String {
    let name = if unit == Unit::Inch { "in" } else { "ft" };
    if unit == Unit::Foot && !value.is_integer() {
        let inches = (value - value.trunc()) * 12;
        return format!("{} ft {} in", value.trunc(), crate::numbers::decimal(inches));
    }
    format!("{} {name}", crate::numbers::decimal(value))
}

#[derive(Debug, PartialEq)]
enum Fit {
    Quantity,
    Size,
    None,
}
