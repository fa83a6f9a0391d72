//! Scopes, changes, conflicts, sound and documents over HTTP.

use super::{Served, WALK, drafted};
use crate::harness::Desk;
use serde_json::json;

#[test]
fn a_line_is_reviewed_and_the_recording_and_draft_stay_as_they_were() {
    let desk = drafted(WALK);
    let before = desk.read("walk.scope.json");
    let served = Served::over(&desk);
    let recording = served.recording();
    let gutter = served.line(&recording, "gutter");
    assert_eq!(gutter["state"], "flagged");
    assert_eq!(gutter["choices"][0]["label"], "11 ft");
    let id = gutter["id"].as_str().unwrap();
    let answer = served.send(&recording, "Ann", &json!({ id: 0 }), &gutter["choices"][0]["command"]);
    assert_eq!(answer.status, 200, "{answer:?}");
    let now = &answer.json()["lines"][0];
    assert_eq!((&now["state"], &now["by"], &now["version"]), (&json!("reviewed"), &json!("Ann"), &json!(1)));
    assert_eq!(now["shown"]["quantity"], "11");
    assert_eq!(now["drafted"]["quantity"], "7");
    assert_eq!(desk.read("walk.scope.json"), before);
    assert_eq!(desk.read("walk.txt"), WALK);
    let history = served.get(&format!("{recording}/events")).json();
    assert_eq!(history["events"][0]["summary"], "gutter, front: 11 ft, was 7 ft");
}

#[test]
fn of_two_reviewers_the_later_one_is_shown_both_values() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let recording = served.recording();
    let id = served.line(&recording, "gutter")["id"].as_str().unwrap().to_owned();
    let wish = |number: &str| json!({ "do": "change", "line": id, "fields": { "quantity": number } });
    assert_eq!(served.send(&recording, "Ben", &json!({ &id: 0 }), &wish("9")).status, 200);
    let refused = served.send(&recording, "Ann", &json!({ &id: 0 }), &wish("8 ft"));
    assert_eq!(refused.status, 409);
    let told = refused.json();
    assert_eq!(
        (&told["theirs"]["shown"]["quantity"], &told["mine"]["shown"]["quantity"]),
        (&json!("9"), &json!("8"))
    );
    assert!(told["error"].as_str().unwrap().contains("Ben changed"), "{told}");
    assert_eq!(served.send(&recording, "Ann", &json!({ &id: 1 }), &wish("8 ft")).status, 200);
    assert_eq!(served.send(&recording, "Ann", &json!({}), &wish("7")).status, 409, "what was not seen");
}

#[test]
fn what_was_done_is_there_again_after_a_restart_and_a_new_draft() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let recording = served.recording();
    let gutter = served.line(&recording, "gutter");
    let id = gutter["id"].as_str().unwrap();
    let command = json!({ "do": "drop", "lines": [id], "reason": "theirs" });
    assert_eq!(served.send(&recording, "Ann", &json!({ id: 0 }), &command).status, 200);
    served.kill();
    let rules = "[[item]]\nid = \"hose-reel\"\nunit = \"each\"\narea = \"grounds\"\nsaid = [\"reel thing\"]\n\
                 hits = [\"the reel thing\"]\nmisses = [\"the real thing\"]\n";
    desk.put("own/words.toml", rules.as_bytes());
    let again = desk.run(&["draft", "walk.txt", "--grammar", "own"]);
    assert_eq!(again.code, 0, "{}", again.err);
    let served = Served::over(&desk);
    let line = served.line(&recording, "gutter");
    assert_eq!((&line["state"], &line["reason"]), (&json!("dropped"), &json!("theirs")));
    let undone = served.send(&recording, "Ann", &json!({}), &json!({ "do": "undo" }));
    assert_eq!(undone.status, 200, "{undone:?}");
    assert_eq!(served.line(&recording, "gutter")["state"], "flagged");
}

