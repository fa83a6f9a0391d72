//! A day's recordings in one go.

#[cfg(all(unix, feature = "whisper"))]
mod stopped;
mod trouble;
#[cfg(unix)]
mod watched;

use crate::harness::Desk;
use serde_json::Value;

/// Asks a program to end, as Ctrl-C does.
#[cfg(unix)]
fn interrupt(child: &std::process::Child) {
    let id = child.id().to_string();
    assert!(std::process::Command::new("kill").args(["-INT", &id]).status().unwrap().success());
}

/// Runs over the whole folder, with a recogniser that hears one narration in everything not called `silent`.
fn day(desk: &Desk, args: &[&str]) -> crate::harness::Run {
    desk.run_hearing(&[&["day", "./", "--still", "0"], args].concat())
}

/// The events of a run.
fn events(desk: &Desk) -> Vec<Value> {
    let run = day(desk, &["--json"]);
    run.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

fn of<'a>(events: &'a [Value], name: &str) -> Vec<&'a Value> {
    events.iter().filter(|event| event["event"] == name).collect()
}

#[test]
fn every_recording_is_drafted_and_the_day_told() {
    let desk = Desk::with([("9 Oak.wav", b"one"), ("14 Elm/REC_0413.wav", b"two")]);
    let run = day(&desk, &[]);
    assert_eq!(run.code, 0, "{}", run.err);
    let expected = [
        "14 Elm/14 Elm.scope.html",
        "14 Elm/14 Elm.scope.json",
        "14 Elm/14 Elm.transcript.json",
        "14 Elm/REC_0413.transcript.json",
        "14 Elm/REC_0413.vtt",
        "14 Elm/REC_0413.wav",
        "9 Oak.scope.html",
        "9 Oak.scope.json",
        "9 Oak.transcript.json",
        "9 Oak.vtt",
        "9 Oak.wav",
        "day.html",
        "eavesdraft.sqlite",
    ];
    let names: Vec<String> = desk.names().into_iter().filter(|name| !name.starts_with('.')).collect();
    assert_eq!(names, expected);
    assert!(
        run.out.contains("9 Oak") && run.out.contains("2 properties: 2 lines, 0 need review"),
        "{}",
        run.out
    );
    let page = desk.read("day.html");
    assert!(page.contains(r#"href="14%20Elm/14%20Elm.scope.html""#), "{page}");
}

#[test]
fn what_is_done_is_not_done_again_and_what_is_new_is() {
    let desk = Desk::with([("9 Oak.wav", b"one"), ("14 Elm.wav", b"two")]);
    assert_eq!(of(&events(&desk), "heard").len(), 2);
    let again = events(&desk);
    assert_eq!((of(&again, "heard").len(), of(&again, "drafted").len()), (0, 0));
    assert_eq!(of(&again, "finished")[0]["visits"], 2);
    desk.put("3 Ash.wav", b"three");
    desk.put("9 Oak.wav", b"another walk");
    assert_eq!(of(&events(&desk), "heard").len(), 2);
}

#[test]
fn a_recording_that_was_renamed_or_moved_is_known() {
    let desk = Desk::with([("9 Oak.wav", b"one")]);
    events(&desk);
    std::fs::create_dir(desk.path("monday")).unwrap();
    std::fs::rename(desk.path("9 Oak.wav"), desk.path("monday/11 Oak.wav")).unwrap();
    let moved = events(&desk);
    assert_eq!((of(&moved, "heard").len(), of(&moved, "drafted").len()), (0, 1));
    assert_eq!(of(&moved, "finished")[0]["visits"], 1);
    assert!(desk.read("monday/11 Oak.scope.json").contains(r#""source": "11 Oak.wav""#));
}

#[test]
fn the_same_recording_twice_is_done_once_and_told() {
    let desk = Desk::with([("9 Oak.wav", b"one"), ("copy/oak again.wav", b"one")]);
    let told = events(&desk);
    assert_eq!(of(&told, "heard").len(), 1);
    assert!(of(&told, "same")[0]["file"].as_str().unwrap().ends_with("oak again.wav"));
    assert!(desk.read("day.html").contains("The same recording twice"));
}

#[test]
fn one_bad_file_is_skipped_and_the_day_goes_on() {
    let desk = Desk::with([("silent.wav", b"nothing"), ("9 Oak.wav", b"one"), ("14 Elm.wav", b"two")]);
    let run = day(&desk, &[]);
    assert_eq!(run.code, 2);
    assert!(run.out.contains("Skipped") && run.out.contains("nobody speaks in it"), "{}", run.out);
    assert!(desk.read("day.html").contains("nobody speaks in it"));
    assert!(desk.path("14 Elm.scope.json").exists() && desk.path("9 Oak.scope.json").exists());
}

#[test]
fn clips_of_a_visit_are_one_draft_and_the_side_carries_over() {
    let one = "WEBVTT\n\n00:01.000 --> 00:03.000\nRear elevation. Two light fixtures, detach and reset.\n";
    let two = "WEBVTT\n\n00:01.000 --> 00:03.000\nOne hose bib, detach and reset.\n";
    let desk = Desk::with([("14 Elm part 1.vtt", one.as_bytes()), ("14 Elm part 2.vtt", two.as_bytes())]);
    let run = day(&desk, &[]);
    assert_eq!(run.code, 0, "{}{}", run.err, run.out);
    let draft: Value = serde_json::from_str(&desk.read("14 Elm.scope.json")).unwrap();
    assert_eq!(draft["source"], "14 Elm");
    let sides: Vec<&Value> = draft["lines"].as_array().unwrap().iter().map(|line| &line["side"]).collect();
    assert_eq!(sides, ["rear", "rear"]);
    assert_eq!(
        (draft["clips"][0]["start"].as_f64(), draft["clips"][1]["start"].as_f64()),
        (Some(0.0), Some(3.0))
    );
    assert!(draft["lines"][1]["start"].as_f64().unwrap() >= 4.0);
    let again = events(&desk);
    assert_eq!((of(&again, "drafted").len(), of(&again, "same").len()), (0, 0), "{again:?}");
    assert_eq!(of(&again, "found")[0]["visits"], 1);
}

#[test]
fn a_visit_stays_one_when_its_documents_lie_beside_its_clips() {
    let desk = Desk::with([("14 Elm 1.wav", b"one"), ("14 Elm 2.wav", b"two")]);
    assert_eq!(of(&events(&desk), "drafted")[0]["property"], "14 Elm");
    let again = events(&desk);
    assert_eq!((of(&again, "found")[0]["visits"].as_u64(), of(&again, "drafted").len()), (Some(1), 0));
    desk.put("14 Elm 3.wav", b"three");
    let more = events(&desk);
    assert_eq!((of(&more, "heard").len(), of(&more, "drafted").len()), (1, 1));
    let draft: Value = serde_json::from_str(&desk.read("14 Elm.scope.json")).unwrap();
    assert_eq!(draft["clips"].as_array().unwrap().len(), 3);
}

#[test]
fn a_clip_that_cant_be_heard_is_told_in_the_draft_of_the_others() {
    let desk =
        Desk::with([("14 Elm/1.wav", b"one"), ("14 Elm/silent 2.wav", b"two"), ("14 Elm/3.wav", b"three")]);
    desk.put("14 Elm/2.wav", b"");
    std::fs::remove_file(desk.path("14 Elm/2.wav")).unwrap();
    let run = day(&desk, &["--visit", "folder"]);
    assert_eq!(run.code, 2);
    let draft: Value = serde_json::from_str(&desk.read("14 Elm/14 Elm.scope.json")).unwrap();
    assert_eq!(draft["clips"].as_array().unwrap().len(), 2);
    assert!(
        draft["notices"][0].as_str().unwrap().starts_with("silent 2.wav is not in this draft"),
        "{draft}"
    );
    assert_eq!(day(&desk, &["--visit", "folder"]).code, 2, "it is told again");
}

#[test]
fn words_that_a_person_corrected_count_and_stay() {
    let desk = Desk::with([("9 Oak.wav", b"one")]);
    events(&desk);
    let corrected = desk.read("9 Oak.transcript.json").replace("\"two\"", "\"three\"");
    desk.put("9 Oak.transcript.json", corrected.as_bytes());
    let told = events(&desk);
    assert_eq!((of(&told, "heard").len(), of(&told, "drafted").len()), (0, 1));
    assert!(desk.read("9 Oak.scope.json").contains("\"quantity\": 3"));
    assert_eq!(desk.read("9 Oak.transcript.json"), corrected);
    assert!(of(&events(&desk), "drafted").is_empty());
}

#[test]
fn a_file_that_is_not_ours_is_never_replaced() {
    let desk =
        Desk::with([("9 Oak.wav", b"one"), ("9 Oak.scope.html", b"<p>my own page"), ("14 Elm.wav", b"two")]);
    let run = day(&desk, &[]);
    assert_eq!(run.code, 2);
    assert!(run.out.contains("isn't Eavesdraft's"), "{}", run.out);
    assert_eq!(desk.read("9 Oak.scope.html"), "<p>my own page");
    assert!(desk.path("14 Elm.scope.html").exists());
}

#[test]
fn two_recordings_of_one_name_keep_their_documents_apart() {
    let desk = Desk::with([("walk.flac", b"one"), ("walk.wav", b"two")]);
    assert_eq!(day(&desk, &[]).code, 0);
    assert!(desk.path("walk.scope.json").exists() && desk.path("walk.wav.scope.json").exists());
}

#[test]
fn with_out_everything_is_written_there_in_the_same_folders() {
    let desk = Desk::with([("9 Oak.wav", b"one"), ("north/3 Ash.wav", b"two")]);
    assert_eq!(desk.run_hearing(&["day", "./", "--still", "0", "--out", "./scopes"]).code, 0);
    let beside = |name: &str| !name.starts_with("scopes/") && !name.starts_with('.');
    let names: Vec<String> = desk.names().into_iter().filter(|name| beside(name)).collect();
    assert_eq!(names, ["9 Oak.wav", "eavesdraft.sqlite", "north/3 Ash.wav"]);
    assert!(desk.path("scopes/north/3 Ash.scope.json").exists() && desk.path("scopes/day.html").exists());
    assert_eq!(desk.run_hearing(&["day", "./", "--still", "0", "--out", "./scopes"]).code, 0);
    assert!(!desk.path("scopes/scopes").exists());
}

#[test]
fn stored_words_that_tell_their_recording_late_are_known_all_the_same() {
    let desk = Desk::with([("9 Oak.wav", b"one")]);
    events(&desk);
    let mut words: Value = serde_json::from_str(&desk.read("9 Oak.transcript.json")).unwrap();
    let digest = words.as_object_mut().unwrap().remove("digest").unwrap().as_str().unwrap().to_owned();
    let words = words.to_string();
    let late = format!(r#"{},"digest":"{digest}"}}"#, words.strip_suffix('}').unwrap());
    let other = Desk::with([]);
    other.put("14 Elm/REC_0001.transcript.json", late.as_bytes());
    assert_eq!(of(&events(&other), "drafted").len(), 1);
    assert!(of(&events(&other), "drafted").is_empty());
    let draft: Value = serde_json::from_str(&other.read("14 Elm/14 Elm.scope.json")).unwrap();
    assert_eq!((&draft["source"], &draft["digest"]), (&Value::from("14 Elm"), &Value::from(digest)));
}

#[test]
fn other_rules_draft_anew_without_hearing_again() {
    let desk = Desk::with([("9 Oak.wav", b"one")]);
    events(&desk);
    desk.put("office/own.toml", b"");
    let run = desk.run_hearing(&["day", "./", "--still", "0", "--json", "--grammar", "./office"]);
    assert!(
        run.out.contains(r#""event":"drafted""#) && !run.out.contains(r#""event":"heard""#),
        "{}",
        run.out
    );
}

#[test]
fn what_is_no_folder_and_what_another_run_has_is_told() {
    let desk = Desk::with([("9 Oak.wav", b"one")]);
    let run = desk.run_hearing(&["day", "./9 Oak.wav"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("is no folder"), "{}", run.err);
    let _lock = eavesdraft::office::day::Lock::take(&desk.path("")).unwrap();
    let run = day(&desk, &[]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("another run is at work"), "{}", run.err);
}
