//! `eavesdraft compare` as it is typed.

use super::{GRAMMAR, WALK};
use crate::harness::Desk;
use eavesdraft::model::Draft;
use eavesdraft::office::store::{Origin, Recording, Store};
use eavesdraft::scope::compare::COLUMNS_MARK;
use eavesdraft::scope::review::{self, Actor, Command, Scope};
use eavesdraft::speech::Transcript;
use insta::assert_snapshot;
use serde_json::Value;

const LIST: &[u8] = b"Side,Thing to do,Qty,Unit\nFront,Replace gutter,20,LF\nRear,Paint deck rail,24,LF\n";

/// A desk with the walk's scope and a list whose headings are known but for one.
fn desk() -> Desk {
    let known = String::from_utf8_lossy(LIST).replace("Thing to do", "Description");
    Desk::with([("walk.scope.json", WALK.as_bytes()), ("list.csv", known.as_bytes()), ("odd.csv", LIST)])
}

#[test]
fn documents_go_beside_ours_and_are_replaced_the_next_time() {
    let desk = desk();
    let run = desk.run(&["compare", "walk.scope.json", "list.csv"]);
    assert_eq!(run.code, 0, "{run:?}");
    assert_eq!(run.err, "Wrote walk.compare.pdf, walk.compare.html, walk.compare.csv\n");
    let first = (desk.read("walk.compare.html"), desk.read("walk.compare.csv"));
    desk.put("list.csv", b"Side,Description,Qty,Unit\nFront,Replace gutter,32,LF\n");
    assert_eq!(desk.run(&["compare", "walk.scope.json", "list.csv"]).code, 0);
    assert_ne!((desk.read("walk.compare.html"), desk.read("walk.compare.csv")), first);
    let ours = ["walk.compare.csv", "walk.compare.html", "walk.compare.pdf"];
    assert_eq!(desk.names(), [&["list.csv", "odd.csv"], &ours[..], &["walk.scope.json"]].concat());
}

#[test]
fn someone_elses_files_are_left_alone() {
    for name in ["walk.compare.csv", "walk.compare.html", "walk.compare.pdf"] {
        let desk = desk();
        desk.put(name, b"result,of,my own\n");
        let run = desk.run(&["compare", "walk.scope.json", "list.csv"]);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
        assert!(
            run.err.contains(&format!("`{name}` is there already and isn't Eavesdraft's")),
            "{}",
            run.err
        );
        assert_eq!(desk.read(name), "result,of,my own\n");
        assert_eq!(desk.names().len(), 4);
    }
}

#[test]
fn the_list_is_never_written_over() {
    let desk = desk();
    desk.put("walk.compare.csv", LIST);
    let run = desk.run(&["compare", "walk.scope.json", "walk.compare.csv"]);
    assert!(run.code == 2 && run.err.contains("is given as input and would be overwritten"), "{run:?}");
}