#[test]
fn values_that_cannot_be_read_are_told_with_their_field() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let recording = served.recording();
    let id = served.line(&recording, "gutter")["id"].as_str().unwrap().to_owned();
    let wish = json!({ "do": "change", "line": id, "fields": { "quantity": "a lot" } });
    let refused = served.send(&recording, "Ann", &json!({ id: 0 }), &wish);
    assert_eq!((refused.status, &refused.json()["field"]), (422, &json!("quantity")));
    let read = served.post("/api/read", &json!({ "text": "6' 6\"", "item": "gutter" })).json();
    assert_eq!((&read["quantity"], &read["shown"]), (&json!(6.5), &json!("6' 6\"")));
    assert_eq!(served.post("/api/read", &json!({ "text": "" })).status, 422);
    assert_eq!(served.send(&recording, " ", &json!({}), &json!({ "do": "undo" })).status, 422);
}

#[test]
fn a_scope_is_signed_off_once_nothing_is_flagged_and_its_documents_follow() {
    let desk = drafted("Front elevation. Mailbox, replace. Gutter, seven foot, no wait, nine foot, replace.");
    let served = Served::over(&desk);
    let recording = served.recording();
    assert_eq!(served.send(&recording, "Ann", &json!({}), &json!({ "do": "sign-off" })).status, 422);
    let id = served.line(&recording, "gutter")["id"].as_str().unwrap().to_owned();
    let accept = json!({ "do": "accept", "lines": [id] });
    assert_eq!(served.send(&recording, "Ann", &json!({ &id: 0 }), &accept).status, 200);
    assert_eq!(served.send(&recording, "Ann", &json!({}), &json!({ "do": "sign-off" })).status, 200);
    let locked = served.send(&recording, "Ben", &json!({ &id: 1 }), &accept);
    assert_eq!(locked.status, 423, "{locked:?}");
    let documents = served.get(&format!("{recording}/documents")).json();
    let mut endings = Vec::new();
    for document in documents["documents"].as_array().unwrap() {
        let href = document["href"].as_str().unwrap();
        let answer = served.get(href);
        assert_eq!(answer.status, 200);
        let words = String::from_utf8_lossy(&answer.body).to_lowercase();
        // A PDF and a workbook are packed, and the list for the rep has nothing left to do.
        let packed = ["pdf", "xlsx", "field.html"].iter().any(|ending| href.ends_with(ending));
        assert!(packed || words.contains("mailbox"), "{href}");
        let name = answer.headers["content-disposition"].to_str().unwrap().to_owned();
        assert!(name.contains("; filename*=UTF-8''walk."), "{name}");
        endings.push(href.rsplit('/').next().unwrap().to_owned());
    }
    assert_eq!(endings, ["work.pdf", "work.html", "field.html", "work.xlsx", "work.csv", "work.json"]);
    assert_eq!(served.get(&format!("{recording}/documents/sides.vtt")).status, 404, "a text has no times");
    assert_eq!(served.get(&format!("{recording}/documents/../../../etc/passwd")).status, 404);
}

