//! Takeoff: exact figures from what was measured aloud, against published tables and worked examples.

mod examples;
mod properties;
mod published;
mod slopes;
mod units;
mod walks;

use eavesdraft::language::rules::Grammar;
use eavesdraft::model::Exact;
use eavesdraft::scope::drafting::by_rules as draft;
use eavesdraft::scope::takeoff::{Figure, Formula, Input, Measure, Origin, Takeoff, takeoff};
use eavesdraft::speech::Transcript;
use std::sync::LazyLock;

pub static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());

fn whole(number: i128) -> Exact {
    Exact::from_integer(number)
}

fn decimal(exact: Exact) -> f64 {
    exact.decimal()
}

/// A value that somebody typed.
fn given(value: Exact, unit: Measure) -> Formula {
    let origin = Origin::Typed { who: "the test".to_owned() };
    Formula::Of(Input { name: "given".to_owned(), value, unit, origin })
}

fn feet(value: i128) -> Formula {
    given(Exact::from_integer(value), Measure::Foot)
}

fn in_twelve(rise: i128) -> Formula {
    given(Exact::from_integer(rise), Measure::InTwelve)
}

/// The takeoff of what is said.
fn taken_off(said: &str) -> Takeoff {
    takeoff(&draft(&Transcript::from_plain(said), &GRAMMAR), &GRAMMAR)
}

/// A figure by its name.
fn figure<'a>(takeoff: &'a Takeoff, name: &str) -> &'a Figure {
    let names = || takeoff.figures.iter().map(|figure| figure.name.as_str()).collect::<Vec<_>>();
    takeoff
        .figures
        .iter()
        .find(|figure| figure.name == name)
        .unwrap_or_else(|| panic!("{name}: {:?}", names()))
}
