//! Numbers before a name: how much of it, how many of those, and how large each is.

use super::noun_phrase::{Leftwards, NounPhrases};
use super::thing::{Determiner, Thing};
use crate::language::numbers::{Amount, Exact, Speaker};
use crate::language::rules::{Item, LengthBefore, NumberWord};
use crate::model::Unit;

impl NounPhrases<'_> {
    /// Whether a bare count stands right before a token: "three wraps".
    pub fn count_before(&self, at: usize) -> bool {
        self.amount_ending(at).is_some_and(|a| a.unit.is_none() && a.by.is_none())
    }

    /// Takes an amount, or ends the phrase before it.
    pub(super) fn take_amount(&self, thing: &mut Thing, walk: &mut Leftwards, amount: Amount) {
        let sized = self.item_of(thing).is_some_and(|item| {
            runs_on_into_size(item, thing, &amount, walk) || gives_size(item, &amount, walk.after_of)
        });
        if sized
            && amount.is_length()
            && amount.by.is_none()
            && self.ground.tokens().list[amount.end].hesitated
        {
            walk.done = true; // sixteen foot, um, shutters
        } else if amount.by.is_some() || sized {
            self.take_size(thing, amount);
            walk.at = amount.first;
        } else if is_some_of(thing, &amount, walk) {
            thing.some = Some(amount);
            walk.at = amount.first;
            walk.done = true;
        } else if thing.amount.is_some() || thing.determiner != Determiner::Bare && !walk.after_of {
            walk.done = true;
        } else {
            thing.more |= self.is(amount.first, self.classes().more);
            thing.amount = Some(amount);
            walk.at = amount.first;
            walk.after_of = false;
        }
    }

    fn take_size(&self, thing: &mut Thing, amount: Amount) {
        match self.split(&amount).filter(|_| amount.run_on) {
            Some((count, size)) => {
                thing.size = Some(size);
                thing.amount = Some(count);
            }
            None => thing.size = Some(amount),
        }
    }

    /// "one ten foot gate": one, of ten foot.
    fn split(&self, amount: &Amount) -> Option<(Amount, Amount)> {
        let speaker = Speaker { tokens: self.ground.tokens(), grammar: self.grammar() };
        let rest = speaker.number(amount.first + 1)?;
        let hundreds = (amount.low - rest.value) / 100;
        let end = amount.first + 1;
        let count = Amount { end, low: hundreds, high: hundreds, unit: None, run_on: false, ..*amount };
        let size = Amount { first: end, low: rest.value, high: rest.value, run_on: false, ..*amount };
        Some((count, size))
    }

    /// "of" joins a name to an amount before it: "forty foot of gutter", "a thirty foot run of gutter".
    pub(super) fn take_of(&self, thing: &Thing, walk: &mut Leftwards, at: usize) {
        let before = self.before_of(at);
        let every =
            before > 0 && (self.is(before - 1, self.classes().every) || self.tells_no_place(before - 1));
        let measured = self.item_of(thing).is_some_and(|item| !item.counted());
        if before < at && measured && self.count_before(before) {
            walk.at = self.amount_ending(before).map_or(before, |a| a.first);
            walk.done = true; // one piece of gutter: how much it is, is said elsewhere
        } else if self.amount_ending(before).is_some() || every {
            walk.at = before;
            walk.after_of = true;
        } else {
            walk.done = true;
        }
    }

    /// Where an "of" and what belongs to it begins: "three | out of the five", "a thirty foot | run of gutter".
    fn before_of(&self, at: usize) -> usize {
        let c = self.classes();
        let lead = at > 0 && self.is(at - 1, c.portion_lead);
        let before = at - usize::from(lead);
        let piece = before > 0 && self.is(before - 1, c.no_thing) && self.amount_ending(before - 1).is_some();
        before - usize::from(piece)
    }

    /// "a bunch of", "some of", "a piece of": no number, but no place either.
    fn tells_no_place(&self, at: usize) -> bool {
        let vague = self.grammar().numbers.get(self.ground.word(at)) == Some(NumberWord::Vague);
        vague || self.is(at, self.classes().portion_word)
    }
}

/// "two ten foot downspouts": a length that runs on from a count is how long each is.
fn runs_on_into_size(item: &Item, thing: &Thing, amount: &Amount, walk: &Leftwards) -> bool {
    amount.run_on && thing.plural && amount.is_length() && !walk.after_of && item.takes(Unit::Each)
}

/// Whether a length right before the name tells how large each is.
fn gives_size(item: &Item, amount: &Amount, after_of: bool) -> bool {
    let thickness = amount.unit.is_none() && amount.high < Exact::from_integer(1);
    let small = amount.unit == Some(Unit::Inch) && item.unit != Unit::Inch;
    let length = amount.is_length() && (small || item.counted() || item.length_before == LengthBefore::Size);
    (thickness || length) && !after_of
}

/// "two of the four screens": fewer, before "of" and how many there are.
fn is_some_of(thing: &Thing, amount: &Amount, walk: &Leftwards) -> bool {
    let fewer = |whole: &Amount| whole.unit.is_none() && amount.unit.is_none() && amount.low < whole.low;
    walk.after_of && thing.some.is_none() && thing.amount.as_ref().is_some_and(fewer)
}
