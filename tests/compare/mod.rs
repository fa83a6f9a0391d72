//! Our scope beside other parties' lists: invented lists, each with what a person says of it beside it.

mod broken;
mod command;
mod labelled;
mod papers;
mod pdf;
mod photos;
mod places;
mod properties;
mod spreadsheets;

use eavesdraft::language::rules::Grammar;
use eavesdraft::model::{Draft, Exact};
use eavesdraft::scope::compare::{Comparison, List, ListError, Outcome, Reading, compare};
use std::sync::LazyLock;

static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());

/// The scope that most lists are held beside.
const WALK: &str = include_str!("walk.scope.json");

/// A scope of a house and a garage.
const SMALL: &str = include_str!("small.scope.json");

fn scope(json: &str) -> Draft {
    serde_json::from_str(json).unwrap()
}

/// The walk beside a list of that content.
fn beside(list: impl AsRef<[u8]>) -> Comparison {
    let list = read(list.as_ref(), &Reading::default()).unwrap_or_else(|error| panic!("{error}"));
    compare(&scope(WALK), &list, &GRAMMAR)
}

fn read(list: &[u8], reading: &Reading) -> Result<List, ListError> {
    List::new(list, "list.csv", reading, &GRAMMAR)
}

/// A finding in short: our lines, their rows, and the difference.
type Short = (Vec<usize>, Vec<usize>, Option<f64>);

fn short(comparison: &Comparison, outcome: Outcome) -> Vec<Short> {
    let short = |f: &eavesdraft::scope::compare::Finding| {
        let ours = f.ours.iter().map(|our| our.number).collect();
        let theirs = f.theirs.iter().map(|their| their.row).collect();
        (
            ours,
            theirs,
            f.difference
                .map(Exact::decimal)
                .filter(|_| matches!(outcome, Outcome::ShortThere | Outcome::MoreThere)),
        )
    };
    comparison.of(outcome).map(short).collect()
}
