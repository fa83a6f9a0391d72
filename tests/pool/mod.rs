//! Recordings in a pool that is a folder, heard by a recogniser that replays stored words. `bucket.py` does the same
//! with the real one and a bucket, and `deploy.py` checks the examples in `deploy/`.

mod gathering;

use crate::harness::Desk;
use eavesdraft::model::digest;
use std::fs;

/// A desk with so many recordings in `walks`, in folders of two, all put into `pool`.
fn pooled(recordings: usize) -> Desk {
    let desk = Desk::with([]);
    for n in 0..recordings {
        desk.put(&format!("walks/{}/walk-{n}.wav", n / 2), format!("\0sound {n}").as_bytes());
    }
    let run = desk.run_hearing(&["pool", "put", "./walks", "./pool"]);
    assert_eq!(run.code, 0, "{run:?}");
    desk
}

/// The objects of the pool in that folder.
fn objects(desk: &Desk, folder: &str) -> Vec<String> {
    let folder = format!("pool/{folder}/");
    desk.names().into_iter().filter(|name| name.starts_with(&folder)).collect()
}

#[test]
fn what_is_put_and_heard_once_is_not_done_again() {
    let desk = pooled(3);
    assert_eq!(objects(&desk, "recordings").len(), 3);
    let first = desk.run_hearing(&["pool", "hear", "./pool"]);
    assert_eq!(first.code, 0, "{first:?}");
    assert!(first.err.contains("Part 1/1: 3 to hear, 0 heard already, 0 skipped"), "{}", first.err);
    let names = desk.names();

    let put = desk.run_hearing(&["pool", "put", "./walks", "./pool"]);
    assert!(
        put.code == 0 && put.err.contains("0 recordings put into") && put.err.contains("3 there already")
    );
    let again = desk.run_hearing(&["pool", "hear", "./pool"]);
    assert_eq!(again.err, "Part 1/1: 0 to hear, 3 heard already, 0 skipped\n");
    assert_eq!(desk.names(), names);
    let status = desk.run_hearing(&["pool", "status", "./pool"]);
    assert!(status.out.starts_with("3 recordings: 3 heard, 0 skipped, 0 to hear"), "{}", status.out);
}

#[test]
fn words_are_those_that_hear_writes() {
    let desk = pooled(1);
    desk.run_hearing(&["pool", "hear", "./pool"]);
    desk.run_hearing(&["hear", "./walks/0/walk-0.wav"]);
    assert_eq!(desk.read(&objects(&desk, "words")[0]), desk.read("walks/0/walk-0.transcript.json"));
}

#[test]
fn the_parts_together_hear_each_recording_once() {
    let desk = pooled(20);
    let mut heard = 0;
    for part in ["2/3", "1/3", "3/3"] {
        let run = desk.run_hearing(&["pool", "hear", "./pool", "--part", part]);
        assert_eq!(run.code, 0, "{run:?}");
        let told = run.err.lines().filter(|line| line.contains(" of ")).count();
        assert!(told > 0 && told < 20, "part {part} has {told}");
        heard += told;
        assert_eq!(objects(&desk, "words").len(), heard);
    }
    assert_eq!(heard, 20);
}

