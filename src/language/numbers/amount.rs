//! Amounts: a number with its unit, a range, or one length by another.

use super::Exact;
use super::length::Measure;
use super::rise::Rise;
use super::spoken::Speaker;
use crate::language::rules::Grammar;
use crate::language::tokens::{Break, Tokens};
use crate::model::Unit;

/// How much was said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Amount {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// The lower bound; the number itself where no range was said.
    pub low: Exact,
    /// The upper bound.
    pub high: Exact,
    /// The unit said; none where none was.
    pub unit: Option<Unit>,
    /// The second length of "nine by seven".
    pub by: Option<Exact>,
    /// The unit of the second length.
    pub by_unit: Option<Unit>,
    /// Said of things named before: "two of them".
    pub of_them: bool,
    /// "one ten" for 110: also one of ten.
    pub run_on: bool,
    /// Heard as a word that sounds the same: `for`.
    pub sound_alike: bool,
}

impl Amount {
    /// The number, or the middle of the range.
    pub fn value(&self) -> Exact {
        (self.low + self.high) / 2
    }

    /// Whether it is a length.
    pub fn is_length(&self) -> bool {
        matches!(self.unit, Some(Unit::Foot | Unit::Inch | Unit::Yard))
    }
}

/// What numbers of a narration tell.
#[derive(Debug, Default)]
pub struct Found {
    /// The amounts, in order, none overlapping.
    pub amounts: Vec<Amount>,
    /// How steep roofs are, in order.
    pub rises: Vec<Rise>,
}

/// What a number at a token turned out to be.
enum Told {
    Amount(Amount),
    Rise(Rise),
    /// Time, money, people: nothing of work, up to that token.
    Other(usize),
}

/// Finds the amounts of a narration.
pub struct Amounts<'a> {
    speaker: Speaker<'a>,
    /// Whether a thing is named at a token.
    item_at: &'a dyn Fn(usize) -> bool,
    /// Whether a token belongs to a phrase in which it is no number.
    taken: &'a dyn Fn(usize) -> bool,
}

impl<'a> Amounts<'a> {
    /// A finder over a narration in which the phrases have been found already.
    pub fn new(
        tokens: &'a Tokens,
        grammar: &'a Grammar,
        item_at: &'a dyn Fn(usize) -> bool,
        taken: &'a dyn Fn(usize) -> bool,
    ) -> Self {
        Self { speaker: Speaker { tokens, grammar }, item_at, taken }
    }

    /// All amounts, and all slopes of roofs.
    pub fn find(&self) -> Found {
        let mut found = Found::default();
        let mut at = 0;
        while at < self.speaker.tokens.list.len() {
            match self.told(at, found.amounts.last().map_or(0, |a| a.end)) {
                Some(Told::Amount(amount)) => {
                    at = amount.end;
                    found.amounts.push(amount);
                }
                Some(Told::Rise(rise)) => {
                    at = rise.end;
                    found.rises.push(rise);
                }
                Some(Told::Other(end)) => at = end,
                None => at += 1,
            }
        }
        found
    }

