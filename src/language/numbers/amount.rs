//! Amounts: a number with its unit, a range, or one length by another.

use super::Exact;
use super::length::Measure;
use super::slope::SlopeSaid;
use super::spoken::Speaker;
use crate::language::rules::{Classes, Grammar, NumberWord};
use crate::language::tokens::{Break, Tokens};
use crate::language::vocabulary::ClassId;
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
pub struct NumbersFound {
    /// The amounts, in order, none overlapping.
    pub amounts: Vec<Amount>,
    /// How steep roofs are, in order.
    pub slopes: Vec<SlopeSaid>,
}

/// What a number at a token turned out to be.
enum Told {
    Amount(Amount),
    Slope(SlopeSaid),
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
    pub fn find(&self) -> NumbersFound {
        let mut found = NumbersFound::default();
        let mut at = 0;
        while at < self.speaker.tokens.list.len() {
            match self.told(at, found.amounts.last().map_or(0, |a| a.end)) {
                Some(Told::Amount(amount)) => {
                    at = amount.end;
                    found.amounts.push(amount);
                }
                Some(Told::Slope(slope)) => {
                    at = slope.end;
                    found.slopes.push(slope);
                }
                Some(Told::Other(end)) => at = end,
                None => at += 1,
            }
        }
        found
    }

