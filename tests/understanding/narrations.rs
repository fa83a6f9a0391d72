//! Whole narrations, each with the lines a careful estimator would write from it.
//!
//! All are invented. Who wrote them, when the program first read them and what came of it then is told in
//! `tests/narrations/README.md`. All have been read since, so what is asked of them here shows fit.

use super::scoring::Score;
use crate::harness::narration::{self, Narration};
use eavesdraft::language::rules::Grammar;
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;
use serde_json::Value;
use std::path::Path;

/// The score of some authors' narrations of these kinds; of all where none is named.
fn score(kinds: &[&str], authors: &[&str]) -> Score {
    score_as(kinds, authors, str::to_owned)
}

/// The same, with the words written down in another way.
fn score_as(kinds: &[&str], authors: &[&str], written: impl Fn(&str) -> String) -> Score {
    let grammar = Grammar::built_in().unwrap();
    let narrations: Vec<_> = kinds.iter().flat_map(|kind| narration::narrations(kind).unwrap()).collect();
    for author in authors {
        assert!(
            narrations.iter().any(|narration| narration.author() == *author),
            "nobody is called {author}"
        );
    }
    let mut score = Score::default();
    for mut narration in narrations {
        if authors.is_empty() || authors.contains(&narration.author()) {
            rewrite(&mut narration.wanted, &written);
            let transcript = Transcript::from_plain(&written(&narration.text));
            let draft = serde_json::to_value(drafting::by_rules(&transcript, &grammar)).unwrap();
            score.add(&narration.path.display().to_string(), &narration.wanted, &draft);
        }
    }
    score
}

/// Writes every quotation of the labels anew.
fn rewrite(label: &mut Value, written: &impl Fn(&str) -> String) {
    match label {
        Value::Object(fields) => {
            for (name, value) in fields {
                match value {
                    Value::String(text) if name == "quote" => *text = written(text),
                    other => rewrite(other, written),
                }
            }
        }
        Value::Array(all) => all.iter_mut().for_each(|v| rewrite(v, written)),
        _ => {}
    }
}

/// What must at least be reached; set a little below what was measured when the rules were last changed.
pub(super) struct Floor {
    pub lines: f64,
    pub silent_errors: f64,
    pub look_rate: f64,
    pub look_recall: f64,
    pub beside: f64,
}

#[track_caller]
pub(super) fn reaches(score: &Score, floor: &Floor) {
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
    let score = score(&["clean"], &["rule-writers"]);
    reaches(
        &score,
        &Floor { lines: 0.99, silent_errors: 0.005, look_rate: 0.01, look_recall: 0.97, beside: 0.97 },
    );
}

#[test]
fn raw_captions_become_lines_too() {
    let score = score(&["captions"], &["rule-writers"]);
    reaches(
        &score,
        &Floor { lines: 0.95, silent_errors: 0.005, look_rate: 0.12, look_recall: 0.97, beside: 0.85 },
    );
}

/// As a recogniser of captions writes them. The breaths were fitted to these texts, so this too shows fit.
#[test]
fn narrations_without_their_marks_become_lines_too() {
    let without = super::punctuation::without_marks;
    let clean = score_as(&["clean"], &["rule-writers"], without);
    reaches(
        &clean,
        &Floor { lines: 0.94, silent_errors: 0.05, look_rate: 0.04, look_recall: 0.92, beside: 0.89 },
    );
    let others = [
        "teacher-and-lister",
        "carpenter-and-compass",
        "old-hand-and-chatterer",
        "dictated-lists-and-learner",
    ];
    let others = score_as(&["clean"], &others, without);
    reaches(
        &others,
        &Floor { lines: 0.89, silent_errors: 0.05, look_rate: 0.07, look_recall: 0.9, beside: 0.8 },
    );
}

#[track_caller]
fn authors_reach(kinds: &[&str], authors: &[&str], floor: &Floor) {
    reaches(&score(kinds, authors), floor);
}

