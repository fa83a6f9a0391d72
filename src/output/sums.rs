//! Sums: how much of each thing with each work, over all sides. Conditional lines take no part.

use super::job::Job;
use crate::model::{Exact, Line, Quantity, Unit, Work, wording};

/// How much of one thing with one work.
#[derive(Debug, Clone, PartialEq)]
pub struct Sum<'a> {
    /// The thing, in plain words.
    pub item: String,
    /// Its element in UNIFORMAT II, where the catalogue has one.
    pub element: Option<&'a str>,
    /// The work.
    pub work: Option<Work>,
    /// What is counted.
    pub unit: Unit,
    /// The sum of the quantities, the middle of what was told as a range.
    pub quantity: Exact,
    /// The sum of the lower bounds.
    pub low: Exact,
    /// The sum of the upper bounds.
    pub high: Exact,
    /// Whether a number in it was hedged.
    pub rough: bool,
    /// The lines in it.
    pub lines: Vec<&'a Line>,
    /// How many of them have no number.
    pub unnumbered: usize,
}

/// The sums of a scope, in the order of things and works.
pub fn sums<'a>(job: &'a Job<'a>) -> Vec<Sum<'a>> {
    let mut sums: Vec<Sum> = Vec::new();
    for line in job.now.lines.iter().filter(|line| !line.only_if) {
        let item = wording::item_of(line);
        let same = |sum: &&mut Sum| sum.item == item && sum.work == line.work && sum.unit == line.unit;
        match sums.iter_mut().find(same) {
            Some(sum) => sum.add(line),
            None => sums.push(Sum::begin(item, line, job)),
        }
    }
    sums.sort_by(|a, b| {
        (a.element.is_none(), a.element, &a.item, a.work, a.unit).cmp(&(
            b.element.is_none(),
            b.element,
            &b.item,
            b.work,
            b.unit,
        ))
    });
    sums
}

impl<'a> Sum<'a> {
    fn begin(item: String, line: &'a Line, job: &'a Job<'a>) -> Self {
        let place = line.item.as_deref().and_then(|id| job.grammar.item_named(id));
        let element = place.and_then(|place| job.grammar.items[usize::from(place)].element.as_deref());
        let (work, unit, zero) = (line.work, line.unit, Exact::ZERO);
        let mut sum = Self {
            item,
            element,
            work,
            unit,
            quantity: zero,
            low: zero,
            high: zero,
            rough: false,
            lines: Vec::new(),
            unnumbered: 0,
        };
        sum.add(line);
        sum
    }

    fn add(&mut self, line: &'a Line) {
        self.lines.push(line);
        let Some(quantity) = line.quantity else {
            self.unnumbered += 1;
            return;
        };
        self.quantity += quantity.value();
        self.low += quantity.low();
        self.high += quantity.high();
        self.rough |= line.rough;
    }

    /// The sum as it is shown: `about 84`, `30 to 34`.
    pub fn told(&self) -> String {
        let amount = wording::number(Quantity::between(self.low, self.high), self.unit);
        let about = if self.rough { "about " } else { "" };
        match (self.unnumbered, self.unnumbered == self.lines.len()) {
            (_, true) => "not said".to_owned(),
            (0, _) => format!("{about}{amount}"),
            (more, _) => format!("{about}{amount}, and {more} not said"),
        }
    }
}
