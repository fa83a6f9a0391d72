//! Recordings, with a recogniser that replays stored words.

use crate::harness::Desk;
use eavesdraft::speech::Transcript;

const SOUND: &[u8] = b"\x00\x01sound";

#[test]
fn a_recording_gives_words_and_a_draft() {
    let desk = Desk::with([("walk.m4a", SOUND)]);
    let run = desk.run_hearing(&["draft", "./walk.m4a"]);
    assert_eq!(run.code, 0, "{run:?}");
    let files = ["walk.m4a", "walk.scope.html", "walk.scope.json", "walk.transcript.json", "walk.vtt"];
    assert_eq!(desk.names(), files);
    assert!(desk.read("walk.vtt").starts_with("WEBVTT\n\nNOTE Heard by Eavesdraft from walk.m4a\n"));
    assert!(run.out.starts_with("Draft scope of work\nwalk\n"), "{}", run.out);
}

#[test]
fn words_kept_give_the_same_draft_as_the_recording() {
    let desk = Desk::with([("walk.m4a", SOUND)]);
    let heard = desk.run_hearing(&["draft", "./walk.m4a"]);
    let recorded = desk.read("walk.scope.json");
    let read = desk.run(&["draft", "walk.transcript.json"]);
    assert_eq!((heard.code, read.code), (0, 0));
    assert_eq!((desk.read("walk.scope.json"), read.out), (recorded, heard.out));
}

#[test]
fn hearing_alone_writes_the_words_and_shows_them() {
    let desk = Desk::with([("walk.m4a", SOUND)]);
    let run = desk.run_hearing(&["hear", "./walk.m4a"]);
    assert_eq!(run.code, 0, "{run:?}");
    assert_eq!(desk.names(), ["walk.m4a", "walk.transcript.json", "walk.vtt"]);
    let shown = "Words as they were heard\nwalk\n\nWords\n Time  Words\n00:01  On the front elevation,\n00:03  two \
                 light fixtures, detach and reset.\n";
    assert_eq!(run.out, shown);
}

#[test]
fn words_as_json_are_what_draft_takes() {
    let desk = Desk::with([("walk.m4a", SOUND)]);
    let words = desk.run_hearing(&["hear", "./walk.m4a", "--json"]);
    assert_eq!(desk.names(), ["walk.m4a"]);
    let transcript: Transcript = serde_json::from_str(&words.out).unwrap();
    assert_eq!((transcript.source.as_str(), transcript.words().count()), ("walk.m4a", 10));
    let draft = desk.run_with(&["draft", "-", "--json"], words.out);
    assert_eq!(draft.out, desk.run_hearing(&["draft", "./walk.m4a", "--json"]).out);
}

#[test]
fn a_recording_that_fails_is_told_of_and_the_others_are_done() {
    let desk = Desk::with([("silent.m4a", SOUND), ("walk.m4a", SOUND)]);
    let run = desk.run_hearing(&["draft", "./silent.m4a", "./walk.m4a"]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.starts_with("error: `silent.m4a`: nobody speaks in it: record it again\nWrote "),
        "{}",
        run.err
    );
    let mut files = ["scope.html", "scope.json", "transcript.json", "vtt"]
        .map(|ending| format!("walk.{ending}"))
        .to_vec();
    files.extend(["silent.m4a".to_owned(), "walk.m4a".to_owned()]);
    files.sort();
    assert_eq!(desk.names(), files);
}