    fn classes(&self) -> &'a Classes {
        &self.speaker.grammar.classes
    }

    fn is(&self, at: usize, class: ClassId) -> bool {
        self.speaker.word_is(at, class)
    }

    fn spoken_on(&self, at: usize) -> bool {
        self.speaker.next(at).is_some()
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
        if let Some(slope) = self.speaker.slope(at, &first) {
            return Some(Told::Slope(slope));
        }
        let price = at > free_from && self.speaker.mark_is(at - 1, "$");
        let mut amount = plain(at, &first);
        if !first.foreign {
            self.extend(&mut amount, &first);
        }
        self.of_them(&mut amount);
        Some(if first.foreign || price { Told::Other(amount.end) } else { Told::Amount(amount) })
    }

    fn extend(&self, amount: &mut Amount, first: &Measure) {
        if let Some(second) = self.behind(first.end, self.classes().size_joint) {
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

    /// The second number behind a word of the class.
    fn behind(&self, at: usize, joint: ClassId) -> Option<Measure> {
        let together = self.speaker.tokens.list.get(at).is_some_and(|t| t.before < Break::Sentence);
        let fits = together && self.is(at, joint) && self.spoken_on(at + 1);
        fits.then(|| self.speaker.measure(at + 1, self.item_at)).flatten().filter(|m| !m.foreign)
    }

    /// "ten or twelve feet", "ten to twelve", "ten, twelve feet": a second number a little greater.
    fn range(&self, at: usize, first: &Measure) -> Option<Measure> {
        let classes = self.classes();
        let told = self.behind(first.end, classes.range_word);
        let between = at > 0 && self.is(at - 1, classes.range_opener);
        let told = told.or_else(|| between.then(|| self.behind(first.end, classes.number_joint)).flatten());
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
        let half = self.is(end, self.classes().number_joint)
            && self.is(end + 1, self.classes().article)
            && self.speaker.word(end + 2) == Some(NumberWord::Part(2));
        (again && half).then_some(end + 3)
    }

    /// "two of them", "eighty foot of it".
    fn of_them(&self, amount: &mut Amount) {
        let at = amount.end;
        let classes = self.classes();
        let at = at + usize::from(self.is(at, classes.further));
        let of_pronoun =
            self.spoken_on(at) && self.is(at, classes.of_joint) && self.is(at + 1, classes.pronoun);
        let named = |at: usize| (self.item_at)(at) || self.spoken_on(at + 1) && (self.item_at)(at + 1);
        if of_pronoun && !(self.spoken_on(at + 2) && named(at + 2)) {
            amount.of_them = true;
            amount.end = at + 2;
        }
    }

    /// "that one", "a new one", "the other one": no number.
    fn pronoun_one(&self, at: usize) -> bool {
        if self.speaker.word(at) != Some(NumberWord::Small(1)) || at == 0 || !self.spoken_on(at) {
            return false;
        }
        let pronoun = self.is(at - 1, self.classes().before_one);
        let pointed = self.is(at - 1, self.classes().pointing_one);
        pronoun && !self.speaker.unit(at + 1) && (pointed || !(self.item_at)(at + 1))
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
        let measure = Measure { value: number.value, unit, foreign: false, slope: false, end, number };
        Some(Amount { sound_alike: true, ..plain(at, &measure) })
    }

    /// "got", "'s", "are": what a count may follow.
    fn brings_up(&self, at: usize) -> bool {
        self.is(at, self.classes().be) || self.is(at, self.classes().have)
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::tests::GRAMMAR;
    use crate::speech::Transcript;

    /// The amounts of each text where nothing is named, as "first..end low-high unit x by".
    #[track_caller]
    fn check(rows: &[(&str, &str)]) {
        let told = |a: &Amount| {
            let by = a.by.map(|by| format!(" x {by}")).unwrap_or_default();
            let unit = a.unit.map(|unit| format!(" {unit:?}")).unwrap_or_default();
            let range = if a.low == a.high { a.low.to_string() } else { format!("{}-{}", a.low, a.high) };
            format!("{range}{unit}{by}{}", if a.of_them { " of them" } else { "" })
        };
        let found = |text: &str| {
            let tokens = Tokens::new(&Transcript::from_plain(text), &GRAMMAR.vocabulary);
            let found = Amounts::new(&tokens, &GRAMMAR, &|_| false, &|_| false).find();
            let slopes = found.slopes.iter().map(|s| format!("{} in 12", s.inches));
            found.amounts.iter().map(told).chain(slopes).collect::<Vec<_>>().join(", ")
        };
        let got: Vec<(&str, String)> = rows.iter().map(|(text, _)| (*text, found(text))).collect();
        let expected: Vec<(&str, String)> =
            rows.iter().map(|(text, told)| (*text, told.to_string())).collect();
        assert_eq!(got, expected);
    }

    #[test]
    fn a_number_takes_its_unit_and_its_inches() {
        check(&[
            ("forty foot", "40 Foot"),
            ("six foot six", "13/2 Foot"),
            ("6' 6\"", "13/2 Foot"),
            ("eight foot and four inches", "25/3 Foot"),
            ("ten foot, two more", "10 Foot, 2"),
            ("ten feet and two screens", "10 Foot, 2"),
            ("forty-ish feet", "40 Foot"),
            ("a square and a half", "3/2 Square"),
            ("half a square", "1/2 Square"),
            ("inch and a half", "3/2 Inch"),
            ("another square", "1 Square"),
            ("the tape says thirty eight four", "115/3 Foot"),
            ("forty for feet", "44 Foot"),
        ]);
    }

    #[test]
    fn two_numbers_are_a_size_a_range_or_two_amounts() {
        check(&[
            ("nine by seven", "9 x 7"),
            ("nine foot by seven foot", "9 Foot x 7"),
            ("16x7", "16 x 7"),
            ("ten or twelve feet", "10-12 Foot"),
            ("ten to twelve", "10-12"),
            ("between ten and twelve feet", "10-12 Foot"),
            ("10-12 feet", "10-12 Foot"),
            ("ten, twelve feet", "10-12 Foot"),
            ("ten or forty feet", "10, 40 Foot"),
            ("a square, square and a half", "1-3/2 Square"),
        ]);
    }

    #[test]
    fn what_counts_no_work_is_no_amount() {
        check(&[
            ("twenty first", ""),
            ("2nd", ""),
            ("nineteen eighty four", ""),
            ("$40", ""),
            ("ten minutes", ""),
            ("that one and a new one", ""),
            ("one", "1"),
            ("two of them", "2 of them"),
            ("two more of those", "2 of them"),
            ("eighty foot of it", "80 Foot of them"),
        ]);
    }

    #[test]
    fn a_slope_is_told_by_its_run_or_by_the_word_pitch() {
        check(&[
            ("six in twelve", "6 in 12"),
            ("a six twelve pitch", "6 in 12"),
            ("the pitch is about six", "6 in 12"),
            ("the slope is six twelve", "6 in 12"),
            ("the slope is six", "6"),
            ("a quarter pitch", "6 in 12"),
            ("eight in twelve inch boards", ""),
        ]);
    }
}
