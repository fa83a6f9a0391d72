//! Number words and digits into exact numbers. Number words run like steps on an adding machine that refuses
//! what nobody would say: "twenty five" goes on, "five twenty five" stops, "sixty fifteen" is two numbers.

use super::Exact;
use crate::grammar::{Grammar, NumberWord};
use crate::tokens::{Break, Token, Tokens};

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
    fn token(&self, at: usize) -> Option<&'a Token> {
        self.tokens.list.get(at)
    }

    /// The token at `at`, if it is spoken on from the one before.
    fn next(&self, at: usize) -> Option<&'a Token> {
        self.token(at).filter(|t| t.before == Break::None)
    }

    fn is(&self, at: usize, word: &str) -> bool {
        self.next(at).is_some_and(|t| self.grammar.vocabulary.word(t.word) == word)
    }

    fn word(&self, at: usize) -> Option<NumberWord> {
        self.grammar.numbers.get(self.token(at)?.word)
    }

    fn next_word(&self, at: usize) -> Option<NumberWord> {
        self.next(at).and_then(|_| self.word(at))
    }

    /// The number that begins at a token, with its fraction.
    pub fn number(&self, at: usize) -> Option<Number> {
        if let Some(part) = self.part(at) {
            return Some(self.grouped(part));
        }
        let whole = self.digits(at).or_else(|| self.words(at))?;
        Some(self.with_fraction(self.grouped(self.with_sound_alike(whole))))
    }

    /// "thirty for foot": a digit heard as a word of the same sound.
    fn with_sound_alike(&self, tens: Number) -> Number {
        let digit = self.next(tens.end).and_then(|t| self.grammar.numbers.sound_alike(t.word));
        let round = tens.value.is_integer()
            && tens.value.numer() % 10 == 0
            && (20..=90).contains(&(tens.value.numer() % 100));
        let unit = self
            .next(tens.end + 1)
            .and_then(|_| self.grammar.unit_at(&self.tokens.list, tens.end + 1, false));
        match digit.filter(|d| (1..=9).contains(d)) {
            Some(digit) if round && !tens.digits && unit.is_some() => {
                Number { value: tens.value + digit, end: tens.end + 1, ..tens }
            }
            _ => tens,
        }
    }

    /// A number in digits: `14`, `1,200`, `3.5`.
    fn digits(&self, at: usize) -> Option<Number> {
        self.token(at)?;
        let said = self.tokens.said(at);
        if !said.starts_with(|c: char| c.is_ascii_digit()) {
            return None;
        }
        let (whole, parts) = said.split_once('.').unwrap_or((said, ""));
        let whole = whole.replace(',', "");
        if whole.len() + parts.len() > MOST_DIGITS || parts.contains(',') {
            return None;
        }
        let scale = 10_i64.pow(parts.len() as u32);
        let value = Exact::new(format!("{whole}{parts}").parse().ok()?, scale);
        Some(self.slashed(Number { value, end: at + 1, digits: true, run_on: false }))
    }

    /// `5/8`.
    fn slashed(&self, top: Number) -> Number {
        let bottom = self.is(top.end, "/").then(|| self.plain_digits(top.end + 1)).flatten();
        match bottom {
            Some(bottom) if bottom > 0 && top.value.is_integer() => {
                Number { value: top.value / bottom, end: top.end + 2, ..top }
            }
            _ => top,
        }
    }

    fn plain_digits(&self, at: usize) -> Option<i64> {
        self.next(at)?;
        self.tokens.said(at).parse().ok().filter(|n| *n < 1_000_000)
    }

    /// "half", "half a", "a half", "three quarters", "five eighths", `½`.
    fn part(&self, at: usize) -> Option<Number> {
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
            NumberWord::Part(part) if part > 2 && count < 2 * part => {
                Some(Number { value: Exact::new(count, part), end: at + 2, digits: false, run_on: false })
            }
            _ => None,
        }
    }

    fn small(&self, at: usize) -> Option<i64> {
        match self.word(at)? {
            NumberWord::Small(n) if n > 0 => Some(n),
            _ => None,
        }
    }

    /// "two dozen", "half a dozen", "a couple".
    fn grouped(&self, number: Number) -> Number {
        let at = number.end + usize::from(self.is(number.end, "a"));
        match self.next_word(at) {
            Some(NumberWord::Group(size)) if number.value <= Exact::from_integer(12) => {
                Number { value: number.value * size, end: at + 1, ..number }
            }
            _ => number,
        }
    }

    /// "five and a half", "forty one and three quarters", `5 1/2`, "two point five".
    fn with_fraction(&self, whole: Number) -> Number {
        if !whole.value.is_integer() {
            return whole;
        }
        let at = whole.end;
        let fraction = if self.is(at, "and") || self.is(at, "&") {
            self.next(at + 1).and_then(|_| self.part(at + 1).or_else(|| self.digit_fraction(at + 1)))
        } else if self.is(at, "point") {
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

    /// A fraction right behind the whole number: `5 1/2`, `5½`.
    fn glued_fraction(&self, at: usize, digits: bool) -> Option<Number> {
        let mark = matches!(self.tokens.said(at), "½" | "¼" | "¾");
        if mark {
            return self.part(at).or_else(|| self.three_quarters(at));
        }
        if digits { self.digit_fraction(at) } else { None }
    }

    fn three_quarters(&self, at: usize) -> Option<Number> {
        (self.tokens.said(at) == "¾").then(|| Number {
            value: Exact::new(3, 4),
            end: at + 1,
            digits: true,
            run_on: false,
        })
    }

    fn digit_fraction(&self, at: usize) -> Option<Number> {
        self.digits(at).filter(|n| n.end == at + 3 && n.value < Exact::from_integer(1))
    }

    /// "point two five".
    fn decimals(&self, at: usize) -> Option<Number> {
        let mut value = Exact::from_integer(0);
        let mut scale = 10;
        let mut end = at;
        while let Some(NumberWord::Small(digit @ 0..=9)) = self.next_word(end)
            && scale <= 1_000_000
        {
            value += Exact::new(digit, scale);
            scale *= 10;
            end += 1;
        }
        (end > at).then_some(Number { value, end, digits: false, run_on: false })
    }

    fn article(&self, at: usize) -> bool {
        self.token(at).is_some_and(|t| self.grammar.vocabulary.word(t.word) == "a")
    }

    /// A whole number in words.
    fn words(&self, at: usize) -> Option<Number> {
        if self.article(at) {
            return match self.next_word(at + 1)? {
                NumberWord::Scale(_) => self.machine(at + 1),
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
            } else if self.is(end, "and")
                && adder.may_join()
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
        self.is(at, "oh").then_some(NumberWord::Small(0)).filter(|_| self.next_word(at + 1).is_some())
    }
}

fn whole(value: i64, end: usize) -> Number {
    Number { value: Exact::from_integer(value), end, digits: false, run_on: false }
}

/// The adding machine.
#[derive(Default)]
struct Adder {
    thousands: i64,
    below: Option<i64>,
    last: Last,
    run_on: bool,
}

/// The kind of word that was added last.
#[derive(Default, Clone, Copy, PartialEq)]
enum Last {
    #[default]
    Nothing,
    Digit,
    Teen,
    Tens,
    Hundred,
    Thousand,
    /// "two oh": only a digit may follow.
    Oh,
    /// "one ten": nothing may follow but a digit behind tens.
    RunOn,
}

impl Adder {
    /// Adds a word; false, with nothing changed, where it can't follow.
    fn take(&mut self, word: NumberWord) -> bool {
        let below = self.below.unwrap_or(0);
        let (value, last) = match (word, self.last) {
            (NumberWord::Small(0), Last::Digit) if self.thousands == 0 => (below * 100, Last::Oh),
            (NumberWord::Small(n @ 1..=9), Last::Oh) => (below + n, Last::RunOn),
            (NumberWord::Small(n), Last::Nothing | Last::Hundred | Last::Thousand) => {
                (below + n, if n < 10 { Last::Digit } else { Last::Teen })
            }
            (NumberWord::Small(n @ 1..=9), Last::Tens) => (below + n, Last::RunOn),
            (NumberWord::Small(n @ 10..=19), Last::Digit) if below < 10 && self.thousands == 0 => {
                (below * 100 + n, Last::RunOn)
            }
            (NumberWord::Tens(n), Last::Digit) if below < 10 && self.thousands == 0 => {
                self.run_on = true;
                (below * 100 + n, Last::Tens)
            }
            (NumberWord::Tens(n), Last::Nothing | Last::Hundred | Last::Thousand) => (below + n, Last::Tens),
            (NumberWord::Scale(100), last) if last != Last::Hundred && below < 100 => {
                (below.max(1) * 100, Last::Hundred)
            }
            (NumberWord::Scale(1000), last) if last != Last::Thousand && self.thousands == 0 => {
                self.thousands = below.max(1) * 1000;
                (0, Last::Thousand)
            }
            _ => return false,
        };
        self.run_on |= last == Last::RunOn && self.last == Last::Digit;
        self.below = Some(value);
        self.last = last;
        true
    }

    /// Whether "and" may join what follows: "a hundred and ten".
    fn may_join(&self) -> bool {
        matches!(self.last, Last::Hundred | Last::Thousand)
    }

    fn value(&self) -> Option<i64> {
        self.below.filter(|_| self.last != Last::Oh).map(|b| self.thousands + b)
    }
}
