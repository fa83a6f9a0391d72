//! The published suites as they lie in `tests/outside`, each case with the amount it expects.

use eavesdraft::model::Unit;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// The suites in the order the table shows them.
pub const SUITES: [&str; 7] =
    ["cardinal", "decimal", "measure", "ordinal", "numbers", "ranges", "dimensions"];

/// One published case.
#[derive(Debug)]
pub struct Case {
    pub suite: &'static str,
    pub said: String,
    /// What the suite says it is, in its own words.
    pub expected: String,
    pub wants: Wants,
}

/// What a reading has to be to pass.
#[derive(Debug, PartialEq)]
pub enum Wants {
    /// No number was said.
    Nothing,
    /// One amount between these bounds; without an end where there is none.
    Amount { low: Option<f64>, high: Option<f64>, unit: Measured },
    /// Which one, not how many: a reader of amounts has no place for it.
    Ordinal,
}

/// The unit that a case expects.
#[derive(Debug, PartialEq, Clone, Copy)]
pub enum Measured {
    /// A number alone.
    Bare,
    /// A unit that drafts have too.
    Ours(Unit),
    /// A unit that drafts don't have.
    Foreign,
}

pub fn outside(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/outside").join(name)
}

/// All cases of all suites.
pub fn all() -> Vec<Case> {
    let nemo = SUITES[..4].iter().flat_map(|suite| nemo(suite));
    nemo.chain(spans()).collect()
}

/// A file of lines `spoken~written`.
fn nemo(suite: &'static str) -> Vec<Case> {
    let name = format!("nemo-itn/en_itn_test_cases_{suite}.txt");
    let lines = std::fs::read_to_string(outside(&name)).unwrap();
    let case = |line: &str| {
        let (said, written) = line.split_once('~').unwrap();
        let wants = if suite == "ordinal" { Wants::Ordinal } else { written_amount(written) };
        Case { suite, said: said.to_owned(), expected: written.to_owned(), wants }
    };
    lines.lines().filter(|l| !l.is_empty()).map(case).collect()
}

/// `200 m`, `5.2 million`, `.1205`, `zero`.
fn written_amount(written: &str) -> Wants {
    let (number, rest) = written.split_once(' ').unwrap_or((written, ""));
    let value = if number == "zero" { 0.0 } else { number.parse().unwrap() };
    let (scale, unit) = match rest {
        "" => (1.0, Measured::Bare),
        "thousand" => (1e3, Measured::Bare),
        "million" => (1e6, Measured::Bare),
        "billion" => (1e9, Measured::Bare),
        "trillion" => (1e12, Measured::Bare),
        unit => (1.0, measured(unit)),
    };
    exactly(value * scale, unit)
}

fn exactly(value: f64, unit: Measured) -> Wants {
    Wants::Amount { low: Some(value), high: Some(value), unit }
}

/// Units as the suites name them.
fn measured(name: &str) -> Measured {
    match name {
        "ft" | "Foot" => Measured::Ours(Unit::Foot),
        "in" | "Inch" => Measured::Ours(Unit::Inch),
        "yd" | "Yard" => Measured::Ours(Unit::Yard),
        "sq ft" | "Square foot" => Measured::Ours(Unit::SquareFoot),
        _ => Measured::Foreign,
    }
}

/// The spans of Recognizers-Text: words with their value or range, and their unit.
fn spans() -> Vec<Case> {
    let file = std::fs::read_to_string(outside("recognizers-text/spans.json")).unwrap();
    let spans: Vec<Value> = serde_json::from_str(&file).unwrap();
    spans.iter().map(span).collect()
}

fn span(span: &Value) -> Case {
    let suite = match span["spec"].as_str().unwrap() {
        "Number/English/NumberModel" => "numbers",
        "Number/English/NumberRangeModel" => "ranges",
        "NumberWithUnit/English/DimensionModel" => "dimensions",
        other => panic!("a new kind of span: {other}"),
    };
    let unit = span["unit"].as_str();
    let value = span["value"].as_str();
    let wants = match value {
        None => Wants::Nothing,
        Some(range) if suite == "ranges" => bounds(range),
        Some(value) => exactly(value.parse().unwrap(), unit.map_or(Measured::Bare, measured)),
    };
    let expected = [value, unit].into_iter().flatten().collect::<Vec<_>>().join(" ");
    Case { suite, said: span["text"].as_str().unwrap().to_owned(), expected, wants }
}

/// `[20,30)`, `(5,)`. Whether a bound belongs to the range is left open: nobody tapes a wall that exactly.
fn bounds(range: &str) -> Wants {
    let (low, high) = range[1..range.len() - 1].split_once(',').unwrap();
    let bound = |b: &str| (!b.is_empty()).then(|| b.parse().unwrap());
    Wants::Amount { low: bound(low), high: bound(high), unit: Measured::Bare }
}
