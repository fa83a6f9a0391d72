//! Whole narrations, each with the lines a careful estimator would write from it.
//!
//! All are invented. `labelled/` holds fourteen as a good recogniser writes them (d01 to d14) and six as raw captions
//! without punctuation and with misheard words (d15 to d20): the rules were written with these at hand, so their scores
//! show fit. `first-contact/` holds twelve that were written and labelled apart from the rules,
//! h01 to h06 (h04 and h05 as raw captions) and b01 to b06 (all raw captions, b05 and b06 with misheard words). They were
//! first drafted with the rules as they stood on 25 November 2026, before anything was changed for them: h: line F1 0.520,
//! 39 of 98 quiet lines wrong, look recall 0.692; b: line F1 0.427, 48 of 115 quiet lines wrong, look recall 0.489.
//! Those first figures are the honest ones; later ones show fit too.

use super::scoring::Score;
use eavesdraft::draft;
use eavesdraft::grammar::Grammar;
use eavesdraft::words::Transcript;
use serde_json::Value;
use std::path::{Path, PathBuf};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/narrations").join(name)
}

/// The score of every narration of a folder whose name is taken.
fn score(folder: &Path, taken: impl Fn(&str) -> bool) -> Score {
    let grammar = Grammar::built_in().unwrap();
    let mut names: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    names.sort();
    let mut score = Score::default();
    for path in names {
        let name = path.file_stem().unwrap().to_str().unwrap();
        if taken(name) {
            let label: Value = serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
            let transcript = Transcript::from_plain(label["text"].as_str().unwrap());
            let draft = serde_json::to_value(draft::draft(&transcript, &grammar)).unwrap();
            score.add(name, &label, &draft);
        }
    }
    score
}

/// What must at least be reached; set a little below what was measured when the rules were last changed.
struct Floor {
    lines: f64,
    silent_errors: f64,
    look_rate: f64,
    look_recall: f64,
    beside: f64,
}

#[track_caller]
fn reaches(score: &Score, floor: &Floor) {
    let told = score.misses.join("\n");
    assert!(score.lines.right > 0, "nothing was drafted");
    assert!(score.lines.f1() >= floor.lines, "line F1 {:.3}\n{told}", score.lines.f1());
    assert!(
        score.silent_error_rate() <= floor.silent_errors,
        "silent errors {:.3}\n{told}",
        score.silent_error_rate()
    );
    assert!(score.look_rate() <= floor.look_rate, "look rate {:.3}", score.look_rate());
    assert!(score.look_recall() >= floor.look_recall, "look recall {:.3}", score.look_recall());
    let beside = [score.sizes, score.only_if, score.no_work, score.follow_ups, score.dimensions];
    let least = beside.map(super::scoring::Counts::f1).into_iter().fold(1.0, f64::min);
    assert!(least >= floor.beside, "size, only_if, no_work, follow_ups, dimensions: {beside:?}");
}

#[test]
fn clean_narrations_become_the_lines_an_estimator_would_write() {
    let score = score(&folder("labelled"), |name| name < "d15");
    reaches(
        &score,
        &Floor { lines: 0.985, silent_errors: 0.005, look_rate: 0.02, look_recall: 0.97, beside: 0.94 },
    );
}

#[test]
fn raw_captions_become_lines_too() {
    let score = score(&folder("labelled"), |name| name >= "d15");
    reaches(
        &score,
        &Floor { lines: 0.95, silent_errors: 0.01, look_rate: 0.03, look_recall: 0.97, beside: 0.9 },
    );
}

/// Far from good: these floors only keep it from getting worse.
#[test]
fn narrations_the_rules_had_not_met_do_not_get_worse() {
    let met_by_none = score(&folder("first-contact"), |name| name.starts_with('h'));
    reaches(
        &met_by_none,
        &Floor { lines: 0.51, silent_errors: 0.4, look_rate: 0.02, look_recall: 0.68, beside: 0.49 },
    );
}

/// As above.
#[test]
fn captions_the_rules_had_not_met_do_not_get_worse() {
    let met_by_none = score(&folder("first-contact"), |name| name.starts_with('b'));
    reaches(
        &met_by_none,
        &Floor { lines: 0.42, silent_errors: 0.42, look_rate: 0.03, look_recall: 0.48, beside: 0.39 },
    );
}

#[test]
fn the_demo_becomes_its_labelled_lines() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("audio-fixtures");
    let label: Value =
        serde_json::from_str(&std::fs::read_to_string(root.join("demo.labels.json")).unwrap()).unwrap();
    let transcript = Transcript::from_plain(&std::fs::read_to_string(root.join("demo.txt")).unwrap());
    let draft = draft::draft(&transcript, &Grammar::built_in().unwrap());
    let mut score = Score::default();
    score.add("demo", &label, &serde_json::to_value(draft).unwrap());
    assert_eq!(
        (score.lines.right, score.lines.extra, score.lines.missed),
        (19, 0, 0),
        "{}",
        score.misses.join("\n")
    );
}
