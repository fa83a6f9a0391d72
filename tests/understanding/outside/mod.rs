//! Published test data, all of it, read as a draft would read it: the English number and unit cases of Microsoft's
//! Recognizers-Text (MIT) and of NVIDIA's NeMo text processing (Apache-2.0). Licences stand beside the data.
//!
//! A case passes where exactly one amount is read, with the suite's value and unit. Every other case stands in
//! `tests/outside/differs.toml` with what is read instead and why that is right for a house, or at least harmless.

mod differs;
mod suites;

use differs::{Differs, Kind};
use eavesdraft::language::numbers::{Amount, Exact};
use eavesdraft::language::phrases;
use eavesdraft::language::rules::Grammar;
use eavesdraft::language::tokens::Tokens;
use eavesdraft::speech::Transcript;
use std::fmt::Write;
use suites::{Case, Measured, SUITES, Wants};

fn read(grammar: &Grammar, said: &str) -> Vec<Amount> {
    let tokens = Tokens::new(&Transcript::from_plain(said), &grammar.vocabulary);
    phrases::amounts(&tokens, grammar)
}

/// An amount in the plain form of `differs.toml`: `3/4`, `20 to 30`, `16 by 7 foot`, `nothing`.
fn told(amounts: &[Amount]) -> String {
    let one = |a: &Amount| {
        let mut told = a.low.to_string();
        if a.high != a.low {
            write!(told, " to {}", a.high).unwrap();
        }
        if let Some(by) = a.by {
            write!(told, " by {by}").unwrap();
        }
        if let Some(unit) = a.unit {
            write!(told, " {}", serde_json::to_value(unit).unwrap().as_str().unwrap()).unwrap();
        }
        told
    };
    let all: Vec<String> = amounts.iter().map(one).collect();
    if all.is_empty() { "nothing".to_owned() } else { all.join("; ") }
}

fn passes(wants: &Wants, amounts: &[Amount]) -> bool {
    match (wants, amounts) {
        (Wants::Nothing, []) => true,
        (Wants::Amount { low: Some(low), high: Some(high), unit }, [amount]) => {
            let unit = match unit {
                Measured::Bare => amount.unit.is_none(),
                Measured::Ours(unit) => amount.unit == Some(*unit),
                Measured::Foreign => false,
            };
            unit && amount.by.is_none() && same(amount.low, *low) && same(amount.high, *high)
        }
        _ => false,
    }
}

/// Equal to the fifteen digits that the suites print.
fn same(exact: Exact, published: f64) -> bool {
    let value = exact.binary();
    (value - published).abs() <= published.abs() * 1e-12
}

#[test]
fn published_cases_pass_or_differ_for_a_reason_that_is_told() {
    let grammar = Grammar::built_in().unwrap();
    let mut differs = Differs::load();
    let mut faults = String::new();
    for case in suites::all() {
        let amounts = read(&grammar, &case.said);
        let passes = passes(&case.wants, &amounts);
        let read = told(&amounts);
        let Case { suite, said, expected, .. } = &case;
        match differs.listed(&case) {
            Some(_) if passes => writeln!(faults, "passes now, take it off: {suite} {said:?}"),
            Some(listed) if *listed != read => {
                writeln!(faults, "{suite} {said:?}: listed as read {listed:?}, now {read:?}")
            }
            None if !passes => {
                let row =
                    format!("suite = {suite:?}, said = {said:?}, expected = {expected:?}, read = {read:?}");
                writeln!(faults, "not listed: {{ {row} }},")
            }
            _ => Ok(()),
        }
        .unwrap();
    }
    for (kind, row) in differs.unmet() {
        writeln!(faults, "no suite has this case of `{kind}`: {row:?}").unwrap();
    }
    assert!(faults.is_empty(), "\n{faults}");
}

#[test]
fn a_unit_that_drafts_don_t_have_is_never_taken_for_one_they_have() {
    let grammar = Grammar::built_in().unwrap();
    let foreign = |c: &Case| matches!(c.wants, Wants::Amount { unit: Measured::Foreign, .. });
    let cases: Vec<Case> = suites::all().into_iter().filter(foreign).collect();
    assert!(cases.len() > 150, "the suites were read: {}", cases.len());
    for case in cases {
        let amounts = read(&grammar, &case.said);
        assert!(amounts.iter().all(|a| a.unit.is_none()), "{:?} is read as {}", case.said, told(&amounts));
    }
}

/// The rows of the table in `docs/testing.md`: what passes and what differs, by reason.
fn table(differs: &Differs) -> String {
    let cases = suites::all();
    let mut table = "| suite | cases | pass | differ, by reason |\n|---|---|---|---|\n".to_owned();
    for suite in SUITES {
        let count = |kind: &Kind| cases.iter().filter(|c| c.suite == suite && kind.holds(c)).count();
        let kinds: Vec<_> = differs.kinds().map(|k| (k, count(k))).filter(|(_, n)| *n > 0).collect();
        let all = cases.iter().filter(|c| c.suite == suite).count();
        let pass = all - kinds.iter().map(|(_, n)| n).sum::<usize>();
        let reasons: Vec<_> = kinds.iter().map(|(k, n)| format!("{} {n}", k.name)).collect();
        writeln!(table, "| {suite} | {all} | {pass} | {} |", reasons.join(", ")).unwrap();
    }
    table
}

#[test]
fn the_table_in_the_documentation_is_what_was_counted() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/testing.md");
    let documented = std::fs::read_to_string(path).unwrap();
    let counted = table(&Differs::load());
    assert!(documented.contains(&counted), "docs/testing.md should hold this table:\n{counted}");
}
