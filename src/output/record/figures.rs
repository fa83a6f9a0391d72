//! The figures and sums of a record. A value is given twice: as a decimal with three places at most, and exactly, as a
//! fraction (`25/3`).

use crate::model::{Side, Unit, Work};
use crate::output::job::Job;
use crate::output::sums;
use crate::scope::takeoff::{Figure, Input, Lacking, Measure, Origin, Part};
use serde::{Deserialize, Serialize};

/// What the measures come to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecordTakeoff {
    /// By which rule openings were deducted from walls.
    pub openings: String,
    /// The figures.
    pub figures: Vec<RecordFigure>,
    /// What is to be measured for more.
    pub lacking: Vec<Lacking>,
}

/// A figure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecordFigure {
    /// See [`Figure::key`].
    pub key: String,
    /// See [`Figure::name`].
    pub name: String,
    /// See [`Figure::part`].
    pub part: Part,
    /// See [`Figure::structure`].
    pub structure: String,
    /// See [`Figure::side`].
    pub side: Side,
    /// What it comes to.
    pub value: f64,
    /// The same, exactly.
    pub exact: String,
    /// What it counts.
    pub unit: Measure,
    /// How it is computed, as a person reads it.
    pub formula: String,
    /// The values that it starts from.
    pub inputs: Vec<RecordInput>,
    /// See [`Figure::rule`].
    pub rule: Option<String>,
}

/// A value that a figure starts from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RecordInput {
    /// What it is.
    pub name: String,
    /// How much.
    pub value: f64,
    /// The same, exactly.
    pub exact: String,
    /// What it counts.
    pub unit: Measure,
    /// Where it comes from.
    #[serde(flatten)]
    pub origin: Origin,
}

/// How much of one thing with one work.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecordSum {
    /// The thing.
    pub item: String,
    /// Its element in UNIFORMAT II.
    pub element: Option<String>,
    /// The work.
    pub work: Option<Work>,
    /// What is counted.
    pub unit: Unit,
    /// How much.
    pub quantity: f64,
    /// The same, exactly.
    pub exact: String,
    /// The sum of the lower bounds.
    pub low: f64,
    /// The sum of the upper bounds.
    pub high: f64,
    /// Whether a number in it was hedged.
    pub rough: bool,
    /// The ids of its lines.
    pub lines: Vec<String>,
    /// How many of them have no number.
    pub unnumbered: usize,
}

impl RecordTakeoff {
    pub(super) fn of(job: &Job) -> Self {
        let takeoff = &job.takeoff;
        Self {
            openings: takeoff.openings.clone(),
            figures: takeoff.figures.iter().map(figure).collect(),
            lacking: takeoff.lacking.clone(),
        }
    }
}

fn figure(figure: &Figure) -> RecordFigure {
    let Figure { key, name, part, structure, side, formula, value, unit, rule } = figure;
    RecordFigure {
        key: key.clone(),
        name: name.clone(),
        part: *part,
        structure: structure.clone(),
        side: *side,
        value: value.decimal(),
        exact: value.to_string(),
        unit: *unit,
        formula: formula.text(),
        inputs: formula.inputs().into_iter().map(input).collect(),
        rule: rule.clone(),
    }
}

fn input(input: &Input) -> RecordInput {
    let Input { name, value, unit, origin } = input.clone();
    RecordInput { name, value: value.decimal(), exact: value.to_string(), unit, origin }
}

pub(super) fn sums(job: &Job) -> Vec<RecordSum> {
    let sum = |sum: &sums::Sum| RecordSum {
        item: sum.item.clone(),
        element: sum.element.map(str::to_owned),
        work: sum.work,
        unit: sum.unit,
        quantity: sum.quantity.decimal(),
        exact: sum.quantity.to_string(),
        low: sum.low.decimal(),
        high: sum.high.decimal(),
        rough: sum.rough,
        lines: sum.lines.iter().map(|line| line.id.clone()).collect(),
        unnumbered: sum.unnumbered,
    };
    sums::sums(job).iter().map(sum).collect()
}
