//! `papers`: what leaves the office, from the command line.

use crate::harness::Desk;

const WALK: &str = "Front elevation. The wall is forty by nine. Vinyl siding, remove and replace. Two coach lights, detach \
                    and reset. Get a photo of the lights. If the wrap is dented, replace it. Rear elevation. Gutter, \
                    remove and replace, run a tape on that.";

fn desk() -> Desk {
    let desk = Desk::with([("9 Oak.txt", WALK.as_bytes())]);
    assert_eq!(desk.run(&["draft", "9 Oak.txt"]).code, 0);
    desk
}

#[test]
fn papers_are_written_beside_the_draft_and_tell_what_is_open() {
    let desk = desk();
    let run = desk.run(&["papers", "."]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(
        run.err.contains(
            "Wrote 9 Oak.work.pdf, 9 Oak.work.html, 9 Oak.field.html, 9 Oak.work.xlsx, 9 Oak.work.csv"
        ),
        "{}",
        run.err
    );
    assert!(run.err.contains("still a draft: ") && run.err.contains("1 photo is missing."), "{}", run.err);
    let page = desk.read("9 Oak.work.html");
    for told in [
        "DRAFT scope of work",
        "Takeoff",
        "40' × 9'",
        "Only if",
        "29 CFR 1926.501(b)(1)",
        "Plan of the house",
    ] {
        assert!(page.contains(told), "{told}");
    }
    let list = desk.read("9 Oak.field.html");
    assert!(list.contains("House, front") && list.contains("Photo") && !list.contains("Takeoff"), "{list}");
    assert!(!desk.path("eavesdraft.sqlite").exists());
    assert_eq!(desk.run(&["papers", ".", "--strict"]).code, 1);
}

#[test]
fn the_same_scope_gives_the_same_bytes() {
    let (one, other) = (desk(), desk());
    for desk in [&one, &other] {
        desk.run(&["papers", "9 Oak.txt"]);
    }
    for name in one.names().iter().filter(|name| name.contains(".work.") || name.contains(".field.")) {
        assert_eq!(
            std::fs::read(one.path(name)).unwrap(),
            std::fs::read(other.path(name)).unwrap(),
            "{name}"
        );
    }
}

#[test]
fn only_what_is_asked_for_is_written_and_elsewhere_where_that_is_asked() {
    let desk = desk();
    assert_eq!(desk.run(&["papers", ".", "--only", "field", "--out", "letters"]).code, 0);
    let names: Vec<String> = desk.names().into_iter().filter(|name| name.starts_with("letters")).collect();
    assert_eq!(names, ["letters/9 Oak.field.html"]);
}

#[test]
fn a_file_that_is_not_ours_is_never_replaced() {
    let desk = desk();
    desk.put("9 Oak.work.pdf", b"%PDF-1.4 somebody else's");
    let run = desk.run(&["papers", "."]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("9 Oak.work.pdf"), "{}", run.err);
    assert_eq!(desk.read("9 Oak.work.pdf"), "%PDF-1.4 somebody else's");
    assert!(!desk.path("9 Oak.work.html").exists());
}

#[test]
fn a_day_takes_no_paper_for_a_recording() {
    let desk = desk();
    desk.run(&["papers", "."]);
    let run = desk.run(&["day", ".", "--still", "0", "--json"]);
    assert!(run.out.contains(r#""files":0"#), "{}", run.out);
}

#[test]
fn what_is_not_drafted_is_told_with_what_to_do() {
    let desk = Desk::with([("9 Oak.txt", b"words")]);
    let run = desk.run(&["papers", "9 Oak.txt"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("isn't drafted yet. Draft it first: eavesdraft draft"), "{}", run.err);
}

#[test]
fn the_schema_of_the_record_is_printed_for_programs() {
    let desk = Desk::with([("walk.txt", b"Front. Mailbox, replace.".as_slice())]);
    let run = desk.run(&["papers", "--schema"]);
    let schema: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(
        (run.code, schema["$schema"].as_str()),
        (0, Some("https://json-schema.org/draft/2020-12/schema"))
    );
    assert_eq!(desk.names(), ["walk.txt"]);
    assert_eq!(desk.run(&["papers", "--schema", "walk.txt"]).code, 2);
}
