//! What is read, counted and kept where there are many recordings.

use super::{Served, WALK, drafted};
use crate::harness::Desk;
use serde_json::{Value, json};
use std::time::{Duration, SystemTime};

fn queue(served: &Served) -> Value {
    served.get("/api/queue").json()["recordings"].clone()
}

/// As if the file had been changed that many seconds ago.
fn aged(desk: &Desk, name: &str, seconds: u64) {
    let file = std::fs::File::options().write(true).open(desk.path(name)).unwrap();
    file.set_modified(SystemTime::now() - Duration::from_secs(seconds)).unwrap();
}

/// A recording that was heard, whose files were written some time ago.
fn heard() -> Desk {
    let fixture = concat!(env!("CARGO_MANIFEST_DIR"), "/audio-fixtures/demo.flac");
    let desk = Desk::with([("walk.flac", std::fs::read(fixture).unwrap().as_slice())]);
    let run = desk.run_hearing(&["draft", "./walk.flac"]);
    assert_eq!(run.code, 0, "{}", run.err);
    aged(&desk, "walk.scope.json", 100);
    aged(&desk, "walk.transcript.json", 100);
    desk
}

#[test]
fn files_that_are_as_they_were_are_not_read_again() {
    let desk = heard();
    let first = queue(&Served::over(&desk));
    let draft = desk.read("walk.scope.json");
    let time = std::fs::metadata(desk.path("walk.scope.json")).unwrap().modified().unwrap();
    desk.put("walk.scope.json", &vec![b'x'; draft.len()]);
    let file = std::fs::File::options().write(true).open(desk.path("walk.scope.json")).unwrap();
    file.set_modified(time).unwrap();
    assert_eq!(queue(&Served::over(&desk)), first, "nothing tells that it changed");
    aged(&desk, "walk.scope.json", 50);
    let run = desk.run(&["review", ".", "--no-browser"]);
    assert!(run.err.contains("a draft that eavesdraft wrote"), "{}", run.err);
    desk.put("walk.scope.json", draft.as_bytes());
    assert_eq!(queue(&Served::over(&desk)), first);
}

#[test]
fn a_recording_that_moved_is_found_though_its_draft_is_not_read() {
    let desk = heard();
    assert_eq!(queue(&Served::over(&desk))[0]["missing"], false);
    desk.put("elsewhere/walk.flac", &std::fs::read(desk.path("walk.flac")).unwrap());
    std::fs::remove_file(desk.path("walk.flac")).unwrap();
    assert_eq!(queue(&Served::over(&desk))[0]["missing"], true);
    let served = Served::with(&desk, &["--recordings", "elsewhere"]);
    assert_eq!(queue(&served)[0]["missing"], false);
}

#[test]
fn the_queue_counts_what_was_done_since() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let before = queue(&served)[0].clone();
    assert_eq!(
        (&before["follow_ups"], &before["photos"], &before["measurements"]),
        (&json!(1), &json!(1), &json!(0))
    );
    let recording = served.recording();
    let id = served.line(&recording, "gutter")["id"].as_str().unwrap().to_owned();
    let accept = json!({ "do": "accept", "lines": [id] });
    assert_eq!(served.send(&recording, "Ann", &json!({ &id: 0 }), &accept).status, 200);
    let open = before["flagged"].as_u64().unwrap() - 1;
    assert_eq!(queue(&served)[0]["flagged"], open);
    assert_eq!(queue(&Served::over(&desk))[0]["flagged"], open, "by another program too");
    assert_eq!(served.send(&recording, "Ann", &json!({}), &json!({ "do": "undo" })).status, 200);
    assert_eq!(queue(&served)[0], before);
}

#[test]
fn a_second_page_has_a_port_of_its_own() {
    let desk = drafted(WALK);
    let (one, two) = (Served::over(&desk), Served::over(&desk));
    assert_ne!(one.address, two.address);
    assert_eq!(queue(&one), queue(&two));
}
