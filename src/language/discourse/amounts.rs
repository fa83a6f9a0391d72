//! Numbers that cling to no name: "it's forty six foot", "there's two of them", "no, three", "another eighty".

use super::account::{Evidence, Field, Origin, Quantity, Span};
use super::entity::{Entity, WorkHeard};
use super::sizes::Fit;
use super::tracker::Tracker;
use crate::language::numbers::{Amount, Exact};
use crate::language::rules::Meaning;
use crate::language::tokens::Break;
use crate::model::{Flag, Unit};

/// How near a hedge stands to its number, in tokens.
const ROUGH_REACH: usize = 3;

/// No hedge has more tokens.
const LONGEST_HEDGE: usize = 12;

/// How far behind what is counted in pairs their number may stand, in tokens.
const PAIR_REACH: usize = 40;

/// How far behind a thing a number may still tell how much of it there is, in tokens.
const REACH: usize = 24;

impl Tracker<'_> {
    /// A number that clings to no name is said.
    pub(super) fn amount(&mut self, at: usize, amount: &Amount) {
        if self.ignoring() || self.recap.is_some_and(|r| r.used) || self.face_length(at, amount) {
            return;
        }
        if self.brings_up_the_covering(at, amount) {
            return;
        }
        if self.measures_the_roof(at, amount) {
            let (low, high) = (amount.low, amount.high);
            let quantity = Quantity { low, high, unit: amount.unit, rough: false, implied: false };
            self.like_before = Some((quantity, Span { first: amount.first, end: amount.end }));
            return;
        }
        if self.one_is_told_of(amount) {
            return;
        }
        if self.belongs_behind(at, amount) {
            self.loose = Some(*amount);
            return;
        }
        let Some(target) = self
            .carried_over(amount)
            .or_else(|| self.comes_in_pairs(amount))
            .or_else(|| self.amount_target(amount))
        else {
            self.loose = amount.of_them.then_some(*amount);
            return;
        };
        if self.rest.take().is_some() && amount.unit.is_some() {
            return self.more_of(target, amount);
        }
        if amount.by.is_some() || self.tells_height(target, amount) {
            return self.set_size(target, amount);
        }
        let target = self.one_it_fits(target, amount).unwrap_or(target);
        self.place_amount(at, target, amount);
        if amount.unit == Some(Unit::Pair) && self.focus.last() != Some(&target) && self.open(target) {
            self.focus.retain(|f| *f != target);
            self.focus.push(target);
        }
    }

    /// "two hundred square feet on the house wrap": the number is of the thing behind it.
    fn belongs_behind(&self, at: usize, amount: &Amount) -> bool {
        let measured = amount.unit.is_some_and(|u| !matches!(u, Unit::Pair | Unit::Set | Unit::Each));
        let joined = matches!(self.word(amount.end), "on" | "for") && measured;
        // "One and a half squares, siding": it opens the sentence, and its thing follows.
        let sentence = self.sentence(amount.first);
        let named = self.mentions_before(amount.first).iter().any(|m| {
            self.sentence(m.first) == sentence && matches!(m.kind, crate::language::mentions::Kind::Thing(_))
        });
        let opens = measured && self.tokens.list[amount.first].before != Break::None && !named;
        let listed = opens
            && self.after(at).is_some_and(|m| match &m.kind {
                crate::language::mentions::Kind::Thing(thing) => {
                    m.first == amount.end
                        && self.tokens.list[m.first].before == Break::Comma
                        && thing.amount.is_none()
                        && thing
                            .item
                            .zip(amount.unit)
                            .is_some_and(|(i, u)| self.grammar.items[usize::from(i)].takes(u))
                }
                _ => false,
            });
        listed
            || joined
                && self.after(at).is_some_and(|m| {
                    m.first == amount.end + 1 && matches!(m.kind, crate::language::mentions::Kind::Thing(_))
                })
    }

    /// "the whole roof's thirty four square, tear it off, new shingles": what of it, is said behind.
    fn measures_the_roof(&self, at: usize, amount: &Amount) -> bool {
        let before = at.checked_sub(1).map(|b| &self.mentions[b]);
        amount.unit == Some(Unit::Square)
            && before.is_some_and(|m| {
                self.meaning(m) == Some(Meaning::Roof)
                    && m.end + 1 >= amount.first
                    && self.sentence(m.first) == self.sentence(amount.first)
            })
    }

    /// "shutters, he's got five windows with them, so three pair": pairs are of what is counted in pairs.
    fn comes_in_pairs(&self, amount: &Amount) -> Option<usize> {
        let paired = |e: &Entity| {
            e.item.is_some_and(|i| self.grammar.items[usize::from(i)].takes(Unit::Pair))
                && !e.scratched
                && e.span.end + PAIR_REACH >= amount.first
        };
        let last = self.last().filter(|l| amount.unit == Some(Unit::Pair) && !paired(&self.entities[*l]))?;
        let found = self.focus.iter().rev().copied().find(|n| paired(&self.entities[*n]) && self.open(*n));
        found.filter(|f| *f != last)
    }

    /// The thing a number speaks of.
    fn amount_target(&self, amount: &Amount) -> Option<usize> {
        let last = self.last()?;
        let e = &self.entities[last];
        let near = e.span.end + REACH >= amount.first;
        let here = last >= self.arrived.0
            || e.place.side == self.places.here.side
            || self.sentence(e.name.first) == self.sentence(amount.first);
        (here && near && !e.scratched || self.correcting.is_some()).then_some(last)
    }

    fn place_amount(&mut self, at: usize, target: usize, amount: &Amount) {
        if amount.unit.is_none()
            && !amount.of_them
            && !self.ends_its_name(target, amount.end)
            && (self.counts_another(amount.end) || self.counts_pieces(target, amount))
        {
            if self.counts_pieces(target, amount) {
                self.entities[target].pieces = Some(amount.value());
            }
            return;
        }
        if self.numbers_pieces_of_it(target, amount) {
            self.entities[target].pieces = Some(amount.value()); // deck boards, twelve of them
            return;
        }
        let each = matches!(self.word(amount.end), "each" | "apiece");
        let pieces = self.entities[target].pieces.or_else(|| self.counted_though_measured(target));
        if let Some(pieces) = pieces.filter(|_| each && amount.unit.is_some()) {
            self.entities[target].quantity = None;
            let all = Amount { low: amount.low * pieces, high: amount.high * pieces, ..*amount };
            return self.set_amount(target, &all, self.rough_near(amount.first, amount.end));
        }
        if self.one_at_each_end(target, amount) {
            return;
        }
        if self.points_at_the_list(amount) {
            return;
        }
        if self.one_of_another_size(target, amount) {
            return;
        }
        let e = &self.entities[target];
        if e.evidence.iter().any(|v| v.field == Field::Quantity && v.span.first == amount.first) {
            return; // taken with the work before it
        }
        if self.counts_of_a_size(target, amount) {
            return;
        }
        if self.counts_all_listed(target, amount) {
            return;
        }
        if self.is_on_another_side(target, amount) || self.is_of_the_next_place(target, amount) {
            return self.more_of(target, amount);
        }
        let e = &self.entities[target];
        let further = self.another_amount(amount) || self.part_of_settled(target, amount);
        if further && e.quantity.is_some_and(|q| !q.implied) {
            return self.more_of(target, amount);
        }
        if self.length_of_each(target, amount) {
            return self.set_size(target, amount);
        }
        match self.fit(e, amount) {
            Fit::Size => self.set_size(target, amount),
            Fit::None => {}
            Fit::Quantity if self.counts_parts(target, amount) => {}
            Fit::Quantity => self.fit_quantity(at, target, amount),
        }
    }

    /// "replace all that, and the last twelve foot is only leaning": a part, of which something else is said.
    fn part_of_settled(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let word = |n: usize| amount.first.checked_sub(n).map_or("", |t| self.word(t));
        amount.unit.is_some()
            && !e.works.is_empty()
            && word(2) == "the"
            && matches!(word(1), "last" | "first" | "bottom" | "top" | "end" | "remaining")
    }

    /// "two of them, ten foot each", "eighty foot of it, six foot cedar": how long or high each is.
    fn length_of_each(&self, target: usize, amount: &Amount) -> bool {
        let counted =
            self.entities[target].quantity.is_some_and(|q| !q.implied || q.low > Exact::from_integer(1));
        let each = matches!(self.word(amount.end), "each" | "apiece")
            || amount.first > 0 && self.word(amount.first - 1) == "at";
        let high = self.was_height(target, amount.low) && !amount.of_them;
        counted && amount.is_length() && (each || high)
    }

    fn fit_quantity(&mut self, at: usize, target: usize, amount: &Amount) {
        if amount.of_them && amount.low < Exact::from_integer(1) && amount.unit.is_none() {
            return; // half of them are cracked
        }
        if self.sums_parts(target, amount) || self.counts_several_names(target, amount) {
            return;
        }
        let rough = self.rough_near(amount.first, amount.end);
        let e = &self.entities[target];
        let settled_number = e.quantity.filter(|q| !q.implied);
        if !e.plural
            && amount.unit.is_none()
            && self.sums_up(at, amount)
            && !(amount.of_them && self.alone_in_sentence(target))
            && !self.sums_its_own(target, amount)
        {
            return; // a sum over several lines
        }
        match settled_number {
            None if self.counts_the_list(target, amount) => {}
            None if amount.unit.is_none()
                && !self.speaks_of_number(amount)
                && !self.same_again(e, amount) => {}
            None => self.set_amount(target, amount, rough),
            Some(q) if q.low == amount.low && q.high == amount.high => {
                let pairs = matches!(amount.unit, Some(Unit::Pair | Unit::Set)) && q.unit.is_none();
                if pairs && self.suits(target, amount) {
                    self.entities[target].quantity = Some(Quantity { unit: amount.unit, ..q }); // I mean four pair
                }
                self.stretch(target, amount);
            }
            Some(_) if self.corrects_amount(target, amount) => self.correct_amount(target, amount, rough),
            Some(q)
                if self.was_height(target, q.low)
                    && (amount.of_them
                        || q.unit == Some(Unit::Foot)
                            && amount.unit == Some(Unit::Foot)
                            && amount.low > q.low
                            && e.works.is_empty()) =>
            {
                self.height_then_length(target, amount, rough)
            }
            Some(q) if self.length_of_counted(target, q, amount) => self.set_size(target, amount),
            Some(q) if self.told_in_another_unit(q, amount) => self.sum_amount(target, amount, rough),
            Some(_) if self.counts_up(target, amount) => self.sum_amount(target, amount, rough),
            Some(_) if amount.of_them && self.counts_up(target, amount) => {
                self.sum_amount(target, amount, rough)
            }
            Some(q) if amount.of_them && amount.low > q.low && self.entities[target].works.is_empty() => {
                self.sum_amount(target, amount, rough);
            }
            Some(q) if amount.of_them && amount.value() < q.low => {
                let placed = self.only_placed(Span { first: amount.first, end: amount.end });
                self.entities[target].subset = Some(amount.value()).filter(|_| !placed);
            }
            Some(q) if self.tells_of_some(q, amount) || self.is_an_end_of(target, q, amount) => {
                self.entities[target].subset = Some(amount.value())
            }
            Some(_) if self.sums_up(at, amount) => self.sum_amount(target, amount, rough),
            Some(_)
                if (amount.unit.is_some() || self.lists_lengths(e, amount))
                    && !amount.of_them
                    && self.adds(e, amount) =>
            {
                self.more_of(target, amount)
            }
            Some(_) => {}
        }
    }

    /// "five on the rear slope, one on the front slope": the second number is of what is on another side.
    fn is_on_another_side(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let counted = amount.unit.is_none() && e.quantity.is_some_and(|q| !q.implied) && self.open(target);
        counted
            && !self.corrects_amount(target, amount)
            && self.mentions_in(amount.end, amount.end + 1).iter().any(|m| {
                matches!(self.meaning(m), Some(Meaning::Side(side)) if side != e.place.side)
                    && self.is(m.first, self.grammar.classes.place_word)
            })
    }

    /// "eleven square on the front slope, replace those, and the back slope is thirteen square".
    fn is_of_the_next_place(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        let place = self.places.of(self.area_of(e));
        let measured = e.quantity.is_some_and(|q| q.unit.is_some() && q.unit == amount.unit);
        measured
            && !e.works.is_empty()
            && place != e.place
            && place.named
            && !self.corrects_amount(target, amount)
    }

    /// "the deck … not the rail, so a hundred and eighty square foot": what is measured in that unit, and isn't yet.
    fn one_it_fits(&self, target: usize, amount: &Amount) -> Option<usize> {
        let unit = amount.unit.filter(|u| matches!(u, Unit::SquareFoot | Unit::Square | Unit::Foot))?;
        let takes = |e: &Entity| e.item.is_some_and(|i| self.grammar.items[usize::from(i)].takes(unit));
        let last = &self.entities[target];
        if takes(last) || last.item.is_none() {
            return None;
        }
        self.focus.iter().rev().copied().find(|n| {
            let e = &self.entities[*n];
            takes(e)
                && e.quantity.is_none()
                && !e.scratched
                && e.place == last.place
                && e.span.end + PAIR_REACH >= amount.first
        })
    }

    /// "one square low, one and a half up high": a further length in the same unit.
    pub(super) fn lists_lengths(&self, e: &Entity, amount: &Amount) -> bool {
        let measured = e.item.is_some_and(|i| !self.grammar.items[usize::from(i)].counted());
        let known = e.quantity.is_some_and(|q| !q.implied && q.unit.is_some());
        let listed = self.tokens.list[amount.first].before == Break::Comma
            || amount.first > 0 && matches!(self.word(amount.first - 1), "and" | "plus");
        measured
            && known
            && listed
            && amount.unit.is_none()
            && self.sentence(e.span.end - 1) == self.sentence(amount.first)
    }

    /// "fence, six foot, sixty feet of it": the first length was the height.
    pub(super) fn was_height(&self, target: usize, known: Exact) -> bool {
        let by_size = self.entities[target].item.is_some_and(|i| {
            self.grammar.items[usize::from(i)].length_before == crate::language::rules::LengthBefore::Size
        });
        by_size && known <= Exact::from_integer(12) && self.entities[target].size.is_none()
    }

    fn height_then_length(&mut self, target: usize, amount: &Amount, rough: bool) {
        if let Some(height) = self.entities[target].quantity.take() {
            self.set_size(target, &Amount { low: height.low, high: height.high, by: None, ..*amount });
        }
        self.set_amount(target, amount, rough);
    }

    /// Whether a further length is a further piece: in the same list, or in a new sentence once the first is settled.
    fn adds(&self, e: &Entity, amount: &Amount) -> bool {
        e.works.is_empty() || self.sentence(e.name.first) != self.sentence(amount.first)
    }

    pub(super) fn stretch(&mut self, target: usize, amount: &Amount) {
        let e = &mut self.entities[target];
        e.span = e.span.join(Span { first: amount.first, end: amount.end });
    }

    pub(super) fn area_of(&self, entity: &Entity) -> crate::model::Area {
        entity.item.map_or(crate::model::Area::Wall, |i| self.grammar.items[usize::from(i)].area)
    }

    /// "three and a half square. House wrap under it, same, three and a half": in the unit of the number just said.
    fn unit_of_the_same_number(&self, target: usize, amount: &Amount) -> Option<Unit> {
        let item = self.entities[target].item.map(|i| &self.grammar.items[usize::from(i)])?;
        let before = (0..target).rev().take(2).find_map(|n| self.entities[n].quantity)?;
        let said = before.unit.filter(|_| before.low == amount.low && amount.unit.is_none())?;
        let same = (amount.first.saturating_sub(2)..amount.first).any(|t| self.word(t) == "same");
        (same && !item.counted() && item.takes(said)).then_some(said)
    }

    /// Sets how much of a thing there is.
    pub(super) fn set_amount(&mut self, target: usize, amount: &Amount, rough: bool) {
        let span = Span { first: amount.first, end: amount.end };
        let alike = self.unit_of_the_same_number(target, amount);
        let corrected = self.entities[target]
            .quantity
            .is_some_and(|q| !q.implied && (q.low != amount.low || q.high != amount.high));
        let e = &mut self.entities[target];
        if corrected {
            e.flags.insert(Flag::ChangedMind);
            e.replaced = e.quantity;
        }
        let unit = amount.unit.or_else(|| e.quantity.and_then(|q| q.unit)).or(alike);
        e.quantity = Some(Quantity { low: amount.low, high: amount.high, unit, rough, implied: false });
        e.span = e.span.join(span);
        e.evidence.retain(|v| v.field != Field::Quantity);
        e.evidence.push(Evidence { field: Field::Quantity, origin: Origin::NumberSaid, span });
        if corrected {
            self.correcting = None;
        }
    }

    /// "replace forty foot", "paint all five pair": the number right behind the work.
    pub(super) fn amount_for_work(&mut self, targets: &[usize], amount: &Amount, said: &WorkHeard) -> bool {
        let [target] = targets else { return false };
        let e = &self.entities[*target];
        if self.fit(e, amount) != Fit::Quantity {
            return false;
        }
        let known = e.quantity.filter(|q| !q.implied);
        if known.is_some() && self.another_amount(amount) {
            self.more_of(*target, amount); // paint the other fifty foot
            let new = self.entities.len() - 1;
            let span = said.span.join(Span { first: amount.first, end: amount.end });
            self.bind(&[new], &WorkHeard { span, ..said.clone() });
            return true;
        }
        if known.is_none() {
            let rough = self.rough_near(amount.first, amount.end);
            self.set_amount(*target, amount, rough);
        }
        let part = known.is_some_and(|q| amount.value() < q.low);
        self.entities[*target].subset = part.then(|| amount.value());
        let span = said.span.join(Span { first: amount.first, end: amount.end });
        self.bind(&[*target], &WorkHeard { span, ..said.clone() });
        true
    }

    /// Whether a hedge stands beside a number.
    pub(super) fn rough_near(&self, first: usize, end: usize) -> bool {
        self.mentions_in(first.saturating_sub(LONGEST_HEDGE), end + 2).iter().any(|m| {
            self.meaning(m) == Some(Meaning::Rough)
                && (m.end <= first
                    && m.end + ROUGH_REACH > first
                    && self.break_between(m.first, first) < Break::Sentence
                    || m.first >= end && m.first < end + 2
                    || m.first >= first && m.end <= end)
        })
    }
}