#[test]
fn clean_narrations_of_other_authors_do_not_get_worse() {
    let read_first =
        Floor { lines: 0.96, silent_errors: 0.03, look_rate: 0.01, look_recall: 0.9, beside: 0.9 };
    let read_last =
        Floor { lines: 0.94, silent_errors: 0.04, look_rate: 0.03, look_recall: 0.86, beside: 0.8 };
    authors_reach(&["clean"], &["teacher-and-lister", "carpenter-and-compass"], &read_first);
    authors_reach(&["clean"], &["old-hand-and-chatterer", "dictated-lists-and-learner"], &read_last);
    let latest = Floor { lines: 0.9, silent_errors: 0.05, look_rate: 0.03, look_recall: 0.75, beside: 0.7 };
    authors_reach(
        &["clean"],
        &["crew-chief-and-roofer", "builder-and-trainee", "ordinary-walk-arounds"],
        &latest,
    );
}

#[test]
fn captions_of_other_authors_do_not_get_worse() {
    let read_first =
        Floor { lines: 0.92, silent_errors: 0.05, look_rate: 0.06, look_recall: 0.79, beside: 0.86 };
    let read_last =
        Floor { lines: 0.8, silent_errors: 0.1, look_rate: 0.15, look_recall: 0.76, beside: 0.75 };
    authors_reach(&["captions"], &["reps-in-the-weather", "outside-the-catalogue"], &read_first);
    authors_reach(&["captions"], &["long-talk-and-tape", "long-talk-and-argument"], &read_last);
    let latest = Floor { lines: 0.84, silent_errors: 0.07, look_rate: 0.12, look_recall: 0.88, beside: 0.55 };
    authors_reach(
        &["captions"],
        &["storm-rep-and-drawler", "inspector-and-foreman", "slow-and-chatty"],
        &latest,
    );
}

#[test]
fn narrations_of_first_contact_do_not_get_worse() {
    let read_first =
        Floor { lines: 0.94, silent_errors: 0.02, look_rate: 0.02, look_recall: 0.8, beside: 0.95 };
    let read_last =
        Floor { lines: 0.92, silent_errors: 0.05, look_rate: 0.04, look_recall: 0.9, beside: 0.65 };
    authors_reach(&["clean", "captions"], &["storyteller-and-clipped-lister"], &read_first);
    authors_reach(&["captions"], &["yards-and-steel-siding"], &read_last);
}

/// Read only lately, and far from good.
#[test]
fn narrations_read_last_do_not_get_worse() {
    let latest = Floor { lines: 0.8, silent_errors: 0.16, look_rate: 0.1, look_recall: 0.85, beside: 0.7 };
    authors_reach(&["clean", "captions"], &["quiet-and-rural"], &latest);
}

/// The expected calibration error over ten equal bins, as in Naeini, Cooper and Hauskrecht, "Obtaining Well
/// Calibrated Probabilities Using Bayesian Binning" (2015; from memory), of confidences and whether each was right.
pub(super) fn calibration_error(all: &[(f64, bool)]) -> f64 {
    let bin = |bin: u8| {
        let (from, to) = (f64::from(bin - 1) / 10.0, f64::from(bin) / 10.0);
        let inside = all.iter().filter(|(c, _)| *c > from && *c <= to || bin == 1 && *c <= 0.0);
        inside.map(|(c, right)| c - f64::from(u8::from(*right))).sum::<f64>().abs()
    };
    (1..=10).map(bin).sum::<f64>() / all.len() as f64
}

/// The fit was made from all but the latest of either kind.
#[test]
fn confidence_is_near_the_share_of_lines_that_are_right() {
    let all = score(&["clean", "captions"], &[]).confidence;
    assert!(all.len() > 2_200, "{}", all.len());
    let error = calibration_error(&all);
    assert!(error <= 0.02, "expected calibration error {error:.3}");
}

