//! Standard output, standard error and exit codes.

use crate::harness::Desk;
use eavesdraft::model::Draft;
use std::process::Stdio;

const TEXT: &[u8] = b"On the front there are some screens. Two lights, detach and reset.";

#[test]
fn json_stands_alone_on_standard_output_and_nothing_is_written() {
    let desk = Desk::with([("walk.txt", TEXT)]);
    let run = desk.run(&["draft", "walk.txt", "--json"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let draft: Draft = serde_json::from_str(&run.out).unwrap();
    assert_eq!(draft.source, "walk.txt");
    assert_eq!(desk.names(), ["walk.txt"]);
}

#[test]
fn json_on_standard_output_is_the_file_byte_for_byte() {
    let desk = Desk::with([("walk.txt", TEXT)]);
    let run = desk.run(&["draft", "walk.txt", "--json", "--out", "."]);
    assert_eq!(run.out, desk.read("walk.scope.json"));
}

#[test]
fn several_inputs_give_one_array_of_those_that_were_done() {
    let desk = Desk::with([("a.txt", TEXT), ("b.txt", b""), ("c.txt", TEXT)]);
    let run = desk.run(&["draft", "a.txt", "b.txt", "c.txt", "--json"]);
    assert_eq!(run.code, 2);
    let drafts: Vec<Draft> = serde_json::from_str(&run.out).unwrap();
    assert_eq!(drafts.iter().map(|draft| draft.source.as_str()).collect::<Vec<_>>(), ["a.txt", "c.txt"]);
    assert!(run.err.starts_with("error: `b.txt`: the file is empty") && run.err.lines().count() == 1);
}

#[test]
fn strict_minds_lines_that_need_a_look_and_nothing_else() {
    let desk = Desk::with([("walk.txt", TEXT)]);
    let draft: Draft = serde_json::from_str(&desk.run(&["draft", "walk.txt", "--json"]).out).unwrap();
    let expected = i32::from(draft.lines.iter().any(|line| line.needs_look()));
    assert_eq!(desk.run(&["draft", "walk.txt", "--strict"]).code, expected);
    assert_eq!(desk.run(&["draft", "walk.txt"]).code, 0);
}

#[test]
fn a_pipe_gets_no_colours_and_no_progress() {
    let desk = Desk::with([("walk.txt", TEXT)]);
    let run = desk.run(&["draft", "walk.txt"]);
    assert!(!run.out.contains('\u{1b}') && !run.err.contains('\u{1b}'), "{run:?}");
    assert!(run.out.starts_with("Draft scope of work\nwalk\n"));
    assert_eq!(run.err, "Wrote walk.scope.json, walk.scope.html\n");
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let desk = Desk::with([("walk.txt", TEXT)]);
    let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_eavesdraft"))
        .args(["draft", "walk.txt", "--json"])
        .current_dir(desk.path(""))
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!((output.status.code(), output.stderr.as_slice()), (Some(0), &b""[..]));
}

#[test]
fn reasons_and_json_exclude_each_other() {
    let run = Desk::with([("walk.txt", TEXT)]).run(&["draft", "walk.txt", "--json", "--why"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("'--json' cannot be used with '--why'"), "{}", run.err);
}

#[test]
fn the_built_in_rules_pass_their_own_check() {
    let run = Desk::with([]).run(&["grammar", "check"]);
    assert_eq!((run.code, run.out.as_str()), (0, "the built-in rules: nothing wrong\n"), "{run:?}");
}
