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
        let below = self.below.unwrap_or(0);
        let (value, last) = match (word, self.last) {
            (NumberWord::Small(0), Last::Digit) if self.above == 0 => (below * 100, Last::Oh),
            (NumberWord::Small(n @ 1..=9), Last::Oh) => (below + n, Last::RunOn),
            (NumberWord::Small(n), Last::Nothing | Last::Hundred | Last::Thousand) => {
                (below + n, if n < 10 { Last::Digit } else { Last::Teen })
            }
            (NumberWord::Small(n @ 1..=9), Last::Tens) => (below + n, Last::RunOn),
            (NumberWord::Small(n @ 10..=19), Last::Digit) if below < 10 && self.above == 0 => {
                (below * 100 + n, Last::RunOn)
            }
            (NumberWord::Tens(n), Last::Digit) if below < 10 && self.above == 0 => {
                self.run_on = true;
                (below * 100 + n, Last::Tens)
            }
            (NumberWord::Tens(n), Last::Nothing | Last::Hundred | Last::Thousand) => (below + n, Last::Tens),
            (NumberWord::Scale(100), last) if last != Last::Hundred && below < 100 => {
                (below.max(1) * 100, Last::Hundred)
            }
            (NumberWord::Scale(scale @ 1000..), last)
                if last != Last::Thousand && (self.above == 0 || scale < self.scale) =>
            {
                self.above += below.max(1) * scale;
                self.scale = scale;
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
    pub fn may_join(&self) -> bool {
        matches!(self.last, Last::Hundred | Last::Thousand)
    }

    /// The number, unless it breaks off: "two oh".
    pub fn value(&self) -> Option<i64> {
        self.below.filter(|_| self.last != Last::Oh).map(|b| self.above + b)
    }
}
