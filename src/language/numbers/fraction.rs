//! Parts of one: "half", "five eighths", "and a third", "point seventy five", `5 1/2`, `½`.

use super::Exact;
use super::spoken::{Number, Speaker};
use crate::language::rules::NumberWord;
use crate::language::tokens::Break;

/// Fractions in one character.
const VULGAR: &[(&str, (i64, i64))] = &[
    ("½", (1, 2)),
    ("⅓", (1, 3)),
    ("⅔", (2, 3)),
    ("¼", (1, 4)),
    ("¾", (3, 4)),
    ("⅙", (1, 6)),
    ("⅚", (5, 6)),
    ("⅛", (1, 8)),
    ("⅜", (3, 8)),
    ("⅝", (5, 8)),
    ("⅞", (7, 8)),
];

impl Speaker<'_> {
    /// "it's point six of a square": a decimal without its nought. "At that point two" is none.
    pub(super) fn led_by_point(&self, at: usize) -> Option<Number> {
        let classes = &self.grammar.classes;
        let verb = |at: usize| self.word_is(at, classes.be) || self.word_is(at, classes.have);
        let starts = self.next(at).is_none() || at.checked_sub(1).is_some_and(verb);
        if !starts || !self.word_is(at, classes.decimal_point) {
            return None;
        }
        let number = self.next(at + 1).and_then(|_| self.decimals(at + 1))?;
        let measured = self.closes_fraction(number.end) || self.unit(number.end);
        (measured || number.end > at + 2).then_some(number)
    }

    /// "half", "half a", "a half", "three quarters", "five eighths", `½`.
    pub(super) fn part(&self, at: usize) -> Option<Number> {
        if let Some(vulgar) = self.vulgar(at) {
            return Some(vulgar);
        }
        let article = self.article(at);
        if let Some(NumberWord::Part(part)) = if article { self.next_word(at + 1) } else { self.word(at) } {
            let end = at + 1 + usize::from(article);
            if part != 2 && part != 4 {
                return None; // "the third light"
            }
            return Some(Number { value: Exact::new(1, part), end, digits: false, run_on: false });
        }
        let count = self.small(at)?;
        match self.next_word(at + 1)? {
            NumberWord::Part(part)
                if (part > 2 || count == 1) && count < 2 * part && self.is_fraction(at + 1, part) =>
            {
                Some(Number { value: Exact::new(count, part), end: at + 2, digits: false, run_on: false })
            }
            _ => None,
        }
    }

    /// "two thirds", "five eighth plywood", but not "two third floor windows": only the parts on a tape are said
    /// without their plural before anything but a unit.
    fn is_fraction(&self, at: usize, part: i64) -> bool {
        let tape = part.count_ones() == 1;
        tape || self.is_plural(at) || self.closes_fraction(at + 1)
    }

    /// Whether the part at a token is one of several: "sixteenths".
    pub(super) fn is_plural(&self, at: usize) -> bool {
        self.tokens.said(at).ends_with(['s', 'S'])
    }

    /// Whether a fraction may end here: before a unit that work is measured in, before "of", where nothing follows.
    fn closes_fraction(&self, at: usize) -> bool {
        let unit = || self.grammar.unit_at(&self.tokens.list, at, false).is_some_and(|u| u.0.is_some());
        self.next(at).is_none() || self.is(at, self.grammar.classes.of_joint) || unit()
    }

    /// "and a third" behind a whole number.
    pub(super) fn one_part(&self, at: usize) -> Option<Number> {
        let Some(NumberWord::Part(part)) = self.next_word(at + 1).filter(|_| self.article(at)) else {
            return None;
        };
        self.closes_fraction(at + 2).then(|| Number {
            value: Exact::new(1, part),
            end: at + 2,
            digits: false,
            run_on: false,
        })
    }

    /// "five and a half", "forty one and three quarters", `5 1/2`, "two point five".
    pub(super) fn with_fraction(&self, whole: Number) -> Number {
        if !whole.value.is_integer() {
            return whole;
        }
        let (at, classes) = (whole.end, &self.grammar.classes);
        let fraction = if self.is(at, classes.number_joint) || self.part_after_comma(at) {
            self.next(at + 1).and_then(|_| {
                self.part(at + 1).or_else(|| self.one_part(at + 1)).or_else(|| self.digit_fraction(at + 1))
            })
        } else if self.is(at, classes.decimal_point) {
            self.decimals(at + 1)
        } else {
            self.next(at).and_then(|_| self.glued_fraction(at, whole.digits))
        };
        match fraction {
            Some(part) if part.value < Exact::from_integer(1) => {
                Number { value: whole.value + part.value, end: part.end, ..whole }
            }
            _ => whole,
        }
    }

    /// "two, and a quarter": a recogniser hears a comma where a breath was taken.
    fn part_after_comma(&self, and: usize) -> bool {
        let comma = self.token(and).is_some_and(|t| t.before == Break::Comma);
        comma
            && self.word_is(and, self.grammar.classes.number_joint)
            && self.is(and + 1, self.grammar.classes.article)
            && self.one_part(and + 1).is_some()
    }

    /// A fraction right behind the whole number: `5 1/2`, `5½`.
    fn glued_fraction(&self, at: usize, digits: bool) -> Option<Number> {
        self.vulgar(at).or_else(|| if digits { self.digit_fraction(at) } else { None })
    }

    /// `½`: a fraction in one character.
    fn vulgar(&self, at: usize) -> Option<Number> {
        self.token(at)?;
        let (top, bottom) = VULGAR.iter().find(|v| v.0 == self.tokens.said(at))?.1;
        Some(Number { value: Exact::new(top, bottom), end: at + 1, digits: true, run_on: false })
    }

    fn digit_fraction(&self, at: usize) -> Option<Number> {
        self.digits(at).filter(|n| n.end == at + 3 && n.value < Exact::from_integer(1))
    }

    /// "point two five", "point oh five", "point seventy five".
    fn decimals(&self, at: usize) -> Option<Number> {
        if let Some(written) = self.hundredths(at).or_else(|| self.written_decimals(at)) {
            return Some(written);
        }
        let mut value = Exact::from_integer(0);
        let mut scale = 10;
        let mut end = at;
        while let Some(NumberWord::Small(digit @ 0..=9)) = self.next_word(end).or_else(|| self.zero(end))
            && scale <= 1_000_000
        {
            value += Exact::new(digit, scale);
            scale *= 10;
            end += 1;
        }
        (end > at).then_some(Number { value, end, digits: false, run_on: false })
    }

    /// The "5" of "8 point 5".
    fn written_decimals(&self, at: usize) -> Option<Number> {
        let spoken_on = self.next(at).is_some();
        let said = self.tokens.list.get(at).filter(|_| spoken_on).map(|_| self.tokens.said(at))?;
        let plain = (1..=3).contains(&said.len()) && said.bytes().all(|b| b.is_ascii_digit());
        let value = Exact::new(said.parse::<i64>().ok().filter(|_| plain)?, 10_i64.pow(said.len() as u32));
        Some(Number { value, end: at + 1, digits: true, run_on: false })
    }

    /// The "seventy five" of "point seventy five".
    fn hundredths(&self, at: usize) -> Option<Number> {
        let (value, end) = match (self.next_word(at)?, self.next_word(at + 1)) {
            (NumberWord::Tens(tens), Some(NumberWord::Small(digit @ 1..=9))) => (tens + digit, at + 2),
            (NumberWord::Tens(two) | NumberWord::Small(two @ 10..=19), _) => (two, at + 1),
            _ => return None,
        };
        Some(Number { value: Exact::new(value, 100), end, digits: false, run_on: false })
    }
}
