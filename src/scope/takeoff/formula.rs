//! Formulas: what a figure is computed from, and how. The same tree gives the exact value, the text that a document
//! shows and the formula that a spreadsheet computes, so that none can differ from the others.

use crate::model::span::Moment;
use crate::model::unit::SIXTEENTHS;
use crate::model::{Exact, Side, stored, wording};
use serde::{Deserialize, Serialize};

/// Where a value comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "from", rename_all = "kebab-case")]
pub enum Origin {
    /// The narrator said it.
    Said {
        /// His words.
        quote: String,
        /// When they begin.
        start: Option<Moment>,
    },
    /// A person typed it.
    Typed {
        /// Who.
        who: String,
    },
    /// A rule of the trade, or a setting of the office, has it so.
    Rule {
        /// Where that is published, or that it is common practice.
        source: String,
    },
}

/// A value that a formula starts from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Input {
    /// What it is: `front wall, width`.
    pub name: String,
    /// How much.
    #[serde(serialize_with = "stored::decimal")]
    pub value: Exact,
    /// What it counts.
    pub unit: Measure,
    /// Where it comes from.
    #[serde(flatten)]
    pub origin: Origin,
}

/// What a value counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Measure {
    /// Feet.
    Foot,
    /// Square feet.
    SquareFoot,
    /// Squares of a hundred square feet.
    Square,
    /// Pieces.
    Each,
    /// Inches of rise in twelve of run.
    InTwelve,
    /// A share of a hundred.
    Percent,
    /// A factor.
    Factor,
}

/// How a figure is computed.
#[derive(Debug, Clone, PartialEq)]
pub enum Formula {
    /// A value.
    Of(Input),
    /// A number of the formula itself, such as the 2 of a gable's area.
    Number(Exact),
    /// One figure that stands in the takeoff already, by its key.
    Figure(Box<Figured>),
    /// A sum.
    Sum(Vec<Formula>),
    /// The first less the second.
    Less(Box<Formula>, Box<Formula>),
    /// A product.
    Product(Vec<Formula>),
    /// The first by the second.
    Over(Box<Formula>, Box<Formula>),
    /// Up to the next whole number.
    Up(Box<Formula>),
    /// The square root, rounded to a grain.
    Root(Box<Formula>, Grain),
}

/// A figure that another one is computed from.
#[derive(Debug, Clone, PartialEq)]
pub struct Figured {
    /// Its key.
    pub key: String,
    /// What it is.
    pub name: String,
    /// Its value.
    pub value: Exact,
    /// What it counts.
    pub unit: Measure,
}

/// To what an endless root is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grain {
    /// A sixteenth of an inch, of a length in feet.
    Sixteenth,
    /// A hundredth of a square foot.
    Hundredth,
}

impl Grain {
    /// So many of it are one.
    pub fn parts(self) -> i128 {
        match self {
            Self::Sixteenth => SIXTEENTHS,
            Self::Hundredth => 100,
        }
    }
}

impl Formula {
    /// A number of the formula itself.
    pub fn number(number: i128) -> Self {
        Self::Number(Exact::from_integer(number))
    }

    /// The product of these.
    pub fn times(self, other: Self) -> Self {
        match self {
            Self::Product(mut factors) => {
                factors.push(other);
                Self::Product(factors)
            }
            first => Self::Product(vec![first, other]),
        }
    }

    /// This by another.
    pub fn over(self, other: Self) -> Self {
        Self::Over(Box::new(self), Box::new(other))
    }

    /// This less another.
    pub fn less(self, other: Self) -> Self {
        Self::Less(Box::new(self), Box::new(other))
    }

    /// Up to the next whole number.
    pub fn up(self) -> Self {
        Self::Up(Box::new(self))
    }

    /// Its square root.
    pub fn root(self, grain: Grain) -> Self {
        Self::Root(Box::new(self), grain)
    }

    /// The sum of these; the one where there is only one.
    pub fn sum(mut terms: Vec<Self>) -> Self {
        if terms.len() == 1 { terms.remove(0) } else { Self::Sum(terms) }
    }

    /// What it comes to; none where it divides by nothing or takes the root of less than nothing.
    pub fn value(&self) -> Option<Exact> {
        match self {
            Self::Of(input) => Some(input.value),
            Self::Number(number) => Some(*number),
            Self::Figure(figure) => Some(figure.value),
            Self::Sum(terms) => terms.iter().map(Self::value).sum(),
            Self::Less(from, what) => Some(from.value()? - what.value()?),
            Self::Product(factors) => factors.iter().map(Self::value).product(),
            Self::Over(over, under) => {
                let under = under.value()?;
                (under != Exact::ZERO).then_some(over.value()? / under)
            }
            Self::Up(formula) => Some(formula.value()?.ceil()),
            Self::Root(formula, grain) => formula.value()?.root(grain.parts()),
        }
    }

    /// The values that it starts from, in the order they stand.
    pub fn inputs(&self) -> Vec<&Input> {
        match self {
            Self::Of(input) => vec![input],
            Self::Number(_) | Self::Figure(_) => Vec::new(),
            Self::Sum(parts) | Self::Product(parts) => parts.iter().flat_map(Self::inputs).collect(),
            Self::Less(a, b) | Self::Over(a, b) => [a.inputs(), b.inputs()].concat(),
            Self::Up(formula) | Self::Root(formula, _) => formula.inputs(),
        }
    }
}

/// A value with its unit, as a document shows it: `26' 4"`, `117 sq ft`, `6 in 12`.
pub fn told(value: Exact, unit: Measure) -> String {
    let number = || value.text();
    match unit {
        Measure::Foot => wording::length(value),
        Measure::SquareFoot => format!("{} sq ft", number()),
        Measure::Square if value == Exact::ONE => "1 square".to_owned(),
        Measure::Square => format!("{} squares", number()),
        Measure::Each | Measure::Factor => number(),
        Measure::InTwelve => format!("{} in 12", number()),
        Measure::Percent => format!("{} %", number()),
    }
}

/// A side of a structure with what is measured there: `front wall`, `garage, front wall`.
pub fn face(structure: &str, side: Side, what: &str) -> String {
    let at = match side {
        Side::None => what.to_owned(),
        side => format!("{} {what}", wording::side(side)),
    };
    if structure == crate::model::HOUSE { at } else { format!("{structure}, {at}") }
}