#[test]
fn labels_name_items_of_the_catalogue() {
    let grammar = Grammar::built_in().unwrap();
    let known = |item: &Value| grammar.items.iter().any(|known| *item == known.id);
    for narration in ["clean", "captions"].into_iter().flat_map(|kind| narration::narrations(kind).unwrap()) {
        let entries =
            narration.wanted.as_object().unwrap().values().flat_map(|list| list.as_array().unwrap());
        let items = entries.filter_map(|entry| entry.get("item"));
        let items =
            items.flat_map(|item| item.as_array().map_or(vec![item], |several| several.iter().collect()));
        for item in items.filter(|item| !item.is_null()) {
            assert!(known(item), "{}: {item} is no item of the catalogue", narration.path.display());
        }
    }
}

#[test]
fn what_is_wrong_with_a_narration_is_told_with_its_place() {
    let right = include_str!("../narrations/clean/rule-writers/terse-hardly-any-verbs.md");
    let path = Path::new("x.md");
    assert!(Narration::of(path, right).is_ok());
    for (written, instead, told) in [
        (
            "# ",
            "",
            "x.md:1: found `very terse narrator, digits, hardly any verbs`, expected a line that begins with `# `",
        ),
        ("\nid: ", "\nname: ", "x.md:3: found `name: d08`, expected a line that begins with `id: `"),
        ("## Said", "## Text", "x.md:5: found `## Text`, expected `## Said`"),
        ("> ", "", "expected what was said, each line after `> `"),
        ("### Lines", "### Items", "found `### Items`, expected one of `### Lines`, `### No work`"),
        ("### No work", "### Lines", "found `### Lines`, expected one of"),
        ("| work  ", "| job   ", "expected `none` or the columns place | item | work | amount"),
        ("|---", "---", "expected the line under a table's columns, `|---`"),
        ("| remove-replace", "| replace", "found `replace`, expected one of detach-reset, remove-replace"),
        (
            "| right  ",
            "| east   ",
            "found `east`, expected one of front, right, rear, left, none, or `-` under `place`",
        ),
        (" foot  ", " feet  ", "feet`, expected one of each, foot, square-foot"),
        ("1 each ", "1each  ", "found `1each`, expected a number or `-`, and a unit under `amount`"),
        ("1 each ", "x each ", "found `x each`, expected a number under `amount`"),
        ("| look ", "| locks", "found `locks`, expected some of only-if, look, optional, back under `marks`"),
        (" | 1 each", " 1 each", "expected 7 cells"),
    ] {
        assert!(right.contains(written), "{written}");
        let wrong = right.replacen(written, instead, 1);
        let error = Narration::of(path, &wrong).err().map(|error| error.to_string()).unwrap_or_default();
        assert!(error.contains(told), "{written} as {instead}: {error}");
    }
    let cut = &right[..right.find("### Dimensions").unwrap()];
    let error = Narration::of(path, cut).err().unwrap().to_string();
    assert_eq!(error, "x.md: there is no `### Dimensions`");
}

#[test]
fn a_text_is_read_as_it_was_before_it_was_wrapped() {
    let page = |said: &str| {
        let rest =
            "### Lines\n\nnone\n\n### No work\n\nnone\n\n### Follow-ups\n\nnone\n\n### Dimensions\n\nnone\n";
        format!("# a walk\n\nid: x\n\n## Said\n\n{said}\n\n## Wanted\n\n{rest}")
    };
    let text = |said: &str| Narration::of(Path::new("x.md"), &page(said)).unwrap().text;
    assert_eq!(text("> Front of the\n> house."), "Front of the house.");
    assert_eq!(text("> Front.\n>\n> Right\n> side."), "Front.\nRight side.");
}

#[test]
fn the_demo_becomes_its_labelled_lines() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("audio-fixtures");
    let label: Value =
        serde_json::from_str(&std::fs::read_to_string(root.join("demo.labels.json")).unwrap()).unwrap();
    let transcript = Transcript::from_plain(&std::fs::read_to_string(root.join("demo.txt")).unwrap());
    let draft = drafting::by_rules(&transcript, &Grammar::built_in().unwrap());
    let mut score = Score::default();
    score.add("demo", &label, &serde_json::to_value(draft).unwrap());
    assert_eq!(
        (score.lines.right, score.lines.extra, score.lines.missed),
        (19, 0, 0),
        "{}",
        score.misses.join("\n")
    );
}