/// Two seconds of a tone in a format that browsers play, and in one that has to be decoded first.
#[test]
fn sound_is_served_by_the_piece() {
    let sound = std::fs::read(concat!(env!("CARGO_MANIFEST_DIR"), "/audio-fixtures/demo.flac"));
    let Ok(sound) = sound else { panic!("audio-fixtures/demo.flac is missing") };
    let desk = Desk::with([("walk.flac", sound.as_slice())]);
    let run = desk.run_hearing(&["draft", "./walk.flac"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let served = Served::over(&desk);
    let recording = served.recording();
    let sound = format!("{recording}/sound");
    let begun = std::time::Instant::now();
    let answer = loop {
        assert!(begun.elapsed().as_secs() < 30, "the sound is never ready");
        let answer = served.get_with(&sound, &[("range", "bytes=0-43")]);
        if answer.status != 503 {
            break answer;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    };
    assert_eq!((answer.status, &answer.body[..4], &answer.body[8..12]), (206, &b"RIFF"[..], &b"WAVE"[..]));
    assert_eq!(answer.headers["content-type"], "audio/wav");
    let whole = served.get(&sound);
    assert_eq!(u32::from_le_bytes(whole.body[24..28].try_into().unwrap()), 16_000);
    assert_eq!(served.get_with(&sound, &[("range", "bytes=999999999-")]).status, 416);
    assert!(served.get(&recording).json()["sound"].as_bool().unwrap());
    desk.put("elsewhere/walk.flac", &std::fs::read(desk.path("walk.flac")).unwrap());
    std::fs::remove_file(desk.path("walk.flac")).unwrap();
    assert_eq!(served.get(&sound).status, 404);
    assert!(!served.get(&recording).json()["sound"].as_bool().unwrap());
    assert!(served.get("/api/queue").json()["recordings"][0]["missing"].as_bool().unwrap());
    let served = Served::with(&desk, &["--recordings", "elsewhere"]);
    assert!(served.get(&recording).json()["sound"].as_bool().unwrap());
}

#[test]
fn another_page_hears_of_a_change() {
    use std::io::{BufRead, BufReader, Write};
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let host = served.address.trim_start_matches("http://").to_owned();
    let mut listening = std::net::TcpStream::connect(&host).unwrap();
    listening.set_read_timeout(Some(std::time::Duration::from_secs(10))).unwrap();
    write!(listening, "GET /api/changes HTTP/1.1\r\nhost: {host}\r\n\r\n").unwrap();
    let mut lines = BufReader::new(listening).lines().map(Result::unwrap);
    assert!(lines.by_ref().any(|line| line.is_empty()), "the head of the answer");
    let recording = served.recording();
    let id = served.line(&recording, "gutter")["id"].as_str().unwrap().to_owned();
    served.send(&recording, "Ann", &json!({ &id: 0 }), &json!({ "do": "accept", "lines": [id] }));
    assert!(lines.by_ref().any(|line| line == "event: change"));
    let news = lines.find(|line| line.starts_with("data: ")).unwrap();
    let news: serde_json::Value = serde_json::from_str(&news[6..]).unwrap();
    assert_eq!(news["event"], 1);
    assert!(recording.ends_with(news["recording"].as_str().unwrap()));
}

#[test]
fn a_folder_that_cannot_be_reviewed_is_told_of_with_what_to_do() {
    let desk = Desk::with([("notes.txt", b"Front elevation.".as_slice()), ("bad/walk.scope.json", b"{")]);
    for (args, expected) in [
        (vec!["review", "nowhere"], "no such file or folder"),
        (vec!["review", "notes.txt"], "Draft it first: eavesdraft draft"),
        (vec!["review", "bad"], "this isn't a draft that eavesdraft wrote"),
    ] {
        let run = desk.run(&args);
        assert_eq!(run.code, 2, "{args:?}");
        assert!(run.err.contains(expected), "{args:?}: {}", run.err);
    }
    assert_eq!(desk.names(), ["bad/walk.scope.json", "notes.txt"]);
}

#[test]
fn a_store_of_a_later_program_or_of_none_is_left_alone() {
    let bytes = b"no database at all, and longer than a page head would be";
    let desk = drafted(WALK);
    desk.put("eavesdraft.sqlite", bytes);
    let run = desk.run(&["review", ".", "--no-browser"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("isn't an Eavesdraft store"), "{}", run.err);
    assert_eq!(std::fs::read(desk.path("eavesdraft.sqlite")).unwrap(), bytes);
    let desk = drafted(WALK);
    let later = rusqlite::Connection::open(desk.path("eavesdraft.sqlite")).unwrap();
    later.pragma_update(None, "user_version", 99).unwrap();
    drop(later);
    let run = desk.run(&["review", ".", "--no-browser"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("was made by a later Eavesdraft"), "{}", run.err);
}

const SILK_COCK: &str = "Front elevation. There's a doodad here, detach and reset. Mailbox, replace.";

#[test]
fn what_a_reviewer_teaches_is_shown_first_then_kept_and_can_be_taken_back() {
    let desk = drafted(SILK_COCK);
    desk.put("rules/own.toml", b"");
    let served = Served::with(&desk, &["--grammar", "rules"]);
    let recording = served.recording();
    let items = || {
        let scope = served.get(&recording).json();
        let lines = scope["lines"].as_array().unwrap().clone();
        lines.iter().map(|line| line["line"]["item"].clone()).collect::<Vec<_>>()
    };
    assert_eq!(items(), [json!(null), json!("mailbox")]);
    let lesson =
        |only_try: bool| json!({ "phrase": "Doodad.", "item": "hose-bib", "who": "Ann", "try": only_try });
    let tried = served.post("/api/teach", &lesson(true));
    assert_eq!(tried.status, 200, "{tried:?}");
    let change = &tried.json()["changes"][0];
    assert_eq!(change["before"], "1 each doodad (not in the catalog), detach and reset, front");
    assert_eq!(change["after"], "1 each hose bib, detach and reset, front");
    assert_eq!(
        (items(), desk.path("rules/taught.toml").exists()),
        (vec![json!(null), json!("mailbox")], false)
    );

    let kept = served.post("/api/teach", &lesson(false)).json();
    assert_eq!(items(), [json!("hose-bib"), json!("mailbox")]);
    assert_eq!(served.post("/api/teach", &lesson(false)).status, 422, "twice");
    let draft = desk.run(&["draft", "walk.txt", "--grammar", "rules", "--json"]);
    assert!(draft.out.contains("hose-bib"), "{}", draft.err);
    let id = kept["remembered"]["id"].as_str().unwrap();
    let again = Served::with(&desk, &["--grammar", "rules"]);
    assert_eq!(
        again.line(&recording, "hose-bib")["state"],
        "unflagged",
        "the draft in the folder is the older one"
    );
    drop(again);
    assert_eq!(served.get("/api/teach").json()["remembered"][0]["who"], "Ann");
    let address = format!("{}/api/teach/{id}", served.address);
    assert_eq!(ureq::delete(&address).call().unwrap().status(), 200);
    assert_eq!(items(), [json!(null), json!("mailbox")]);
}

#[test]
fn what_cannot_be_taught_is_told_and_changes_nothing() {
    let desk = drafted(SILK_COCK);
    let served = Served::over(&desk);
    let lesson = |phrase: &str, item: &str| json!({ "phrase": phrase, "item": item, "who": "Ann" });
    let answer = served.post("/api/teach", &lesson("doodad", "hose-bib"));
    assert_eq!(answer.status, 409);
    assert!(answer.json()["error"].as_str().unwrap().contains("--grammar"));
    assert!(!served.get("/api/teach").json()["can"].as_bool().unwrap());

    desk.put("rules/taught.toml", b"# written by hand\n");
    let served = Served::with(&desk, &["--grammar", "rules"]);
    assert_eq!(
        served.post("/api/teach", &lesson("doodad", "hose-bib")).status,
        500,
        "a file of somebody else's"
    );
    assert_eq!(desk.read("rules/taught.toml"), "# written by hand\n");
    std::fs::remove_file(desk.path("rules/taught.toml")).unwrap();
    for (phrase, item) in [
        ("", "hose-bib"),
        ("(a|b)", "hose-bib"),
        ("one two three four five six seven", "hose-bib"),
        ("doodad", "submarine"),
        ("mailbox", "hose-bib"),
    ] {
        let answer = served.post("/api/teach", &lesson(phrase, item));
        assert_eq!(answer.status, 422, "{phrase} as {item}: {answer:?}");
    }
    assert!(!desk.path("rules/taught.toml").exists());
}
