//! Feet with inches behind them, said as they are said: "six foot six", "eight foot four and a half inches",
//! `6' 6"`, "a foot and a half", "a square and a half".

use super::Exact;
use super::spoken::{Number, Speaker};
use crate::language::rules::NumberWord;
use crate::language::tokens::Break;
use crate::model::Unit;

/// A number with its unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Measure {
    pub value: Exact,
    /// None: no unit was said.
    pub unit: Option<Unit>,
    /// What is counted is no quantity of work: minutes, dollars.
    pub foreign: bool,
    /// Said of how steep a roof is: "six in twelve".
    pub slope: bool,
    pub end: usize,
    pub number: Number,
}

impl<'a> Speaker<'a> {
    /// A number, the unit behind it, and the inches behind feet.
    pub(super) fn measure(&self, at: usize, item_at: &dyn Fn(usize) -> bool) -> Option<Measure> {
        let mut number = self
            .number(at)
            .or_else(|| self.article_before_unit(at))
            .or_else(|| self.unit_alone(at))
            .or_else(|| self.one_part(at).filter(|n| self.unit_of_part(n.end) > n.end))?;
        if number.value < Exact::from_integer(1) {
            number.end = self.unit_of_part(number.end);
        }
        number.end += usize::from(self.is(number.end, self.grammar.classes.rough_ending)); // forty-ish feet
        let mut found = Measure {
            value: number.value,
            unit: None,
            foreign: false,
            slope: false,
            end: number.end,
            number,
        };
        if let Some(end) = self.ordinal(&number).or_else(|| self.year(&number)) {
            return Some(Measure { foreign: true, end, ..found });
        }
        if number.end > at && !self.spoken_on(number.end) || item_at(number.end) {
            return Some(found); // "three box vents" are no boxes
        }
        let Some((unit, end)) = self.grammar.unit_at(&self.tokens.list, number.end, number.digits) else {
            if self.off_the_tape(at) {
                self.add_bare_inches(&mut found, item_at);
            }
            return Some(found);
        };
        found.unit = unit;
        found.foreign = unit.is_none();
        found.slope = self.grammar.rise_at(&self.tokens.list, number.end, number.digits);
        found.end = end;
        if unit == Some(Unit::Foot) {
            self.add_inches(&mut found, item_at);
        }
        self.add_part(&mut found);
        Some(found)
    }

    /// Where the unit stands that a part is of: "half a square", "three quarters of an inch".
    fn unit_of_part(&self, at: usize) -> usize {
        let article = at + usize::from(self.is(at, self.grammar.classes.of_joint));
        if self.article_before_unit(article).is_some() { article + 1 } else { at }
    }

    /// "inch and a half": one, where a part is said behind it.
    fn unit_alone(&self, at: usize) -> Option<Number> {
        let classes = &self.grammar.classes;
        let unit = self.word_is(at, classes.lone_unit) && (1..3).all(|n| self.spoken_on(at + n));
        let part = self.word_is(at + 1, classes.number_joint)
            && self.word_is(at + 2, classes.article)
            && matches!(self.word(at + 3), Some(NumberWord::Part(2 | 4)));
        let lone = at == 0 || self.grammar.numbers.get(self.tokens.list[at - 1].word).is_none();
        (unit && part && lone).then_some(Number {
            value: Exact::from_integer(1),
            end: at,
            digits: false,
            run_on: false,
        })
    }

    /// "a square", "a foot": one.
    fn article_before_unit(&self, at: usize) -> Option<Number> {
        if !self.word_is(at, self.grammar.classes.unit_opener) || !self.spoken_on(at + 1) {
            return None;
        }
        self.grammar.unit_at(&self.tokens.list, at + 1, false)?.0?;
        Some(Number { value: Exact::from_integer(1), end: at + 1, digits: false, run_on: false })
    }

    fn spoken_on(&self, at: usize) -> bool {
        self.next(at).is_some()
    }

    /// A number under twelve behind feet is inches, unless it counts or measures something else.
    fn add_inches(&self, found: &mut Measure, item_at: &dyn Fn(usize) -> bool) {
        let together = self.tokens.list.get(found.end).is_some_and(|t| t.before < Break::Sentence);
        if !together {
            return;
        }
        let and = self.is(found.end, self.grammar.classes.number_joint);
        let at = found.end + usize::from(and);
        let Some(inches) = self.number(at).filter(|n| n.value < Exact::from_integer(12)) else {
            return;
        };
        let unit = self
            .grammar
            .unit_at(&self.tokens.list, inches.end, inches.digits)
            .filter(|_| self.spoken_on(inches.end));
        let end = match unit {
            Some((Some(Unit::Inch), end)) if !self.spoken_on(end) || !item_at(end) => end,
            Some(_) => return,
            None if and => return, // "ten feet and two screens"
            None if !self.spoken_on(found.end) => return,
            None if (item_at(inches.end) && self.spoken_on(inches.end))
                || (self.counts(inches.end) && !item_at(inches.end + 1)) =>
            {
                return;
            }
            None => inches.end,
        };
        found.value += inches.value / 12;
        found.end = end;
    }

    /// Whether the number before `at` counts something named behind it: "two of them", "more".
    fn counts(&self, at: usize) -> bool {
        let classes = &self.grammar.classes;
        if self.is(at, classes.of_joint) {
            return self.word_is(at + 1, classes.pronoun) && !self.word_is(at + 1, classes.single_pronoun);
        }
        self.is(at, classes.count_tail)
    }

    /// "tape says thirty eight four": feet and inches without their names.
    fn off_the_tape(&self, at: usize) -> bool {
        let classes = &self.grammar.classes;
        let before = |n: usize, class| at.checked_sub(n).is_some_and(|at| self.word_is(at, class));
        (before(1, classes.tape_verb) || before(1, classes.tape_word))
            && (1..=3).any(|n| before(n, classes.tape_word))
    }

    fn add_bare_inches(&self, found: &mut Measure, item_at: &dyn Fn(usize) -> bool) {
        let inches = self.number(found.end).filter(|n| n.value < Exact::from_integer(12) && !item_at(n.end));
        if let Some(inches) = inches {
            found.value += inches.value / 12;
            found.end = inches.end;
        }
        found.unit = Some(Unit::Foot);
    }

    /// "a square and a half".
    fn add_part(&self, found: &mut Measure) {
        if self.is(found.end, self.grammar.classes.number_joint)
            && let Some(part) = self.number(found.end + 1).filter(|n| n.value < Exact::from_integer(1))
        {
            found.value += part.value;
            found.end = part.end;
        }
    }
}
