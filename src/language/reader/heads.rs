//! What is asked of each word, of each anchor and of each part, and the network's answers to it.

use super::input::{Input, ToldAmount};
use super::network::{Dense, Rows, gelu};
use super::pointer::{Between, Candidates, Pointer};
use super::weights::{ReaderError, Weights};

/// How far before and behind an anchor its number and the thing it stands for may be, in words.
const BEFORE: usize = 150;
const BEHIND: usize = 80;

/// How far behind an anchor its building may be named.
const STRUCTURE_BEHIND: usize = 15;

/// How far from a part the thing it is about may be named, and its lengths told.
const PART_THING_BEFORE: usize = 80;
const PART_NEAR: usize = 40;

/// Asked of each word.
pub(super) struct WordHeads {
    pub status: Dense,
    pub tags: Dense,
    pub moves: Dense,
    pub stays: Dense,
}

impl WordHeads {
    pub fn new(weights: &Weights, width: usize) -> Result<Self, ReaderError> {
        let dense = |name: &str| Dense::new(weights, name, width);
        Ok(Self {
            status: dense("status")?,
            tags: dense("tags")?,
            moves: dense("move")?,
            stays: dense("stay")?,
        })
    }
}

/// Asked of each anchor.
pub(super) struct AnchorHeads {
    join: Dense,
    works: Dense,
    unit: Dense,
    yes: Dense,
    item: Dense,
    own_side: Dense,
    number: Pointer,
    size: Pointer,
    antecedent: Pointer,
    structure: Pointer,
}

/// The answers about anchors: odds, a row an anchor.
pub(super) struct AnchorOdds {
    pub works: Rows,
    pub unit: Rows,
    pub yes: Rows,
    pub item: Rows,
    pub own_side: Rows,
    pub number: Vec<Vec<f32>>,
    pub size: Vec<Vec<f32>>,
    pub antecedent: Vec<Vec<f32>>,
    pub structure: Vec<Vec<f32>>,
}

impl AnchorHeads {
    pub fn new(weights: &Weights, width: usize) -> Result<Self, ReaderError> {
        let join = Dense::new(weights, "join.0", 2 * width)?;
        let inner = join.outputs();
        let dense = |name: &str| Dense::new(weights, name, inner);
        let pointer = |name: &str| Pointer::new(weights, name, inner, width);
        Ok(Self {
            join,
            works: dense("works")?,
            unit: dense("unit")?,
            yes: dense("yes")?,
            item: dense("item")?,
            own_side: dense("own_side")?,
            number: pointer("number")?,
            size: pointer("size")?,
            antecedent: pointer("antecedent")?,
            structure: pointer("structure")?,
        })
    }

    pub fn of(&self, words: &Rows, spans: &Spans, near: &Near) -> AnchorOdds {
        let places = near.anchors.iter().flat_map(|at| [*at, at.saturating_sub(1)]);
        let pairs = Rows { width: 2 * words.width, ..words.gather(places) };
        let told = self.join.rows(&pairs).each(gelu);
        let Spans { amounts, things, structures } = spans;
        AnchorOdds {
            works: self.works.rows(&told),
            unit: self.unit.rows(&told),
            yes: self.yes.rows(&told),
            item: self.item.rows(&told),
            own_side: self.own_side.rows(&told),
            number: self.number.odds(&told, amounts, &near.numbers),
            size: self.size.odds(&told, amounts, &near.numbers),
            antecedent: self.antecedent.odds(&told, things, &near.things),
            structure: self.structure.odds(&told, structures, &near.structures),
        }
    }
}

/// Asked of each part.
pub(super) struct PartHeads {
    part: Dense,
    side: Dense,
    item: Pointer,
    wide: Pointer,
    high: Pointer,
}

/// The answers about parts.
pub(super) struct PartOdds {
    pub side: Rows,
    pub item: Vec<Vec<f32>>,
    pub wide: Vec<Vec<f32>>,
    pub high: Vec<Vec<f32>>,
}

impl PartHeads {
    pub fn new(weights: &Weights, width: usize) -> Result<Self, ReaderError> {
        let part = Dense::new(weights, "part.0", width)?;
        let inner = part.outputs();
        Ok(Self {
            side: Dense::new(weights, "part_side", inner)?,
            item: Pointer::new(weights, "part_item", inner, width)?,
            wide: Pointer::new(weights, "wide", inner, 2 * width)?,
            high: Pointer::new(weights, "high", inner, 2 * width)?,
            part,
        })
    }

    pub fn of(&self, words: &Rows, spans: &Spans, near: &NearParts) -> PartOdds {
        let told = self.part.rows(&words.means(near.parts.iter().copied())).each(gelu);
        let lengths = doubled(&spans.amounts);
        PartOdds {
            side: self.side.rows(&told),
            item: self.item.odds(&told, &spans.things, &near.things),
            wide: self.wide.odds(&told, &lengths, &near.lengths),
            high: self.high.odds(&told, &lengths, &near.lengths),
        }
    }
}

