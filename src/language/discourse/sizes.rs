//! How large a thing is, and whether a number can be its size or how much of it there is.

use super::account::{Evidence, Field, Origin, Span};
use super::entity::Entity;
use super::tracker::Tracker;
use crate::language::numbers::{Amount, Exact};
use crate::language::rules::Grammar;
use crate::language::tokens::Break;
use crate::model::{Flag, Length, Size, Unit, UnitKind};

/// How far behind its name "same sixty" is still said of a thing, in tokens.
const SAME_REACH: usize = 8;

impl Tracker<'_> {
    /// Whether a number can be how much of a thing there is, or how large each is.
    pub(super) fn fit(&self, e: &Entity, amount: &Amount) -> Fit {
        let item = e.item.map(|i| &self.grammar.items[usize::from(i)]);
        match (amount.unit, item) {
            (None, Some(item)) => {
                if item.counted()
                    || self.right_behind(e, amount)
                    || (amount.of_them && (item.takes(Unit::Each) || self.word(amount.end - 1) == "it"))
                    || self.lists_lengths(e, amount)
                    || self.same_again(e, amount)
                    || self.in_known_unit(e, amount)
                    || e.quantity.is_some_and(|q| q.unit.is_none() && !q.implied && amount.low == q.low + 1)
                {
                    Fit::Quantity
                } else {
                    Fit::None
                }
            }
            (None, None) => Fit::Quantity,
            (Some(unit), Some(item)) if item.takes(unit) => Fit::Quantity,
            (Some(Unit::Inch), _) => Fit::Size,
            (Some(Unit::Foot), Some(item)) if item.counted() => {
                if self.describes(amount) {
                    Fit::Size
                } else {
                    Fit::None
                }
            }
            (Some(Unit::Pair | Unit::Set), Some(item)) if item.counted() => Fit::Quantity,
            (Some(_), Some(item)) if item.counted() => Fit::None,
            _ => Fit::Quantity,
        }
    }

    /// "make that thirty eight": in the unit of the number that it corrects; "downspouts, so two": in pieces.
    fn in_known_unit(&self, e: &Entity, amount: &Amount) -> bool {
        let corrected = e.quantity.is_some_and(|q| !q.implied)
            && (self.correcting.is_some() || self.takes_back(e.span.end.min(amount.first), amount.first));
        let before = amount.first.saturating_sub(1);
        let told = self.word(before) == "so" || e.plural && self.is(before, self.grammar.classes.be);
        let summed = amount.first > 0
            && told
            && e.quantity.is_none_or(|q| q.implied || q.unit.is_none() && self.word(before) == "so")
            && e.item.is_some_and(|i| self.grammar.items[usize::from(i)].takes(Unit::Each));
        let some = amount.first > 0
            && self.word(amount.first - 1) == "the"
            && e.quantity.is_some_and(|q| !q.implied && amount.low <= q.low); // replace the thirty
        corrected || summed || some
    }

    /// "house wrap under it, same two twenty", "foam board, 180 too": in the item's own unit.
    pub(super) fn same_again(&self, e: &Entity, amount: &Amount) -> bool {
        let before = amount.first.checked_sub(1).map_or("", |t| self.word(t));
        let same = before == "same" || matches!(self.word(amount.end), "too" | "again");
        let near = self.sentence(e.name.first) == self.sentence(amount.first)
            || before == "same" && e.name.end + SAME_REACH >= amount.first;
        same && e.quantity.is_none() && near
    }

    /// "gutter, twenty six": in the item's own unit.
    fn right_behind(&self, e: &Entity, amount: &Amount) -> bool {
        let told = amount.first == e.name.end + 1
            && self.is(e.name.end, self.grammar.classes.be)
            && self.tokens.list.get(amount.end).is_none_or(|t| t.before != Break::None); // gutter's forty,
        told || amount.first == e.name.end && self.tokens.list[amount.first].before == Break::Comma
    }

    /// "it's a six foot", "three feet wide": a length with an article, or with what it is the length of, describes.
    fn describes(&self, amount: &Amount) -> bool {
        let c = &self.grammar.classes;
        let told =
            self.is(amount.end, c.width) && self.break_between(amount.first, amount.end) == Break::None;
        told || amount.first > 0 && self.is(amount.first - 1, c.indefinite)
    }

    /// "six foot tall" of a fence.
    pub(super) fn tells_height(&self, target: usize, amount: &Amount) -> bool {
        let sized = self.entities[target].item.is_some_and(|i| {
            let item = &self.grammar.items[usize::from(i)];
            item.counted() || item.length_before == crate::language::rules::LengthBefore::Size
        });
        let footer = self.word(amount.end - 1) == "footer"
            && amount.first > 0
            && self.is(amount.first - 1, self.grammar.classes.indefinite);
        if sized && footer && !self.entities[target].quantity.is_some_and(|q| q.implied) {
            return true; // the fence, it's a six footer
        }
        let made_of = self.is(amount.end, self.grammar.classes.material)
            && self.break_between(amount.first, amount.end) == Break::None
            && self.was_height(target, amount.low)
            && amount.is_length(); // the fence, it's six foot cedar
        let wide = made_of || amount.is_length() && self.word(amount.end) == "wide"; // soffit, two foot wide
        wide || sized && amount.is_length() && self.is(amount.end, self.grammar.classes.height)
    }

    /// Whether a number can be how much of a thing there is.
    pub(super) fn suits(&self, entity: usize, amount: &Amount) -> bool {
        self.fit(&self.entities[entity], amount) == Fit::Quantity
    }

    /// Sets how large a thing is.
    pub(super) fn set_size(&mut self, target: usize, amount: &Amount) {
        let size = size_of(self.grammar, self.entities[target].item, amount);
        let span = Span { first: amount.first, end: amount.end };
        let e = &mut self.entities[target];
        if e.size.as_ref().is_some_and(|known| *known != size) {
            e.flags.insert(Flag::ChangedMind);
        }
        e.size = Some(size);
        e.span = e.span.join(span);
        e.evidence.push(Evidence { field: Field::Size, origin: Origin::SizeSaid, span });
    }
}

/// The size that a number tells of an item. A number without a unit is in the one that such items are sized in.
pub fn size_of(grammar: &Grammar, item: Option<u16>, amount: &Amount) -> Size {
    let own = item.map(|i| &grammar.items[usize::from(i)]);
    let largest = amount.by.map_or(amount.low, |by| by.max(amount.low));
    let small = own.is_some_and(|i| i.in_inches || i.counted() && largest > Exact::from_integer(18));
    let thin = amount.unit.is_none() && amount.high < Exact::from_integer(1);
    let lumber = thin || amount.by.is_some() && own.is_some_and(|i| i.unit == Unit::Foot);
    let unit =
        amount.unit.or(amount.by_unit).unwrap_or(if small || lumber { Unit::Inch } else { Unit::Foot });
    let by = amount.by.map(|by| length(by, amount.by_unit.unwrap_or(unit)));
    Size::of(std::iter::once(length(amount.low, unit)).chain(by))
}

fn length(value: Exact, unit: Unit) -> Length {
    let unit = if unit.kind() == UnitKind::Length { unit } else { Unit::Foot };
    Length { value, unit: Some(unit) }
}

#[derive(Debug, PartialEq)]
pub(super) enum Fit {
    Quantity,
    Size,
    None,
}
