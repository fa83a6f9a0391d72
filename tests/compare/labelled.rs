//! Every list of `lists/` beside the scope it is for. Labels were written from the two lists alone; each of our lines and
//! each row that is a line of work stands in exactly one of them.
//!
//! Three lists were labelled when the rules stood and read once before anything was changed for them (27 November 2026):
//! `position-column` 22 of 23 findings as labelled, `heading-above` 20 of 22, `place-first` 23 of 23.

use super::{GRAMMAR, SMALL, Short, WALK, scope, short};
use eavesdraft::scope::compare::{Comparison, List, Outcome, Reading, compare};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::Path;

/// What a person says of a list. "2 8 = 7: -1" puts our lines 2 and 8 beside row 7, which is short by 1.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Label {
    what: String,
    ours: String,
    #[serde(default)]
    same: Vec<String>,
    #[serde(default)]
    short: Vec<String>,
    #[serde(default)]
    more: Vec<String>,
    #[serde(default)]
    unclear: Vec<String>,
    #[serde(default)]
    missing: Vec<usize>,
    #[serde(default)]
    only: Vec<usize>,
}

impl Label {
    fn of(&self, outcome: Outcome) -> Vec<Short> {
        let all = |written: &[String]| written.iter().map(|text| parsed(text)).collect();
        match outcome {
            Outcome::Same => all(&self.same),
            Outcome::ShortThere => all(&self.short),
            Outcome::MoreThere => all(&self.more),
            Outcome::Unclear => all(&self.unclear),
            Outcome::MissingThere => self.missing.iter().map(|line| (vec![*line], vec![], None)).collect(),
            Outcome::OnlyThere => self.only.iter().map(|row| (vec![], vec![*row], None)).collect(),
        }
    }
}

fn parsed(text: &str) -> Short {
    let (lines, difference) = match text.split_once(':') {
        Some((lines, difference)) => (lines, Some(difference.trim().parse().unwrap())),
        None => (text, None),
    };
    let (ours, rows) = lines.split_once('=').unwrap();
    let numbers = |text: &str| text.split_whitespace().map(|n| n.parse().unwrap()).collect();
    (numbers(ours), numbers(rows), difference)
}

fn labels() -> BTreeMap<String, Label> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/compare/lists");
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let labels = files.filter(|file| file.extension().is_some_and(|ending| ending == "toml"));
    let label = |file: std::path::PathBuf| {
        let text = std::fs::read_to_string(&file).unwrap();
        let label = toml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        (file.file_stem().unwrap().to_str().unwrap().to_owned(), label)
    };
    labels.map(label).collect()
}

fn compared(name: &str, label: &Label) -> Comparison {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/compare/lists/{name}.csv"));
    let bytes = std::fs::read(file).unwrap();
    let list = List::new(&bytes, name, &Reading::default(), &GRAMMAR);
    let list = list.unwrap_or_else(|error| panic!("{name}: {error}"));
    let ours = scope(if label.ours == "walk" { WALK } else { SMALL });
    compare(&ours, &list, &GRAMMAR)
}

#[test]
fn every_list_comes_out_as_a_person_reads_it() {
    let labels = labels();
    assert!(labels.len() >= 20, "only {} lists", labels.len());
    let mut scores: BTreeMap<Outcome, [usize; 3]> = BTreeMap::new();
    let mut wrong = Vec::new();
    for (name, label) in &labels {
        let comparison = compared(name, label);
        for outcome in Outcome::ALL {
            let (mut wanted, mut found) = (label.of(outcome), short(&comparison, outcome));
            let score = scores.entry(outcome).or_default();
            (score[1], score[2]) = (score[1] + wanted.len(), score[2] + found.len());
            found.retain(|f| match wanted.iter().position(|w| w == f) {
                Some(at) => {
                    score[0] += 1;
                    wanted.remove(at);
                    false
                }
                None => true,
            });
            wrong.extend(wanted.iter().map(|w| format!("{name} ({}): {outcome:?} lacks {w:?}", label.what)));
            wrong.extend(found.iter().map(|f| format!("{name} ({}): {outcome:?} has {f:?}", label.what)));
        }
    }
    for (outcome, [right, wanted, found]) in &scores {
        println!("{}: {right} of {wanted} labelled, {found} found", outcome.words());
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Nothing of either list is lost or counted twice.
#[test]
fn every_line_of_both_lists_is_told_once() {
    for (name, label) in labels() {
        let comparison = compared(&name, &label);
        let mut ours: Vec<usize> =
            comparison.findings.iter().flat_map(|f| f.ours.iter().map(|o| o.number)).collect();
        let standing = ours.len();
        ours.extend(comparison.to_confirm.iter().map(|our| our.number));
        ours.sort_unstable();
        let all: Vec<usize> = (1..=ours.len()).collect();
        assert_eq!(ours, all, "{name}");
        let draft = scope(if label.ours == "walk" { WALK } else { SMALL });
        assert_eq!(standing, draft.lines.iter().filter(|line| !line.only_if).count(), "{name}");
        let mut rows: Vec<usize> =
            comparison.findings.iter().flat_map(|f| f.theirs.iter().map(|t| t.row)).collect();
        rows.extend(comparison.passed_over.iter().map(|over| over.row));
        let count = rows.len();
        rows.sort_unstable();
        rows.dedup();
        assert_eq!(rows.len(), count, "{name}: a row is told twice");
    }
}

/// What takes several lines together says so, and what isn't decided asks.
#[test]
fn groups_are_told_and_doubts_are_asked_about() {
    for (name, label) in labels() {
        for finding in compared(&name, &label).findings {
            let several = finding.ours.len() > 1 || finding.theirs.len() > 1;
            assert!(!several || !finding.because.is_empty(), "{name}: {finding:#?}");
            assert_eq!(
                finding.question.is_some(),
                finding.outcome == Outcome::Unclear,
                "{name}: {finding:#?}"
            );
            assert!(
                finding.outcome != Outcome::Unclear || finding.difference.is_none(),
                "{name}: {finding:#?}"
            );
        }
    }
}
