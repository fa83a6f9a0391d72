//! Where files go, and that nothing of the user's is lost.

use crate::harness::Desk;
use insta::assert_snapshot;

#[test]
fn a_draft_goes_beside_its_input() {
    let desk = Desk::with([("a/walk.txt", b"two lights")]);
    let run = desk.run(&["draft", "a/walk.txt"]);
    assert_eq!(run.code, 0, "{run:?}");
    assert_snapshot!(run.err, @"Wrote a/walk.scope.json, a/walk.scope.html");
    assert_eq!(desk.names(), ["a/walk.scope.html", "a/walk.scope.json", "a/walk.txt"]);
}

#[test]
fn a_draft_goes_into_a_folder_which_is_made() {
    let desk = Desk::with([(
        "walk.transcript.json",
        br#"{"source":"walk.m4a","utterances":[{"words":[{"text":"gutter"}]}]}"#,
    )]);
    assert_eq!(desk.run(&["draft", "walk.transcript.json", "--out", "b/c"]).code, 0);
    assert_eq!(desk.names(), ["b/c/walk.scope.html", "b/c/walk.scope.json", "walk.transcript.json"]);
}

#[test]
fn our_own_earlier_draft_is_replaced() {
    let desk = Desk::with([("walk.txt", b"two lights")]);
    assert_eq!(desk.run(&["draft", "walk.txt"]).code, 0);
    let first = desk.read("walk.scope.json");
    desk.put("walk.txt", b"three lights");
    assert_eq!(desk.run(&["draft", "walk.txt"]).code, 0);
    assert_ne!(desk.read("walk.scope.json"), first);
    assert_eq!(desk.names(), ["walk.scope.html", "walk.scope.json", "walk.txt"]);
}

#[test]
fn someone_elses_file_is_left_alone() {
    let desk = Desk::with([("walk.txt", b"two lights"), ("walk.scope.html", b"<p>my own page")]);
    let run = desk.run(&["draft", "walk.txt"]);
    assert_eq!(run.code, 2);
    assert_snapshot!(run.err, @"error: `walk.scope.html` is there already and isn't Eavesdraft's: move it, or write elsewhere with --out");
    assert_eq!(desk.read("walk.scope.html"), "<p>my own page");
    assert_eq!(desk.names(), ["walk.scope.html", "walk.txt"]);
}

#[test]
fn captions_of_the_users_own_are_never_overwritten() {
    let captions = b"WEBVTT\n\n00:01.000 --> 00:02.000\nmy own captions\n";
    let desk = Desk::with([("walk.m4a", b"\x00\x01sound"), ("walk.vtt", captions)]);
    let alone = desk.run_hearing(&["hear", "./walk.m4a"]);
    assert!(alone.code == 2 && alone.err.contains("isn't Eavesdraft's"), "{alone:?}");
    let both = desk.run_hearing(&["draft", "./walk.m4a", "./walk.vtt"]);
    assert!(both.code == 2 && both.err.contains("is given as input and would be overwritten"), "{both:?}");
    assert_eq!(desk.read("walk.vtt").as_bytes(), captions);
    // The captions themselves were drafted: the other input's trouble isn't theirs.
    assert_eq!(desk.names(), ["walk.m4a", "walk.scope.html", "walk.scope.json", "walk.vtt"]);
}

#[test]
fn two_inputs_of_one_name_dont_overwrite_each_other() {
    let desk = Desk::with([("a/walk.txt", b"two lights"), ("b/walk.txt", b"three lights")]);
    let run = desk.run(&["draft", "a/walk.txt", "b/walk.txt", "--out", "c", "--json"]);
    assert_eq!(run.code, 2);
    assert_snapshot!(run.err, @r"
    error: `c/walk.scope.json` is where `a/walk.txt` goes already: rename one of them, or write elsewhere with --out
    Wrote c/walk.scope.json, c/walk.scope.html
    ");
    let alone = desk.run(&["draft", "a/walk.txt", "--json"]);
    assert_eq!(desk.read("c/walk.scope.json"), alone.out);
}

#[test]
fn a_place_that_takes_no_files_is_told_before_anything_is_heard() {
    let desk = Desk::with([("walk.m4a", b"\x00\x01sound"), ("taken", b"a file")]);
    for out in ["./taken", "./taken/deeper"] {
        let run = desk.run_hearing(&["draft", "./walk.m4a", "--out", out]);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
        assert!(run.err.contains("taken` isn't a folder: name a folder to write into"), "{}", run.err);
    }
    assert_eq!(desk.names(), ["taken", "walk.m4a"]);
}

#[test]
fn corrected_words_are_kept_when_the_recording_is_heard_again() {
    let desk = Desk::with([("walk.m4a", b"\x00\x01sound")]);
    assert_eq!(desk.run_hearing(&["draft", "./walk.m4a"]).code, 0);
    let corrected = desk.read("walk.transcript.json").replace("two", "four");
    desk.put("walk.transcript.json", corrected.as_bytes());
    let again = desk.run_hearing(&["draft", "./walk.m4a"]);
    assert!(again.code == 0 && again.err.contains("Kept the earlier words as"), "{again:?}");
    assert_eq!(desk.read("walk.transcript.json~"), corrected);
}

#[test]
fn from_standard_input_files_are_written_only_into_a_folder() {
    let desk = Desk::with([]);
    assert_eq!(desk.run_with(&["draft", "-"], "two lights").code, 0);
    assert!(desk.names().is_empty());
    assert_eq!(desk.run_with(&["draft", "-", "--out", "."], "two lights").code, 0);
    assert_eq!(desk.names(), ["stdin.scope.html", "stdin.scope.json"]);
}

#[test]
fn a_transcript_from_standard_input_is_filed_under_its_recording() {
    let desk = Desk::with([]);
    let words = r#"{"source":"../walk.m4a","utterances":[{"words":[{"text":"gutter"}]}]}"#;
    assert_eq!(desk.run_with(&["draft", "-", "--out", "out"], words).code, 0);
    assert_eq!(desk.names(), ["out/walk.scope.html", "out/walk.scope.json"]);
}

#[cfg(unix)]
#[test]
fn documents_are_for_whoever_the_users_files_are_for() {
    use std::os::unix::fs::PermissionsExt;
    let desk = Desk::with([("walk.txt", b"two lights")]);
    assert_eq!(desk.run(&["draft", "walk.txt"]).code, 0);
    let mode = |name: &str| desk.path(name).metadata().unwrap().permissions().mode();
    assert_eq!(mode("walk.scope.json"), mode("walk.txt"));
}