    fn word(&self, at: usize) -> &'a str {
        self.speaker.tokens.list.get(at).map_or("", |t| self.speaker.grammar.vocabulary.word(t.word))
    }

    fn spoken_on(&self, at: usize) -> bool {
        self.speaker.tokens.list.get(at).is_some_and(|t| t.before == Break::None)
    }

    /// What the number at a token tells.
    fn told(&self, at: usize, free_from: usize) -> Option<Told> {
        if (self.taken)(at) || self.pronoun_one(at) {
            return None;
        }
        let Some(first) = self.speaker.measure(at, self.item_at) else {
            let mut amount = self.sound_alike(at)?;
            self.of_them(&mut amount);
            return Some(Told::Amount(amount));
        };
        if let Some(rise) = self.speaker.rise(at, &first) {
            return Some(Told::Rise(rise));
        }
        let price = at > free_from && self.word(at - 1) == "$";
        let mut amount = plain(at, &first);
        if !first.foreign {
            self.extend(&mut amount, &first);
        }
        self.of_them(&mut amount);
        Some(if first.foreign || price { Told::Other(amount.end) } else { Told::Amount(amount) })
    }

    fn extend(&self, amount: &mut Amount, first: &Measure) {
        if let Some(second) = self.behind(first.end, &["by", "x", "times"]) {
            amount.by = Some(second.value);
            amount.by_unit = second.unit;
            amount.end = second.end;
        } else if let Some(second) = self.range(amount.first, first) {
            amount.high = second.value;
            amount.unit = second.unit.or(first.unit);
            amount.end = second.end;
        } else if let Some(end) = self.and_a_half_more(first) {
            amount.high = amount.low + Exact::new(1, 2);
            amount.end = end;
        }
    }

    /// The second number behind one of these words.
    fn behind(&self, at: usize, words: &[&str]) -> Option<Measure> {
        let together = self.speaker.tokens.list.get(at).is_some_and(|t| t.before < Break::Sentence);
        let fits = together && words.contains(&self.word(at)) && self.spoken_on(at + 1);
        fits.then(|| self.speaker.measure(at + 1, self.item_at)).flatten().filter(|m| !m.foreign)
    }

    /// "ten or twelve feet", "ten to twelve", "ten, twelve feet": a second number a little greater.
    fn range(&self, at: usize, first: &Measure) -> Option<Measure> {
        let told = self.behind(first.end, &["or", "to", "maybe"]);
        let between = at > 0 && self.word(at - 1) == "between";
        let told = told.or_else(|| between.then(|| self.behind(first.end, &["and"])).flatten());
        let second = told.or_else(|| self.dashed(first)).or_else(|| self.listed(first))?;
        let greater = second.value > first.value && second.value <= first.value * 2;
        let same_unit = first.unit.is_none() || second.unit.is_none() || first.unit == second.unit;
        (greater && same_unit).then_some(second)
    }

    /// `10-12 feet`.
    fn dashed(&self, first: &Measure) -> Option<Measure> {
        let list = &self.speaker.tokens.list;
        let between = list.get(first.end - 1)?.text.end..list.get(first.end)?.text.start;
        let dash = matches!(self.speaker.tokens.text.get(between), Some("-" | "–"));
        let digits = dash && first.number.digits && first.unit.is_none();
        digits.then(|| self.speaker.measure(first.end, self.item_at)).flatten().filter(|m| !m.foreign)
    }

    /// "ten, twelve feet": only the second has the unit.
    fn listed(&self, first: &Measure) -> Option<Measure> {
        let comma = self.speaker.tokens.list.get(first.end)?.before == Break::Comma;
        if !comma || first.unit.is_some() {
            return None;
        }
        self.speaker.measure(first.end, self.item_at).filter(|m| m.unit.is_some() && !m.foreign)
    }

    /// "a square, square and a half".
    fn and_a_half_more(&self, first: &Measure) -> Option<usize> {
        let (unit, end) = self.speaker.grammar.unit_at(&self.speaker.tokens.list, first.end, false)?;
        let again = unit.is_some() && unit == first.unit;
        let half = ["and", "a", "half"].iter().enumerate().all(|(n, w)| self.word(end + n) == *w);
        (again && half).then_some(end + 3)
    }

    /// "two of them", "eighty foot of it".
    fn of_them(&self, amount: &mut Amount) {
        let at = amount.end;
        let classes = &self.speaker.grammar.classes;
        let pronoun = |at: usize| {
            self.speaker
                .tokens
                .list
                .get(at)
                .is_some_and(|t| self.speaker.grammar.vocabulary.is(t.word, classes.pronoun))
        };
        let at = at + usize::from(self.word(at) == "more");
        if self.spoken_on(at)
            && self.word(at) == "of"
            && pronoun(at + 1)
            && !(self.spoken_on(at + 2)
                && ((self.item_at)(at + 2) || self.spoken_on(at + 3) && (self.item_at)(at + 3)))
        {
            amount.of_them = true;
            amount.end = at + 2;
        }
    }

    /// "that one", "a new one", "the other one": no number.
    fn pronoun_one(&self, at: usize) -> bool {
        let list = &self.speaker.tokens.list;
        if self.word(at) != "one" {
            return false;
        }
        let before = at > 0 && list[at].before == Break::None;
        let pronoun = before
            && self.speaker.grammar.vocabulary.is(list[at - 1].word, self.speaker.grammar.classes.before_one);
        let unit = self.spoken_on(at + 1) && self.speaker.grammar.unit_at(list, at + 1, false).is_some();
        let pointed = before && matches!(self.word(at - 1), "that" | "this");
        pronoun && !unit && (pointed || !(self.item_at)(at + 1))
    }

    /// A word that only sounds like a number, where only the number makes sense: "forty for feet",
    /// "got for box vents".
    fn sound_alike(&self, at: usize) -> Option<Amount> {
        let list = &self.speaker.tokens.list;
        let value = self.speaker.grammar.numbers.sound_alike(list.get(at)?.word)?;
        if !self.spoken_on(at + 1) {
            return None;
        }
        let unit = self
            .speaker
            .grammar
            .unit_at(list, at + 1, false)
            .filter(|u| u.0.is_some() && !(self.item_at)(at + 1));
        let counted = at > 0 && self.brings_up(at - 1) && (self.item_at)(at + 1);
        if unit.is_none() && !counted {
            return None;
        }
        let end = unit.map_or(at + 1, |u| u.1);
        let number =
            super::Number { value: Exact::from_integer(value), end: at + 1, digits: false, run_on: false };
        let unit = unit.and_then(|u| u.0);
        let measure = Measure { value: number.value, unit, foreign: false, rise: false, end, number };
        Some(Amount { sound_alike: true, ..plain(at, &measure) })
    }

    /// "got", "'s", "are": what a count may follow.
    fn brings_up(&self, at: usize) -> bool {
        let vocabulary = &self.speaker.grammar.vocabulary;
        let classes = &self.speaker.grammar.classes;
        self.speaker
            .tokens
            .list
            .get(at)
            .is_some_and(|t| vocabulary.is(t.word, classes.be) || vocabulary.is(t.word, classes.have))
    }
}

fn plain(first: usize, measure: &Measure) -> Amount {
    Amount {
        first,
        end: measure.end,
        low: measure.value,
        high: measure.value,
        unit: measure.unit,
        by: None,
        by_unit: None,
        of_them: false,
        run_on: measure.number.run_on,
        sound_alike: false,
    }
}
