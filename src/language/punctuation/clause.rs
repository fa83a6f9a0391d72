//! What was said since the last break.

use super::chunks::{Chunk, Part};

/// A clause as far as it has come.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Clause {
    thing: bool,
    amount: bool,
    verdict: bool,
    verb: bool,
    words: usize,
}

impl Clause {
    /// Takes in the next chunk.
    pub fn take(&mut self, chunk: &Chunk) {
        match chunk.part {
            Part::Thing => self.thing = true,
            Part::Amount => self.amount = true,
            Part::Verdict => self.verdict = true,
            Part::Verb => self.verb = true,
            Part::Place | Part::Other => {}
        }
        self.words += chunk.end - chunk.first;
    }

    /// What is in it.
    pub fn holds(&self) -> &'static str {
        match (self.thing, self.amount, self.verdict, self.verb) {
            (false, false, false, false) => "{}",
            (false, false, false, true) => "{verb}",
            (true, false, false, false) => "{thing}",
            (true, false, false, true) => "{thing verb}",
            (false, true, false, false) => "{amount}",
            (false, true, false, true) => "{amount verb}",
            (true, true, false, false) => "{thing amount}",
            (true, true, false, true) => "{thing amount verb}",
            (false, false, true, _) => "{verdict}",
            (true, false, true, _) => "{thing verdict}",
            (false, true, true, _) => "{amount verdict}",
            (true, true, true, _) => "{thing amount verdict}",
        }
    }

    /// How long it is.
    pub fn length(&self) -> &'static str {
        match self.words {
            0..=1 => "1 word",
            2 => "2 words",
            3..=4 => "3 words",
            5..=7 => "5 words",
            8..=12 => "8 words",
            13..=20 => "13 words",
            _ => "21 words",
        }
    }
}