#[test]
fn a_recording_that_cant_be_heard_is_skipped_and_the_others_are_heard() {
    let desk = Desk::with([("walks/silent.wav", b"\0silence"), ("walks/walk.wav", b"\0sound")]);
    desk.run_hearing(&["pool", "put", "./walks", "./pool"]);
    let run = desk.run_hearing(&["pool", "hear", "./pool"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("error: skipped: `silent.wav`: nobody speaks in it: record it again\n"));
    assert_eq!((objects(&desk, "words").len(), objects(&desk, "apart").len()), (1, 1));

    let again = desk.run_hearing(&["pool", "hear", "./pool"]);
    assert_eq!(again.code, 2);
    assert!(again.err.starts_with("Part 1/1: 0 to hear, 1 heard already, 1 skipped\n"), "{}", again.err);
    let retried = desk.run_hearing(&["pool", "hear", "./pool", "--retry"]);
    assert!(retried.code == 2 && retried.err.contains("1 of 1: silent.wav"), "{}", retried.err);
    let status = desk.run_hearing(&["pool", "status", "./pool"]);
    assert!(status.out.starts_with("2 recordings: 1 heard, 1 skipped, 0 to hear"), "{}", status.out);
    assert!(status.out.contains("  silent.wav: `silent.wav`: nobody speaks in it"), "{}", status.out);
}

#[test]
fn status_tells_where_no_model_is_at_hand() {
    let desk = pooled(2);
    desk.run_hearing(&["pool", "hear", "./pool", "--part", "1/1"]);
    desk.put("no-cache/x", b"");
    // A cache without a model, whatever this build can do.
    let output =
        desk.command(&["pool", "status", "pool"]).env("XDG_CACHE_HOME", desk.path("no-cache")).output();
    let out = String::from_utf8(output.unwrap().stdout).unwrap();
    assert!(out.starts_with("2 recordings: 2 heard, 0 skipped, 0 to hear"), "{out}");
}

#[test]
fn a_damaged_recording_is_noticed_and_can_be_put_right() {
    let desk = pooled(2);
    let [cut, changed] = &objects(&desk, "recordings")[..] else { panic!() };
    desk.put(cut, b"\0sou");
    desk.put(changed, b"\0sounD 7");
    let run = desk.run_hearing(&["pool", "hear", "./pool"]);
    assert_eq!(run.code, 2);
    assert_eq!(run.err.matches("is damaged in the pool").count(), 2, "{}", run.err);
    assert_eq!((objects(&desk, "words"), objects(&desk, "apart")), (vec![], vec![]));

    fs::remove_file(desk.path(changed)).unwrap();
    let put = desk.run_hearing(&["pool", "put", "./walks", "./pool"]);
    assert!(put.err.contains("2 recordings put into"), "{}", put.err);
    assert_eq!(desk.run_hearing(&["pool", "hear", "./pool"]).code, 0);
}

#[test]
fn what_a_killed_process_left_half_written_is_no_object() {
    let desk = pooled(1);
    let recording = objects(&desk, "recordings").remove(0);
    let other = digest::of_bytes(b"never sent whole");
    desk.put(&format!("pool/recordings/{other}#1"), b"never");
    desk.run_hearing(&["pool", "hear", "./pool"]);
    let words = objects(&desk, "words").remove(0);
    fs::rename(desk.path(&words), desk.path(&format!("{words}#1"))).unwrap();
    desk.put(&format!("{recording}.part"), b"\0so");

    let run = desk.run_hearing(&["pool", "hear", "./pool"]);
    assert!(run.code == 0 && run.err.starts_with("Part 1/1: 1 to hear, 0 heard already"), "{run:?}");
    assert!(objects(&desk, "words").contains(&words));
}

#[test]
fn the_name_of_a_recording_never_leads_out_of_its_folder() {
    let desk = pooled(1);
    let name = objects(&desk, "names").remove(0);
    desk.put(&name, br#"{"name": "../../escaped.wav"}"#);
    assert_eq!(desk.run_hearing(&["pool", "hear", "./pool"]).code, 0);
    assert!(!desk.names().iter().any(|name| name.ends_with("escaped.wav")));
}

#[test]
fn a_task_of_an_array_job_must_know_how_many_there_are() {
    let desk = pooled(1);
    let mut command = desk.command(&["pool", "hear", "pool"]);
    let output = command.env("JOB_COMPLETION_INDEX", "1").env_remove("EAVESDRAFT_PARTS").output().unwrap();
    let err = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(err.contains("JOB_COMPLETION_INDEX is set, but not EAVESDRAFT_PARTS"), "{err}");
}

#[test]
fn no_pool_no_recordings_and_no_place_are_told_in_a_sentence() {
    let desk = Desk::with([("notes/notes.txt", b"no sound")]);
    let err = |args: &[&str]| {
        let run = desk.run_hearing(args);
        assert_eq!(run.code, 2, "{run:?}");
        run.err
    };
    assert!(err(&["pool", "hear", "./pool"]).contains("there is no pool"));
    assert!(err(&["pool", "put", "./notes", "./pool"]).contains("there is no recording in"));
    assert!(err(&["pool", "put", "./nowhere", "./pool"]).contains("nowhere"));
    assert!(err(&["pool", "hear", "ftp://walks"]).contains("give a folder, or a bucket as s3://BUCKET"));
    let bucket = err(&["pool", "hear", "s3:///walks"]);
    assert!(bucket.contains("it names no bucket") || bucket.contains("--features bucket"), "{bucket}");
}
