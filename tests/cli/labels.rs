//! `labels`: what reviewers decided, as figures and as labeled narrations.

use crate::harness::{Desk, Table};
use eavesdraft::office::store::{FILE, Store};
use eavesdraft::scope::review::{Command, Event, Fields, LineState};
use serde_json::Value;
use std::convert::Infallible;

const WALK: &str = "Hello, this is Arvo at 1412 Quince Street. Front elevation. Two coach lights, detach and reset. Gutter, \
                    forty foot, remove and replace. Mailbox, remove and replace. Rear elevation. One hose bib, detach and \
                    reset. Some shutters, paint them.";

/// A folder with a walk that somebody reviewed: the lights are three, the mailbox is dropped, the shutters are four pair, a
/// doorbell is added, and the scope is signed off.
fn reviewed() -> Desk {
    let desk = Desk::with([("Quince.txt", WALK.as_bytes())]);
    assert_eq!(desk.run(&["draft", "Quince.txt"]).code, 0);
    // Where there is a store, the papers take the draft into it.
    drop(Store::open(&desk.path("")).unwrap());
    assert_eq!(desk.run(&["papers", ".", "--only", "json"]).code, 0);
    let mut store = Store::open(&desk.path("")).unwrap();
    let id = store.recordings().unwrap()[0].id.clone();
    let mut table = Table::of(store.drafted(&id).unwrap().unwrap().transcript);
    let typed = |quantity: &str| Fields { quantity: Some(quantity.to_owned()), ..Fields::default() };
    let (lights, mailbox, shutters) = (table.id("light-fixture"), table.id("mailbox"), table.id("shutter"));
    let doorbell = Fields { item: Some("doorbell".to_owned()), ..typed("1") };
    for command in [
        Command::Change { line: lights, fields: typed("3") },
        Command::Drop { lines: vec![mailbox], reason: "theirs".to_owned() },
        Command::Change { line: shutters, fields: typed("4 pair") },
        Command::Add { words: None, fields: doorbell },
    ] {
        table.does("Ann", command).unwrap();
    }
    let flagged = table.scope.entries.iter().filter(|entry| entry.state == LineState::Flagged);
    let lines: Vec<String> = flagged.map(|entry| entry.id().to_owned()).collect();
    if !lines.is_empty() {
        table.does("Ann", Command::Accept { lines }).unwrap();
    }
    table.does("Ann", Command::SignOff {}).unwrap();
    for event in table.events {
        store.add_event(&id, 0, |_| Ok::<Event, Infallible>(event)).unwrap().unwrap();
    }
    desk
}

#[test]
fn signed_off_scopes_tell_how_the_drafts_did() {
    let desk = reviewed();
    let run = desk.run(&["labels", "."]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("2 were changed or dropped in review"), "{}", run.out);
    assert!(run.out.contains("1 line was added"), "{}", run.out);
}

#[test]
fn words_and_scope_are_a_labeled_narration() {
    let desk = reviewed();
    assert_eq!(desk.run(&["labels", ".", "--out", "labels"]).code, 0);
    let told: Value = serde_json::from_str(&desk.read("labels/labels.jsonl")).unwrap();
    assert_eq!(told["text"], WALK.split_whitespace().collect::<Vec<_>>().join(" "));
    let lines = told["labels"]["lines"].as_array().unwrap();
    let items: Vec<&str> = lines.iter().map(|line| line["item"].as_str().unwrap()).collect();
    assert_eq!(items, ["light-fixture", "gutter", "hose-bib", "shutter"]);
    assert_eq!((lines[0]["quantity"].as_f64(), lines[0]["side"].as_str()), (Some(3.0), Some("front")));
    for line in lines {
        assert!(WALK.contains(line["quote"].as_str().unwrap()), "{line}");
    }
    desk.put("labels/labels.jsonl", b"a person worked on it");
    assert_eq!(desk.run(&["labels", ".", "--out", "labels", "--no-names"]).code, 0);
    assert_eq!(desk.read("labels/labels.jsonl~"), "a person worked on it");
    let told = desk.read("labels/labels.jsonl");
    assert!(!told.contains("Quince") && !told.contains("Arvo") && !told.contains("1412"), "{told}");
}

#[test]
fn without_a_review_or_a_signed_off_scope_it_says_what_to_do() {
    let desk = Desk::with([("9 Oak.txt", WALK.as_bytes())]);
    let run = desk.run(&["labels", "."]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("nothing has been reviewed here"), "{}", run.err);
    assert!(!desk.path(FILE).exists());
    drop(Store::open(&desk.path("")).unwrap());
    let run = desk.run(&["labels", "."]);
    assert!(run.code == 2 && run.err.contains("no scope has been signed off yet"), "{}", run.err);
}
