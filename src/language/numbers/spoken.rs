//! Number words and digits into exact numbers. Number words run like steps on an adding machine that refuses
//! what nobody would say: "twenty five" goes on, "five twenty five" stops, "sixty fifteen" is two numbers.

use super::Exact;
use super::adder::Adder;
use crate::language::rules::{Grammar, NumberWord};
use crate::language::tokens::{Break, Token, Tokens};
use crate::language::vocabulary::ClassId;

/// A number said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Number {
    /// Its value.
    pub value: Exact,
    /// One past its last token.
    pub end: usize,
    /// Written in digits.
    pub digits: bool,
    /// "one ten" for 110: the first word alone is the other reading.
    pub run_on: bool,
}

/// Reads numbers at any token.
#[derive(Debug, Clone, Copy)]
pub struct Speaker<'a> {
    /// The narration.
    pub tokens: &'a Tokens,
    /// Its rules.
    pub grammar: &'a Grammar,
}

/// Longer strings of digits are telephone and account numbers, never amounts.
const MOST_DIGITS: usize = 6;

impl<'a> Speaker<'a> {
    pub(super) fn token(&self, at: usize) -> Option<&'a Token> {
        self.tokens.list.get(at)
    }

    /// The token at `at`, if it is spoken on from the one before.
    pub(super) fn next(&self, at: usize) -> Option<&'a Token> {
        self.token(at).filter(|t| t.before == Break::None)
    }

    /// Whether a word of the class stands there, spoken on from the one before.
    pub(super) fn is(&self, at: usize, class: ClassId) -> bool {
        self.next(at).is_some() && self.word_is(at, class)
    }

    /// Whether a word of the class stands there, spoken on or not.
    pub(super) fn word_is(&self, at: usize, class: ClassId) -> bool {
        self.token(at).is_some_and(|t| self.grammar.vocabulary.is(t.word, class))
    }

    /// Whether that mark stands there, as `/` or `$`.
    pub(super) fn mark_is(&self, at: usize, mark: &str) -> bool {
        self.token(at).is_some_and(|t| self.grammar.vocabulary.word(t.word) == mark)
    }

    pub(super) fn word(&self, at: usize) -> Option<NumberWord> {
        self.grammar.numbers.get(self.token(at)?.word)
    }

    pub(super) fn next_word(&self, at: usize) -> Option<NumberWord> {
        self.next(at).and_then(|_| self.word(at))
    }

    /// The number that begins at a token, with its fraction.
    pub fn number(&self, at: usize) -> Option<Number> {
        if let Some(part) = self.part(at).or_else(|| self.led_by_point(at)) {
            return Some(self.scaled(self.grouped(part), i64::MAX));
        }
        let whole = self.digits(at).or_else(|| self.words(at))?;
        Some(self.scaled(self.with_fraction(self.grouped(self.with_sound_alike(whole))), i64::MAX))
    }

    /// "2 hundred", "half a million", "five point two million": what the adding machine can't take. Only scales below
    /// `limit`: what is said on gets smaller.
    fn scaled(&self, number: Number, limit: i64) -> Number {
        let at = number.end + usize::from(self.is(number.end, self.grammar.classes.article));
        match self.next_word(at) {
            Some(NumberWord::Scale(scale))
                if (number.digits || !number.value.is_integer())
                    && scale < limit
                    && number.value < Exact::from_integer(scale) =>
            {
                self.with_rest(Number { value: number.value * scale, end: at + 1, ..number }, scale)
            }
            _ => number,
        }
    }

    /// "4 thousand 3 hundred", "3 hundred and 21": what is said behind a scale, and less than it.
    fn with_rest(&self, number: Number, scale: i64) -> Number {
        let and = self.is(number.end, self.grammar.classes.number_joint);
        let at = number.end + usize::from(and);
        let plain = self.next(at).and_then(|_| self.digits(at).or_else(|| self.words(at)));
        let rest = plain.map(|n| self.scaled(n, scale)).filter(|r| {
            r.value.is_integer() && r.value < Exact::from_integer(scale) && (and || r.end > at + 1)
        });
        match rest {
            Some(rest) if number.digits && number.value.is_integer() => {
                Number { value: number.value + rest.value, end: rest.end, ..number }
            }
            _ => number,
        }
    }

    /// Where what looks like a number ends that tells which one, not how many ("twenty first", "2nd"), or a fraction
    /// that can be taken two ways.
    pub(super) fn ordinal(&self, number: &Number) -> Option<usize> {
        let next = self.next(number.end)?;
        let glued = next.text.start == self.token(number.end.checked_sub(1)?)?.text.end;
        let said = self.tokens.said(number.end);
        if number.digits {
            return (glued && matches!(said, "st" | "nd" | "rd" | "th")).then_some(number.end + 1);
        }
        if matches!(self.grammar.numbers.get(next.word), Some(NumberWord::Part(3..)))
            && self.is_plural(number.end)
        {
            return number.value.is_integer().then_some(number.end + 1); // "twenty three sixteenths": 23/16 or 20 3/16?
        }
        let tens = number.value.is_integer() && number.value.numer() % 10 == 0 && number.value.numer() >= 20;
        (tens && self.grammar.numbers.ordinal(next.word)).then_some(number.end + 1)
    }

    /// Where a year in words ends: "nineteen eighty four", but not "nineteen forty inch shutters".
    pub(super) fn year(&self, number: &Number) -> Option<usize> {
        let tens = matches!(self.next_word(number.end), Some(NumberWord::Tens(_)));
        let century = tens && !number.digits && number.value == Exact::from_integer(19);
        let rest = century.then(|| self.number(number.end)).flatten()?;
        (rest.value.is_integer() && rest.value.numer() < 100 && !self.unit(rest.end)).then_some(rest.end)
    }

    pub(super) fn unit(&self, at: usize) -> bool {
        self.next(at).is_some() && self.grammar.unit_at(&self.tokens.list, at, false).is_some()
    }

    /// "thirty for foot", "40 for foot": a digit heard as a word of the same sound.
    fn with_sound_alike(&self, tens: Number) -> Number {
        let digit = self.next(tens.end).and_then(|t| self.grammar.numbers.sound_alike(t.word));
        let round = tens.value.is_integer()
            && tens.value.numer() % 10 == 0
            && (20..=90).contains(&(tens.value.numer() % 100));
        let unit = self
            .next(tens.end + 1)
            .and_then(|_| self.grammar.unit_at(&self.tokens.list, tens.end + 1, false));
        match digit.filter(|d| (1..=9).contains(d)) {
            Some(digit) if round && unit.is_some() => {
                Number { value: tens.value + digit, end: tens.end + 1, ..tens }
            }
            _ => tens,
        }
    }

    /// A number in digits: `14`, `1,200`, `3.5`.
    pub(super) fn digits(&self, at: usize) -> Option<Number> {
        self.token(at)?;
        let said = self.tokens.said(at);
        if !said.contains(|c: char| c.is_ascii_digit()) {
            return None;
        }
        let (whole, parts) = said.split_once('.').unwrap_or((said, ""));
        let by_thousands = whole.split(',').skip(1).all(|group| group.len() == 3);
        let whole = whole.replace(',', "");
        if whole.len() + parts.len() > MOST_DIGITS || !by_thousands || parts.contains(',') {
            return None;
        }
        let scale = 10_i64.pow(parts.len() as u32);
        let value = Exact::new(format!("{whole}{parts}").parse::<i64>().ok()?, scale);
        let written = self.slashed(Number { value, end: at + 1, digits: true, run_on: false });
        Some(if self.is(written.end, self.grammar.classes.decimal_point) {
            self.with_fraction(written)
        } else {
            written
        })
    }

    /// `5/8`.
    fn slashed(&self, top: Number) -> Number {
        let bottom = self.slash(top.end).then(|| self.plain_digits(top.end + 1)).flatten();
        match bottom {
            Some(bottom) if bottom > 0 && top.value.is_integer() => {
                Number { value: top.value / bottom, end: top.end + 2, ..top }
            }
            _ => top,
        }
    }

    fn slash(&self, at: usize) -> bool {
        self.next(at).is_some() && self.mark_is(at, "/")
    }

    fn plain_digits(&self, at: usize) -> Option<i64> {
        self.next(at)?;
        self.tokens.said(at).parse().ok().filter(|n| *n < 1_000_000)
    }

    pub(super) fn small(&self, at: usize) -> Option<i64> {
        match self.word(at)? {
            NumberWord::Small(n) if n > 0 => Some(n),
            _ => None,
        }
    }

    /// "two dozen", "half a dozen", "a couple".
    pub(super) fn grouped(&self, number: Number) -> Number {
        let at = number.end + usize::from(self.is(number.end, self.grammar.classes.article));
        match self.next_word(at) {
            Some(NumberWord::Group(size)) if number.value <= Exact::from_integer(12) => {
                Number { value: number.value * size, end: at + 1, ..number }
            }
            _ => number,
        }
    }

    pub(super) fn article(&self, at: usize) -> bool {
        self.word_is(at, self.grammar.classes.article)
    }

    /// A whole number in words.
    fn words(&self, at: usize) -> Option<Number> {
        if self.article(at) {
            return match self.next_word(at + 1)? {
                NumberWord::Scale(100 | 1000) => self.machine(at + 1),
                NumberWord::Scale(_) => None, // "a million dents" is no count
                NumberWord::Group(size) => Some(whole(size, at + 2)),
                _ => None,
            };
        }
        match self.word(at)? {
            NumberWord::Group(size) => Some(whole(size, at + 1)),
            NumberWord::Small(_) | NumberWord::Tens(_) | NumberWord::Scale(_) => self.machine(at),
            NumberWord::Part(_) | NumberWord::Vague => None,
        }
    }

    fn machine(&self, at: usize) -> Option<Number> {
        let mut adder = Adder::default();
        let mut end = at;
        loop {
            let spoken_on = end == at || self.next(end).is_some();
            if spoken_on && self.word(end).or_else(|| self.oh(end)).is_some_and(|w| adder.take(w)) {
                end += 1;
            } else if self.is(end, self.grammar.classes.number_joint)
                && adder.may_join()
                && self.part(end + 1).is_none() // "a hundred and three quarters"
                && self.next_word(end + 1).is_some_and(|w| adder.take(w))
            {
                end += 2;
            } else {
                break;
            }
        }
        adder.value().map(|value| Number { run_on: adder.run_on, ..whole(value, end) })
    }

    /// "two oh five".
    fn oh(&self, at: usize) -> Option<NumberWord> {
        self.zero(at).filter(|_| self.next_word(at + 1).is_some())
    }

    /// The nought that is said like the letter.
    pub(super) fn zero(&self, at: usize) -> Option<NumberWord> {
        self.is(at, self.grammar.classes.spoken_nought).then_some(NumberWord::Small(0))
    }
}

fn whole(value: i64, end: usize) -> Number {
    Number { value: Exact::from_integer(value), end, digits: false, run_on: false }
}
