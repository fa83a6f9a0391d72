//! Questions about the house over HTTP: asked, answered, undone, and still answered after a restart and a new draft.

use super::{Served, drafted};
use serde_json::{Value, json};

const WALK: &str = "Front elevation. Two corner posts, replace. Right side. Two corner posts, replace. Siding, three square, \
                    replace.";

fn questions(served: &Served, recording: &str) -> Vec<Value> {
    served.get(recording).json()["questions"].as_array().unwrap().clone()
}

fn of_kind(served: &Served, recording: &str, kind: &str) -> Option<Value> {
    questions(served, recording).into_iter().find(|question| question["kind"] == kind)
}

/// The versions of the lines as they are now.
fn seen(served: &Served, recording: &str) -> Value {
    let scope = served.get(recording).json();
    let lines = scope["lines"].as_array().unwrap().iter();
    lines.map(|line| (line["id"].as_str().unwrap().to_owned(), line["version"].clone())).collect()
}

#[test]
fn a_question_is_answered_undone_and_stays_answered_after_a_restart_and_a_new_draft() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let recording = served.recording();
    let corners = of_kind(&served, &recording, "corners").unwrap();
    assert_eq!(corners["answers"][0]["label"], "3 in all");
    assert_eq!(corners["source"], "common practice, no source");
    let command = &corners["answers"][0]["command"];
    let unseen = served.send(&recording, "Ann", &json!({}), command);
    assert_eq!(unseen.status, 409, "{unseen:?}");
    let answer = served.send(&recording, "Ann", &seen(&served, &recording), command);
    assert_eq!(answer.status, 200, "{answer:?}");
    let told = answer.json();
    assert_eq!(
        (&told["undo"], &told["lines"][0]["line"]["quantity"]),
        (&json!("outside corner: 3 in all"), &json!(1.0))
    );
    assert!(told["questions"].as_array().unwrap().iter().all(|question| question["kind"] != "corners"));
    let late = served.send(&recording, "Ben", &seen(&served, &recording), command);
    assert_eq!(late.status, 404, "{late:?}");
    assert_eq!(served.send(&recording, "Ann", &json!({}), &json!({ "do": "undo" })).status, 200);
    assert_eq!(of_kind(&served, &recording, "corners").unwrap(), corners);
    let as_noted = &corners["answers"][1]["command"];
    assert_eq!(served.send(&recording, "Ann", &json!({}), as_noted).status, 200);
    served.kill();
    let rules = "[[item]]\nid = \"gutter\"\nunit = \"foot\"\narea = \"wall\"\nsaid = [\"rain run\"]\n";
    desk.put("own/words.toml", rules.as_bytes());
    let again = desk.run(&["draft", "walk.txt", "--grammar", "own"]);
    assert_eq!(again.code, 0, "{}", again.err);
    let served = Served::over(&desk);
    assert_eq!(of_kind(&served, &recording, "corners"), None);
    let history = served.get(&format!("{recording}/events")).json();
    assert_eq!(history["events"][2]["summary"], "outside corner: 4 in all");
}

#[test]
fn what_was_not_mentioned_is_added_or_told_not_to_be_there() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let recording = served.recording();
    let question = of_kind(&served, &recording, "not-mentioned").unwrap();
    assert_eq!(question["place"], "house, right");
    let missing = question["missing"].as_array().unwrap();
    let outlet = missing.iter().find(|missing| missing["item"] == "outlet").unwrap();
    let added = served.send(&recording, "Ann", &json!({}), &outlet["answers"][1]["command"]);
    assert_eq!(added.status, 200, "{added:?}");
    let line = served.line(&recording, "outlet");
    assert_eq!((&line["state"], &line["shown"]["work"]), (&json!("flagged"), &json!("detach and reset")));
    let left = questions(&served, &recording).into_iter().find(|q| q["id"] == question["id"]).unwrap();
    assert_eq!(served.send(&recording, "Ann", &json!({}), &left["answers"][0]["command"]).status, 200);
    assert!(questions(&served, &recording).iter().all(|q| q["id"] != question["id"]));
    for with in
        [json!({ "none": [] }), json!({ "reading": 0, "add": "outlet" }), json!("reading"), json!([0])]
    {
        let command = json!({ "do": "answer", "question": question["id"], "with": with });
        let refused = served.send(&recording, "Ann", &json!({}), &command);
        assert!([404, 422].contains(&refused.status), "{refused:?}");
    }
}