/// Each amount twice: as its first length, in the first half of the numbers, and as its second, in the other.
fn doubled(amounts: &Rows) -> Rows {
    let width = amounts.width;
    let none = vec![0.0; width];
    let twice = |at: usize| {
        let own = amounts.row(at);
        [own, &none, &none, own].concat()
    };
    Rows { numbers: (0..amounts.count()).flat_map(twice).collect(), width: 2 * width }
}

/// The vectors of what may be pointed at.
pub(super) struct Spans {
    pub amounts: Rows,
    pub things: Rows,
    pub structures: Rows,
}

impl Spans {
    pub fn new(words: &Rows, input: &Input) -> Self {
        Self {
            amounts: words.means(input.amounts.iter().map(|a| (a.first, a.last))),
            things: words.means(input.things.iter().map(|t| (t.first, t.last))),
            structures: words.means(input.structures.iter().map(|s| (s.first, s.last))),
        }
    }
}

/// What stands near each anchor.
pub(super) struct Near {
    pub anchors: Vec<usize>,
    pub numbers: Vec<Candidates>,
    pub things: Vec<Candidates>,
    pub structures: Vec<Candidates>,
}

impl Near {
    pub fn new(input: &Input, between: &Between, anchors: Vec<usize>) -> Self {
        let holders: Vec<Option<usize>> = input.amounts.iter().map(|amount| holder(amount, input)).collect();
        let role = |at: usize, n: usize| match holders[n] {
            Some(last) if last == at => 1,
            Some(_) => 2,
            None => 3,
        };
        let marks = |at: usize, first: usize, last: usize, role| between.marks(at, (first, last), role);
        let numbers = |at: &usize| {
            let range = within(&input.amounts, |a| a.first, at.saturating_sub(BEFORE), at + BEHIND);
            let one = |n: usize| (n, marks(*at, input.amounts[n].first, input.amounts[n].last, role(*at, n)));
            range.map(one).collect()
        };
        let things = |at: &usize| {
            let range = within(&input.things, |t| t.last, at.saturating_sub(BEFORE), *at);
            range.map(|n| (n, marks(*at, input.things[n].first, input.things[n].last, 0))).collect()
        };
        let structures = |at: &usize| {
            let range = within(&input.structures, |s| s.first, 0, at + STRUCTURE_BEHIND);
            range.map(|n| (n, marks(*at, input.structures[n].first, input.structures[n].last, 0))).collect()
        };
        Self {
            numbers: anchors.iter().map(numbers).collect(),
            things: anchors.iter().map(things).collect(),
            structures: anchors.iter().map(structures).collect(),
            anchors,
        }
    }
}

/// What stands near each part.
pub(super) struct NearParts {
    pub parts: Vec<(usize, usize)>,
    pub things: Vec<Candidates>,
    pub lengths: Vec<Candidates>,
}

impl NearParts {
    pub fn new(input: &Input, between: &Between, parts: Vec<(usize, usize)>) -> Self {
        let things = |(first, last): &(usize, usize)| {
            let at = (first + last) / 2;
            let low = first.saturating_sub(PART_THING_BEFORE);
            let range = within(&input.things, |t| t.first, low, last + PART_NEAR);
            range.map(|n| (n, between.marks(at, (input.things[n].first, input.things[n].last), 0))).collect()
        };
        let lengths = |(first, last): &(usize, usize)| {
            let at = (first + last) / 2;
            let range =
                within(&input.amounts, |a| a.first, first.saturating_sub(PART_NEAR), last + PART_NEAR);
            let each = range.flat_map(|n| {
                let amount = &input.amounts[n];
                let marks = between.marks(at, (amount.first, amount.last), 0);
                std::iter::once((2 * n, marks)).chain(amount.by.map(|_| (2 * n + 1, marks)))
            });
            each.collect()
        };
        Self {
            things: parts.iter().map(things).collect(),
            lengths: parts.iter().map(lengths).collect(),
            parts,
        }
    }
}

/// The last word of the name of the thing that the rules hold a number for a part of.
fn holder(amount: &ToldAmount, input: &Input) -> Option<usize> {
    if input.marks[amount.first].iter().any(|mark| mark == super::input::FREE) {
        return None;
    }
    let behind = input.things.partition_point(|thing| thing.last < amount.first);
    input.things.get(behind).map(|thing| thing.last)
}

/// Which of a list, sorted by a place, stand from one place to another.
fn within<T>(list: &[T], place: impl Fn(&T) -> usize, from: usize, to: usize) -> std::ops::Range<usize> {
    let first = list.partition_point(|one| place(one) < from);
    let end = list.partition_point(|one| place(one) <= to);
    first..end.max(first)
}
