//! The record against its published schema, both ways: what we write fits it, and what is wrong doesn't.

use super::{Table, walked};
use crate::harness::narration::narrations;
use crate::harness::sample_draft;
use eavesdraft::output::{Job, record};
use eavesdraft::scope::review::{Command, Scope};
use serde_json::{Value, json};
use std::sync::LazyLock;

static SCHEMA: LazyLock<jsonschema::Validator> = LazyLock::new(|| {
    let schema: Value = serde_json::from_str(record::SCHEMA).unwrap();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    assert!(jsonschema::meta::is_valid(&schema));
    jsonschema::draft202012::new(&schema).unwrap()
});

fn written(job: &Job) -> Value {
    serde_json::from_slice(&record::bytes(job)).unwrap()
}

#[track_caller]
fn fits(record: &Value) {
    let faults: Vec<String> =
        SCHEMA.iter_errors(record).map(|fault| format!("{}: {fault}", fault.instance_path())).collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn what_is_written_fits_the_schema_and_comes_back() {
    let mut settled = Table::new("Front elevation. Mailbox, replace. Two coach lights, detach and reset.");
    settled.does("Ann", Command::SignOff {}).unwrap();
    let mut measured =
        Table::new("Front elevation. The roof is a six twelve pitch. Siding, remove and replace.");
    let command = json!({ "do": "set-dimension", "dimension": { "structure": "house", "side": "front", "shape": "wall", "number": 1 },
                       "measurements": { "width": "26' 4\"", "height": "" } });
    measured.does("Ann", serde_json::from_value(command).unwrap()).unwrap();
    for table in [walked(), settled, measured, Table::new("Hello there.")] {
        let job = table.job();
        fits(&written(&job));
        let bytes = record::bytes(&job);
        assert_eq!(record::read("x.json", &bytes).unwrap(), record::Record::of(&job));
        assert_eq!(bytes, record::bytes(&table.job()));
    }
}

#[test]
fn a_draft_with_a_line_of_every_kind_fits_the_schema() {
    let draft = sample_draft();
    let scope = Scope::of(&draft);
    let job = Job::new(&draft, &scope, &[], &super::GRAMMAR);
    fits(&written(&job));
}

#[test]
fn the_labelled_narrations_fit_the_schema() {
    let narrations = ["clean", "captions"].into_iter().flat_map(|kind| narrations(kind).unwrap());
    let of_the_first = narrations.filter(|narration| narration.author() == "rule-writers");
    let fitted = of_the_first.map(|narration| fits(&written(&Table::timed(&narration.text).job())));
    assert_eq!(fitted.count(), 20);
}

#[test]
fn conditional_and_dropped_lines_stand_apart() {
    let table = walked();
    let record = record::Record::of(&table.job());
    assert!(record.lines.lines.iter().all(|line| !line.line.only_if && line.number.is_some()));
    assert!(record.lines.to_confirm.iter().all(|line| line.line.only_if));
    assert_eq!(record.lines.to_confirm.len(), 1);
    assert_eq!(record.lines.dropped[0].reason.as_deref(), Some("=theirs, not ours"));
    assert_eq!(record.history.len(), table.events.len());
    let counted: usize = record.sums.iter().map(|sum| sum.lines.len()).sum();
    assert_eq!(counted, record.lines.lines.len());
}

#[test]
fn every_field_is_called_for_and_no_other_is_allowed() {
    let table = walked();
    let good = written(&table.job());
    let places = [
        "",
        "/lines/0",
        "/to_confirm/0",
        "/dropped/0",
        "/no_work/0",
        "/follow_ups/0",
        "/follow_ups/0/follow_up",
        "/dimensions/0",
        "/takeoff",
        "/takeoff/figures/0",
        "/takeoff/figures/0/inputs/0",
        "/sums/0",
        "/cautions/0",
        "/history/0",
    ];
    let optional = [
        "words",
        "other_reading",
        "readings",
        "why",
        "low_exact",
        "high_exact",
        "width_exact",
        "height_exact",
        "rise_exact",
    ];
    for place in places {
        let object = good.pointer(place).and_then(Value::as_object).unwrap_or_else(|| panic!("no {place}"));
        for key in object.keys().filter(|key| !optional.contains(&key.as_str())) {
            let mut bad = good.clone();
            bad.pointer_mut(place).unwrap().as_object_mut().unwrap().remove(key);
            assert!(!SCHEMA.is_valid(&bad), "{place} without {key} is taken");
            let mut bad = good.clone();
            bad.pointer_mut(place).unwrap()[key] = json!({"no": "such"});
            assert!(!SCHEMA.is_valid(&bad), "{place} with another {key} is taken");
        }
        let mut bad = good.clone();
        bad.pointer_mut(place).unwrap()["verdict"] = json!("paid");
        assert!(!SCHEMA.is_valid(&bad), "{place} with one more field is taken");
    }
}

#[test]
fn wrong_values_are_refused() {
    let table = walked();
    let good = written(&table.job());
    let wrong = [
        ("/form", json!("eavesdraft-scope/1")),
        ("/kind", json!("Estimate")),
        ("/lines/0/only_if", json!(true)),
        ("/to_confirm/0/only_if", json!(false)),
        ("/lines/0/state", json!("dropped")),
        ("/lines/0/number", json!(null)),
        ("/lines/0/side", json!("north")),
        ("/lines/0/unit", json!("ft")),
        ("/lines/0/work", json!("demolish")),
        ("/lines/0/quantity", json!(-1)),
        ("/lines/0/confidence", json!(1.5)),
        ("/lines/0/flags", json!(["rough-number", "rough-number"])),
        ("/lines/0/element", json!("H1010")),
        ("/lines/0/start", json!(-0.5)),
        ("/takeoff/figures/0/exact", json!("8.3")),
        ("/sums/0/lines", json!([])),
        ("/closing", json!([])),
    ];
    for (place, value) in wrong {
        let mut bad = good.clone();
        *bad.pointer_mut(place).unwrap() = value.clone();
        assert!(!SCHEMA.is_valid(&bad), "{place} is taken as {value}");
    }
}

#[test]
fn another_form_is_refused_in_words() {
    let table = walked();
    let mut other = written(&table.job());
    other["form"] = json!("eavesdraft-scope/9");
    let told =
        |value: &Value| record::read("a.json", &serde_json::to_vec(value).unwrap()).unwrap_err().to_string();
    assert!(told(&other).starts_with("`a.json` is of the form “eavesdraft-scope/9”"));
    assert!(told(&json!({"lines": 3})).starts_with("`a.json` is no record of a scope ("));
}

#[test]
fn what_three_decimals_cant_hold_has_its_fraction() {
    let table = Table::new(
        "Rear elevation. Eight foot four inches of gutter, replace. Thirty feet of fence, replace.",
    );
    let record = written(&table.job());
    fits(&record);
    let [gutter, fence] = [&record["lines"][0], &record["lines"][1]];
    assert_eq!((&gutter["low"], &gutter["low_exact"]), (&json!(8.333), &json!("25/3")));
    assert_eq!((&fence["low"], fence.get("low_exact")), (&json!(30.0), None));
}

#[test]
fn a_record_of_the_first_form_is_read_too() {
    let table = Table::new("Rear elevation. Eight foot four inches of gutter, replace.");
    let mut first = written(&table.job());
    first["form"] = json!("eavesdraft-scope/1");
    let line = first["lines"][0].as_object_mut().unwrap();
    line.remove("low_exact");
    line.remove("high_exact");
    let read = record::read("a.json", &serde_json::to_vec(&first).unwrap()).unwrap();
    assert_eq!(read.lines, record::Record::of(&table.job()).lines);
}
