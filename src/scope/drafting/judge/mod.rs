//! The judge: what the rules drafted and what the reader says of the same words become lines, each with the chance that
//! all of it is right.
//!
//! Rules and reader err in different places. Every field is weighed by itself, on named evidence with fitted weights
//! (`models/judge.json`); what is likeliest is written, the rival stands beside it, and what isn't sure is flagged. The
//! judge invents nothing: each value it chooses between was found in the words by one of the two.

mod beside;
mod fields;
mod groups;
mod lines;
mod once;
mod sure;
mod weights;
mod words;

pub(super) use beside::{cleared, dimensions, follow_ups};

use super::source::Source;
use crate::language::discourse::Span;
use crate::language::pieces::Pieces;
use crate::language::reader::{Anchor, Input, Number, Reading};
use crate::language::rules::Item;
use crate::model::{Area, Cleared, Line, Quantity};
use fields::Value;
use rustc_hash::FxHashMap;
use weights::Weights;

/// A line as the rules draft it.
#[derive(Debug)]
pub(super) struct RuleLine {
    /// The line.
    pub line: Line,
    /// The last word of the thing's name, counted from 0 over the transcript.
    pub at: usize,
}

/// What is judged.
pub(super) struct Judge<'a> {
    pub source: &'a Source<'a>,
    pub pieces: &'a Pieces,
    pub input: &'a Input,
    pub reading: &'a Reading,
    weights: &'static Weights,
    /// The first token of each of the transcript's words that has one.
    tokens: FxHashMap<usize, usize>,
    places: FxHashMap<&'a str, u16>,
}

/// What the judge makes of it.
pub(super) struct Judged {
    /// The lines, in the order said.
    pub lines: Vec<Line>,
    /// What the rules drafted and the judge takes for talk.
    pub dropped: Vec<Line>,
}

impl<'a> Judge<'a> {
    /// None where the weights can't be read.
    pub(super) fn new(
        source: &'a Source<'a>,
        pieces: &'a Pieces,
        input: &'a Input,
        reading: &'a Reading,
    ) -> Option<Self> {
        let mut tokens = FxHashMap::default();
        for (at, token) in pieces.tokens.list.iter().enumerate() {
            tokens.entry(token.heard as usize).or_insert(at);
        }
        let items = source.grammar.items.iter().enumerate();
        let places = items.map(|(place, item)| (item.id.as_str(), place as u16)).collect();
        Some(Self { source, pieces, input, reading, weights: weights::fitted()?, tokens, places })
    }

    /// The lines of what both say.
    pub(super) fn lines(&self, rules: &[RuleLine]) -> Judged {
        let value = |number| self.value(number);
        let place_of = |id: &str| self.place_of(id);
        let (mut lines, mut dropped) = (Vec::new(), Vec::new());
        for group in groups::groups(self.reading, rules, &value, &place_of) {
            let fields = fields::fields(self, &group);
            if fields.exists < self.weights.written {
                dropped.extend(group.rules.iter().map(|rule| rule.line.clone()));
                continue;
            }
            lines.extend(lines::lines(self, &group, &fields));
        }
        Judged { lines: sure::judged(once::lines(lines), self.weights), dropped }
    }

    /// Whether words stand in one of the lines.
    pub(super) fn holds(&self, words: &Cleared, lines: &[Line]) -> bool {
        let same_time =
            |line: &Line| words.start.is_some() && words.start >= line.start && words.end <= line.end;
        lines.iter().any(|line| {
            line.quote.contains(&words.quote) && (words.start.is_none() || same_time(line))
                || words.quote.contains(&line.said)
                    && words.item.is_some()
                    && words.item == line.item
                    && words.side == line.side
        })
    }

    /// The last anchor before a word.
    fn anchor_before(&self, word: usize) -> Option<&Anchor> {
        let behind = self.reading.anchors.partition_point(|anchor| anchor.at < word);
        behind.checked_sub(1).map(|at| &self.reading.anchors[at])
    }

    fn place_of(&self, id: &str) -> Option<u16> {
        self.places.get(id).copied()
    }

    fn item(&self, place: u16) -> &Item {
        &self.source.grammar.items[usize::from(place)]
    }

    fn area_of(&self, place: u16) -> Area {
        self.item(place).area
    }

    /// What a number comes to.
    fn value(&self, number: Number) -> Value {
        match number {
            Number::Unsaid => None,
            Number::One => Some(Quantity::of(1)),
            Number::Amount(n) => {
                let amount = &self.input.amounts.get(n)?.amount;
                Some(Quantity::between(amount.low, amount.high))
            }
        }
    }

    /// The tokens of a stretch of the transcript's words.
    fn span_of(&self, first: usize, last: usize) -> Option<Span> {
        let mut tokens = (first..=last).filter_map(|word| self.tokens.get(&word).copied());
        let first = tokens.next()?;
        let last_token = tokens.next_back().unwrap_or(first);
        Some(Span { first, end: last_token + 1 })
    }

    /// The tokens of the name that ends at a word; of the word alone where no name is known to.
    fn name_at(&self, at: usize) -> Span {
        let thing = self.input.things.iter().find(|thing| thing.last == at);
        let span =
            thing.and_then(|thing| self.span_of(thing.first, thing.last)).or_else(|| self.span_of(at, at));
        // A word without a token is a filler; the nearest token before it stands for it.
        span.unwrap_or_else(|| {
            let first = (0..at).rev().find_map(|word| self.tokens.get(&word).copied()).unwrap_or(0);
            Span { first, end: first + 1 }
        })
    }

    /// The transcript's word of a token.
    fn heard(&self, token: usize) -> usize {
        self.pieces.tokens.list[token].heard as usize
    }
}
