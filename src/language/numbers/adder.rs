//! The adding machine: number words are put in one after the other, and it refuses what nobody would say.

use crate::language::rules::NumberWord;

/// The sum so far.
#[derive(Default)]
pub(super) struct Adder {
    /// What was said of thousands and more.
    above: i64,
    /// The smallest scale of `above`.
    scale: i64,
    /// What was said since.
    below: Option<i64>,
    last: Last,
    /// "one ten" for 110 was said: also one of ten.
    pub run_on: bool,
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
    pub fn take(&mut self, word: NumberWord) -> bool {
        let step = match word {
            NumberWord::Small(n) => self.small(n),
            NumberWord::Tens(n) => self.tens(n),
            NumberWord::Scale(100) => self.hundred(),
            NumberWord::Scale(scale) => self.thousands(scale),
            NumberWord::Group(_) | NumberWord::Part(_) | NumberWord::Vague => None,
        };
        let Some((value, last)) = step else { return false };
        if last == Last::Thousand {
            self.above += self.said_below().max(1) * self.scale;
        }
        self.run_on |= matches!(last, Last::RunOn | Last::Tens) && self.last == Last::Digit;
        self.below = Some(value);
        self.last = last;
        true
    }

    fn said_below(&self) -> i64 {
        self.below.unwrap_or(0)
    }

    /// Whether nothing but a digit was said.
    fn is_digit(&self) -> bool {
        self.last == Last::Digit && self.said_below() < 10 && self.above == 0
    }

    /// Whether a number below a hundred may begin.
    fn is_open(&self) -> bool {
        matches!(self.last, Last::Nothing | Last::Hundred | Last::Thousand)
    }

    fn small(&self, n: i64) -> Option<(i64, Last)> {
        let below = self.said_below();
        match (n, self.last) {
            (0, Last::Digit) if self.above == 0 => Some((below * 100, Last::Oh)),
            (1..=9, Last::Oh | Last::Tens) => Some((below + n, Last::RunOn)),
            (10..=19, _) if self.is_digit() => Some((below * 100 + n, Last::RunOn)),
            (..10, _) if self.is_open() => Some((below + n, Last::Digit)),
            (_, _) if self.is_open() => Some((below + n, Last::Teen)),
            _ => None,
        }
    }

    fn tens(&self, n: i64) -> Option<(i64, Last)> {
        let below = self.said_below();
        if self.is_digit() {
            return Some((below * 100 + n, Last::Tens));
        }
        self.is_open().then_some((below + n, Last::Tens))
    }

    fn hundred(&self) -> Option<(i64, Last)> {
        let below = self.said_below();
        (self.last != Last::Hundred && below < 100).then_some((below.max(1) * 100, Last::Hundred))
    }

    fn thousands(&mut self, scale: i64) -> Option<(i64, Last)> {
        let smaller = self.above == 0 || scale < self.scale;
        if scale < 1000 || self.last == Last::Thousand || !smaller {
            return None;
        }
        self.scale = scale;
        Some((0, Last::Thousand))
    }

    /// Whether "and" may join what follows: "a hundred and ten".
    pub fn may_join(&self) -> bool {
        matches!(self.last, Last::Hundred | Last::Thousand)
    }

    /// The number, unless it breaks off: "two oh".
    pub fn value(&self) -> Option<i64> {
        self.below.filter(|_| self.last != Last::Oh).map(|b| self.above + b)
    }
}