#[test]
fn json_stands_alone_and_writes_nothing() {
    let desk = desk();
    let before = desk.names();
    let run = desk.run(&["compare", "walk.scope.json", "list.csv", "--json"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let json: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(json["counts"]["short_there"], 1);
    assert_eq!(json["findings"][0]["outcome"], "missing-there");
    assert_eq!(desk.names(), before);
    assert_eq!(desk.run(&["compare", "walk.scope.json", "list.csv", "--json", "--out", "papers"]).code, 0);
    assert!(desk.names().contains(&"papers/walk.compare.html".to_owned()));
}

#[test]
fn strict_minds_what_is_missing_short_or_unclear_and_nothing_else() {
    let desk = Desk::with([("walk.txt", b"Front. Gutter, thirty two foot, replace.")]);
    assert_eq!(desk.run(&["draft", "walk.txt"]).code, 0);
    let code = |list: &[u8]| {
        desk.put("list.csv", list);
        desk.run(&["compare", "walk.txt", "list.csv", "--strict"]).code
    };
    assert_eq!(code(b"Side,Description,Qty,Unit\nFront,Replace gutter,32,LF\nRear,Replace awning,1,EA\n"), 0);
    assert_eq!(code(b"Side,Description,Qty,Unit\nFront,Replace gutter,40,LF\n"), 0);
    assert_eq!(code(b"Side,Description,Qty,Unit\nFront,Replace gutter,30,LF\n"), 1);
    assert_eq!(code(b"Side,Description,Qty,Unit\nFront,Paint gutter,32,LF\n"), 1);
    assert_eq!(code(b"Side,Description,Qty,Unit\nFront,Repair gutter,32,LF\n"), 1);
}

#[test]
fn columns_are_told_in_a_file_saved_and_read_again() {
    let desk = desk();
    let run = desk.run(&["compare", "walk.scope.json", "odd.csv"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert_snapshot!(run.err, @r#"error: `odd.csv`: no row has headings that are known; one must tell the thing (`Description`, `Item`) and another its quantity, unit, work or side. Name the columns in a file given with --columns: under [columns] a line for each, such as "B" = "quantity""#);
    desk.put(
        "theirs.toml",
        b"[columns]\n\"Thing to do\" = \"item\"\nQty = \"quantity\"\nside = \"side\"\nunit = \"unit\"\n",
    );
    let args = ["compare", "walk.scope.json", "odd.csv", "--json", "--columns", "theirs.toml"];
    let by_hand = desk.run(&[&args[..], &["--save-columns", "saved.toml"]].concat());
    assert_eq!((by_hand.code, by_hand.err.as_str()), (0, "Wrote saved.toml\n"), "{by_hand:?}");
    assert!(desk.read("saved.toml").starts_with(COLUMNS_MARK));
    let again = desk.run(&["compare", "walk.scope.json", "odd.csv", "--json", "--columns", "saved.toml"]);
    assert_eq!(again.out, by_hand.out);
}

#[test]
fn a_file_of_columns_that_someone_adjusted_is_kept_and_anyone_elses_left_alone() {
    let desk = desk();
    let save = |desk: &Desk| {
        desk.run(&["compare", "walk.scope.json", "list.csv", "--json", "--save-columns", "c.toml"])
    };
    assert_eq!(save(&desk).code, 0);
    let adjusted = desk.read("c.toml").replace("\"Qty\" = \"quantity\"", "\"Qty\" = \"nothing\"");
    assert_ne!(adjusted, desk.read("c.toml"));
    desk.put("c.toml", adjusted.as_bytes());
    let run = save(&desk);
    assert!(run.code == 0 && run.err.starts_with("Kept the earlier columns as c.toml~\n"), "{run:?}");
    assert_eq!(desk.read("c.toml~"), adjusted);
    desk.put("c.toml", b"[package]\nname = \"mine\"\n");
    assert_eq!(save(&desk).code, 2);
    assert_eq!(desk.read("c.toml"), "[package]\nname = \"mine\"\n");
    let run = desk.run(&["compare", "walk.scope.json", "list.csv", "--json", "--save-columns", "c.json"]);
    assert_snapshot!(run.err, @"error: `c.json`: a file of columns ends in .toml: name it so");
}

#[test]
fn what_isnt_there_or_isnt_drafted_is_told() {
    let desk = desk();
    desk.put("walk2.txt", b"two lights");
    let told = |ours: &str, theirs: &str| {
        let run = desk.run(&["compare", ours, theirs]);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
        run.err
    };
    assert_snapshot!(told("gone.m4a", "list.csv"), @"error: `gone.m4a`: there is no such file: check the name and the folder");
    assert_snapshot!(told("walk2.txt", "list.csv"), @"error: `walk2.txt` isn't drafted yet. Draft it first: eavesdraft draft walk2.txt");
    assert_snapshot!(told("walk.scope.json", "gone.csv"), @"error: `gone.csv`: there is no such file: check the name and the folder");
    assert_snapshot!(told("walk.scope.json", "."), @"error: `.`: this is a folder: name the list in it");
    desk.put("bad.scope.json", b"{}");
    assert!(told("bad.scope.json", "list.csv").contains("this is no draft that eavesdraft wrote"));
}

/// Somebody drops a line, confirms nothing, and changes another.
#[test]
fn what_people_did_in_the_review_is_what_counts() {
    let words = "Front. Gutter, thirty two foot, replace. One mailbox, detach and reset. If the awning is torn, replace it.";
    let desk = Desk::with([("walk.txt", words.as_bytes())]);
    assert_eq!(desk.run(&["draft", "walk.txt"]).code, 0);
    desk.put("list.csv", b"Side,Description,Qty,Unit\nFront,Replace gutter,30,LF\n");
    let findings = |desk: &Desk| -> Value {
        let run = desk.run(&["compare", "walk.txt", "list.csv", "--json"]);
        assert_eq!(run.code, 0, "{run:?}");
        serde_json::from_str(&run.out).unwrap()
    };
    let counts = |json: &Value| {
        ["missing_there", "short_there", "same"].map(|key| json["counts"][key].as_u64().unwrap())
    };
    let drafted = findings(&desk);
    assert_eq!((counts(&drafted), drafted["to_confirm"].as_array().unwrap().len()), ([1, 1, 0], 1));
    reviewed(&desk, words);
    let json = findings(&desk);
    assert_eq!((counts(&json), json["to_confirm"].as_array().unwrap().len()), ([0, 0, 1], 1));
    let notices = json["notices"].to_string();
    assert!(
        notices.contains("our scope is as it stands in the review; it isn't signed off yet"),
        "{notices}"
    );
}

fn reviewed(desk: &Desk, words: &str) {
    let draft: Draft = serde_json::from_str(&desk.read("walk.scope.json")).unwrap();
    let transcript = Transcript { source: "walk.txt".to_owned(), ..Transcript::from_plain(words) };
    let id = draft.digest.clone().unwrap_or_else(|| "walk".to_owned());
    let recording = Recording {
        id: id.clone(),
        name: "walk.txt".to_owned(),
        path: desk.path("walk.txt").canonicalize().unwrap(),
    };
    let mut store = Store::open(&desk.path("")).unwrap();
    store.put(&recording, &transcript, &draft, Origin::Folder, "2026-01-01T00:00:00Z").unwrap();
    let line =
        |item: &str| draft.lines.iter().find(|line| line.item.as_deref() == Some(item)).unwrap().id.clone();
    let quantity = review::Fields { quantity: Some("30 ft".to_owned()), ..Default::default() };
    let commands = [
        Command::Drop { lines: vec![line("mailbox")], reason: "not ours".to_owned() },
        Command::Change { line: line("gutter"), fields: quantity },
    ];
    for command in commands {
        let events = store.events(&id, 0).unwrap();
        let scope = Scope::after(&draft, &events);
        let seen = scope.entries.iter().map(|entry| (entry.id().to_owned(), entry.version)).collect();
        let actor = Actor { who: "Ann".to_owned(), at: "2026-01-01T00:00:00Z".to_owned(), seen };
        let (scope, events, transcript) = (&scope, &events, &transcript);
        let context = review::ReviewContext { scope, events, transcript, draft: &draft, grammar: &GRAMMAR };
        let event = context.decide(&actor, command).unwrap();
        store.add_event(&id, 0, |_| Ok::<_, ()>(event)).unwrap().unwrap();
    }
}
