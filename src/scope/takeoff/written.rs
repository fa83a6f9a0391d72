//! A formula written down: the text that a document shows, and what a spreadsheet computes.

use super::formula::{Figured, Formula, Grain, Input, told};
use crate::model::Exact;

impl Formula {
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
