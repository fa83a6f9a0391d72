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

    /// As a person reads it: `26' × 8' ÷ 2`.
    pub fn text(&self) -> String {
        self.written(&Plain, 0)
    }

    /// As a spreadsheet computes it, without the equals sign; `cell` tells where an input or a figure stands.
    pub fn cells(&self, cell: &dyn Fn(Leaf) -> String) -> String {
        self.written(&Cells(cell), 0)
    }

    fn written(&self, hand: &dyn Hand, around: u8) -> String {
        let join = |parts: &[Formula], sign: &str, strength: u8| {
            let parts: Vec<String> = parts.iter().map(|part| part.written(hand, strength)).collect();
            bracketed(parts.join(sign), strength < around)
        };
        match self {
            Self::Of(input) => hand.leaf(Leaf::Input(input)),
            Self::Figure(figure) => hand.leaf(Leaf::Figure(figure)),
            Self::Number(number) => hand.number(*number),
            Self::Sum(terms) => join(terms, " + ", 1),
            Self::Less(from, what) => bracketed(
                format!("{} {} {}", from.written(hand, 1), hand.signs().minus, what.written(hand, 2)),
                1 < around,
            ),
            Self::Product(factors) => join(factors, &format!(" {} ", hand.signs().times), 3),
            Self::Over(over, under) => bracketed(
                format!("{} {} {}", over.written(hand, 3), hand.signs().by, under.written(hand, 4)),
                3 < around,
            ),
            Self::Up(formula) => hand.up(&formula.written(hand, 0)),
            Self::Root(formula, grain) => hand.root(&formula.written(hand, 0), *grain),
        }
    }
}

/// What stands at the end of a formula's branches.
#[derive(Debug, Clone, Copy)]
pub enum Leaf<'a> {
    /// A value.
    Input(&'a Input),
    /// Another figure.
    Figure(&'a Figured),
}

fn bracketed(text: String, needed: bool) -> String {
    if needed { format!("({text})") } else { text }
}

struct Signs {
    times: &'static str,
    by: &'static str,
    minus: &'static str,
}

/// How a formula is written down.
trait Hand {
    fn signs(&self) -> Signs;
    fn leaf(&self, leaf: Leaf) -> String;
    fn number(&self, number: Exact) -> String;
    fn up(&self, inner: &str) -> String;
    fn root(&self, inner: &str, grain: Grain) -> String;
}

/// For a person.
struct Plain;

impl Hand for Plain {
    fn signs(&self) -> Signs {
        Signs { times: "×", by: "÷", minus: "−" }
    }

    fn leaf(&self, leaf: Leaf) -> String {
        match leaf {
            Leaf::Input(Input { value, unit, .. }) | Leaf::Figure(Figured { value, unit, .. }) => {
                told(*value, *unit)
            }
        }
    }

    fn number(&self, number: Exact) -> String {
        number.text()
    }

    fn up(&self, inner: &str) -> String {
        format!("{inner}, rounded up")
    }

    fn root(&self, inner: &str, _: Grain) -> String {
        format!("√({inner})")
    }
}

/// For a spreadsheet.
struct Cells<'a>(&'a dyn Fn(Leaf) -> String);

impl Hand for Cells<'_> {
    fn signs(&self) -> Signs {
        Signs { times: "*", by: "/", minus: "-" }
    }

    fn leaf(&self, leaf: Leaf) -> String {
        (self.0)(leaf)
    }

    fn number(&self, number: Exact) -> String {
        match number.denom() {
            1 => number.numer().to_string(),
            denominator => format!("({}/{denominator})", number.numer()),
        }
    }

    fn up(&self, inner: &str) -> String {
        // A spreadsheet computes in binary: a billionth keeps 3.0000000001 from becoming 4.
        format!("ROUNDUP(({inner})-0.000000001,0)")
    }

    fn root(&self, inner: &str, grain: Grain) -> String {
        let parts = grain.parts();
        format!("ROUND(SQRT({inner})*{parts},0)/{parts}")
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
