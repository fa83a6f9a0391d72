//! How steep a roof is: "six in twelve", "a six twelve pitch", `6/12`, "a quarter pitch".

use super::Exact;
use super::length::Measure;
use super::spoken::Speaker;
use crate::language::tokens::Break;
use crate::language::vocabulary::ClassId;

/// A slope as it was said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SlopeSaid {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// Inches of rise in twelve of run.
    pub inches: Exact,
}

/// The run that a rise is told over, in inches.
const RUN: i64 = 12;

/// Steeper than this, in inches of rise, is no roof.
const STEEPEST: i64 = 24;

/// How many words may stand between "the pitch" and its number: "the pitch looks to be about a six".
const BETWEEN: usize = 5;

impl Speaker<'_> {
    /// The slope that a number at a token tells; none where it tells something else.
    pub(super) fn slope(&self, at: usize, measure: &Measure) -> Option<SlopeSaid> {
        if measure.slope {
            if self.counts_on(measure.end) {
                return None;
            }
            let inches = self.inches(at, measure)?;
            return Some(SlopeSaid { first: at, end: measure.end, inches });
        }
        if measure.unit.is_some() || measure.foreign {
            return None;
        }
        let inches = self.inches(at, measure)?;
        let over = self.spoken_at(measure.end).and_then(|end| self.number(end));
        let over = over.filter(|run| run.value == Exact::from_integer(RUN));
        // "the slope is eight twelve", but "the slope is forty along the eave" and "the slope is half gone".
        let with_run = over.is_some()
            || measure.number.value > Exact::from_integer(100)
            || self.twelfths(at, measure.number.end).is_some();
        let first = self
            .told_of(self.grammar.classes.pitch_word, at)
            .or_else(|| self.told_of(self.grammar.classes.slope_word, at).filter(|_| with_run))?;
        Some(SlopeSaid { first, end: over.map_or(measure.end, |run| run.end), inches })
    }

    /// A rise in twelve, however it was written down: `6`, `612` for "six twelve", `6/12`; or a pitch, which is the rise
    /// over the whole span: a quarter is six in twelve (US Army Engineer School EN5156, Table Method 2).
    fn inches(&self, at: usize, measure: &Measure) -> Option<Exact> {
        let (told, hundred) = (measure.number.value, Exact::from_integer(100));
        let inches = if told < Exact::from_integer(1) {
            self.twelfths(at, measure.number.end).unwrap_or(told * (2 * RUN))
        } else if told > hundred && told % hundred == Exact::from_integer(RUN) {
            (told / hundred).floor()
        } else {
            told
        };
        (inches > Exact::from_integer(0) && inches <= Exact::from_integer(STEEPEST)).then_some(inches)
    }

    /// The upper number of `6/12`, which is no half.
    fn twelfths(&self, at: usize, end: usize) -> Option<Exact> {
        let tokens = self.tokens.list.get(at..end)?;
        let written = self.tokens.text.get(tokens.first()?.text.start..tokens.last()?.text.end)?;
        let (rise, run) = written.split_once('/')?;
        let rise: i64 = rise.trim().parse().ok()?;
        (run.trim().parse() == Ok(RUN)).then(|| Exact::from_integer(rise))
    }

    /// The word that a number is told of: "the pitch is about six twelve".
    fn told_of(&self, named: ClassId, at: usize) -> Option<usize> {
        let first = at.saturating_sub(BETWEEN + 1);
        let pitch = (first..at).rev().find(|n| self.word_is(*n, named))?;
        let together = (pitch + 1..=at).all(|n| self.tokens.list[n].before < Break::Sentence);
        let told = (pitch + 1..at).all(|n| self.word_is(n, self.grammar.classes.before_pitch));
        (together && told).then_some(pitch)
    }

    /// Whether the twelve before a token goes on to count something: "eight in twelve inch boards", "two in twelve of them".
    fn counts_on(&self, at: usize) -> bool {
        self.is(at, self.grammar.classes.of_joint) || self.unit(at)
    }

    fn spoken_at(&self, at: usize) -> Option<usize> {
        self.tokens.list.get(at).filter(|token| token.before < Break::Sentence).map(|_| at)
    }
}
