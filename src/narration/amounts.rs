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
        let Some(target) = self.amount_target(amount) else { return };
        if amount.by.is_some() {
            return self.set_size(target, amount);
        }
        self.place_amount(at, target, amount);
    }

    /// The thing a number speaks of.
    fn amount_target(&self, amount: &Amount) -> Option<usize> {
        let last = self.last()?;
        let e = &self.entities[last];
        let near = e.span.end + REACH >= amount.first;
        (near && !e.scratched || self.correcting.is_some()).then_some(last)
    }

    fn place_amount(&mut self, at: usize, target: usize, amount: &Amount) {
        let e = &self.entities[target];
        if self.another_amount(amount) && e.quantity.is_some() {
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
            Some(q) if amount.of_them && amount.value() < q.low => self.entities[target].subset = Some(amount.value()),
            Some(_) if self.sums_up(at, amount) => self.set_amount(target, amount, rough),
            Some(_) if amount.unit.is_some() && e.works.is_empty() && !amount.of_them => self.more_of(target, amount),
            Some(_) => {}
        }
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
        amount.unit.is_none() && !amount.of_them && self.distributes(amount.end)
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
            (None, Some(item)) => if item.counted() { Fit::Quantity } else { Fit::None },
            (None, None) => Fit::Quantity,
            (Some(unit), Some(item)) if item.takes(unit) => Fit::Quantity,
            (Some(Unit::Inch), _) => Fit::Size,
            (Some(Unit::Foot), Some(item)) if item.counted() => if self.describes(amount) { Fit::Size } else { Fit::None },
            (Some(Unit::Pair | Unit::Set), Some(item)) if item.counted() => Fit::Quantity,
            (Some(_), Some(item)) if item.counted() => Fit::None,
            _ => Fit::Quantity,
        }
    }

    /// "it's a six foot": a length with an article describes.
    fn describes(&self, amount: &Amount) -> bool {
        amount.first > 0 && self.is(amount.first - 1, self.grammar.classes.indefinite)
    }

    /// Sets how much of a thing there is.
    pub fn set_amount(&mut self, target: usize, amount: &Amount, rough: bool) {
        let span = Span { first: amount.first, end: amount.end };
        let corrected = self.entities[target].quantity.is_some_and(|q| !q.implied && q.low != amount.low)
            && (self.correcting.is_some() || self.takes_back(self.entities[target].span.end.min(amount.first), amount.first));
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
        e.size = Some(text);
        e.span = e.span.join(span);
        e.evidence.push(Evidence { field: "size", rule: "size said".into(), span });
    }

    /// A size as it is written: `9 ft x 7 ft`, `3 in`.
    pub fn size_text(&self, item: Option<u16>, amount: &Amount) -> String {
        let own = item.map(|i| &self.grammar.items[usize::from(i)]);
        let small = own.is_some_and(|i| i.counted()) && amount.low > Exact::from_integer(18);
        let unit = amount.unit.or(amount.by_unit).unwrap_or(if small { Unit::Inch } else { Unit::Foot });
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
