//! The scope as a PDF, read back by poppler.
//!
//! Poppler's tools are looked for on this machine. Where they are missing, these tests say that they were skipped; with
//! `EAVESDRAFT_REQUIRE_OFFICE` set, they fail instead.

use crate::takeoff::GRAMMAR;
use eavesdraft::model::Draft;
use eavesdraft::output::{Beside, Job, pdf, scope};
use eavesdraft::scope::drafting::draft;
use eavesdraft::scope::review::Scope;
use eavesdraft::speech::Transcript;
use std::process::Command;

const WALK: &str = "Front elevation. The wall is forty by nine. Siding, remove and replace. Two coach lights, detach and \
                    reset. Get a photo of the lights. If the window wrap is dented, replace it. Rear elevation. One hose \
                    reel, detach and reset. Forty feet of gutter, remove and replace.";

fn walk() -> Draft {
    Draft { source: "walk.wav".to_owned(), ..draft(&Transcript::from_plain(WALK), &GRAMMAR) }
}

/// The lines of the walk so many times over.
fn long_walk(times: usize) -> Draft {
    let walk = walk();
    Draft { lines: std::iter::repeat_n(walk.lines.clone(), times).flatten().collect(), ..walk }
}

fn bytes(draft: &Draft) -> Vec<u8> {
    pdf::pdf(&scope::page(&Job::new(draft, &Scope::of(draft), &[], &GRAMMAR), &Beside::default())).unwrap()
}

/// What one of poppler's tools says of a PDF, with arguments before and behind it. It may warn of nothing. None where
/// the tool isn't here.
pub fn told(tool: &str, before: &[&str], behind: &[&str], pdf: &[u8]) -> Option<String> {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("scope.pdf");
    std::fs::write(&file, pdf).unwrap();
    let Ok(output) = Command::new(tool).args(before).arg(&file).args(behind).output() else {
        assert!(std::env::var_os("EAVESDRAFT_REQUIRE_OFFICE").is_none(), "{tool} is missing");
        println!("skipped: {tool} is missing");
        return None;
    };
    assert_eq!(String::from_utf8_lossy(&output.stderr), "", "{tool}");
    assert!(output.status.success());
    Some(String::from_utf8(output.stdout).unwrap())
}

#[test]
fn every_line_is_there_with_its_words_and_the_head_is_on_every_sheet() {
    let draft = long_walk(12);
    let Some(text) = told("pdftotext", &["-layout"], &["-"], &bytes(&draft)) else { return };
    let sheets: Vec<&str> = text.split('\x0c').filter(|sheet| !sheet.trim().is_empty()).collect();
    for (number, sheet) in (1..).zip(&sheets) {
        assert!(sheet.contains(&format!("Page {number} of {}", sheets.len())), "sheet {number}");
    }
    let with_lines = sheets.iter().filter(|sheet| sheet.contains("Quantity")).count();
    assert!(with_lines > 2, "{with_lines}");
    let numbers: Vec<usize> = text
        .lines()
        .filter(|line| line.contains("detach and reset") || line.contains("remove and replace"))
        .filter_map(|line| line.split_whitespace().next()?.parse().ok())
        .collect();
    assert_eq!(numbers, (1..=draft.lines.len()).collect::<Vec<_>>());
}

#[test]
fn it_is_tagged_titled_and_its_fonts_are_inside() {
    let pdf = bytes(&walk());
    let Some(info) = told("pdfinfo", &[], &[], &pdf) else { return };
    let has = |key: &str, value: &str| {
        info.lines().any(|line| line.starts_with(key) && line.trim_end().ends_with(value))
    };
    assert!(
        has("Tagged:", "yes") && has("Title:", "DRAFT scope of work: walk") && has("Page size:", "(letter)"),
        "{info}"
    );
    let fonts = told("pdffonts", &[], &[], &pdf).unwrap();
    assert!(fonts.lines().skip(2).all(|font| font.contains("yes yes yes")), "{fonts}");
}

/// The roles are those of ISO 32000-1, 14.8.4.
#[test]
fn its_structure_has_headings_tables_with_heads_and_lists() {
    let Some(structure) = told("pdfinfo", &["-struct-text"], &[], &bytes(&walk())) else { return };
    for role in [
        "H1",
        "H2",
        "Table",
        "THead",
        "TH:",
        "/Scope /Column",
        "TR",
        "TD",
        "L (block)",
        "LI",
        "LBody",
        "Figure",
    ] {
        assert!(structure.contains(role), "{role}: {structure}");
    }
    let first = structure.find("Table").unwrap();
    assert!(structure[first..].find("light fixture") < structure[first..].find("hose reel"));
}

/// ISO 14289-1 (PDF/UA-1) names itself in the metadata.
#[test]
fn it_says_that_it_is_accessible_and_says_the_same_twice() {
    let pdf = bytes(&walk());
    let holds = |what: &[u8]| pdf.windows(what.len()).any(|window| window == what);
    assert!(holds(b"pdfuaid:part") && holds(b"/Outlines"));
    assert_eq!(pdf, bytes(&walk()));
}

#[test]
fn names_and_words_in_other_letters_do_no_harm() {
    let named = Draft { source: "家 \u{1f3e0} Ω.wav".to_owned(), ..walk() };
    assert!(!bytes(&named).is_empty());
    let long = Draft { source: "x".repeat(400), ..walk() };
    let Some(text) = told("pdftotext", &[], &["-"], &bytes(&long)) else { return };
    assert!(text.contains("xxxx"));
}

#[test]
fn a_row_that_no_sheet_can_hold_goes_on_on_the_next() {
    let mut draft = walk();
    draft.lines[0].quote = "word ".repeat(2_000);
    let Some(text) = told("pdftotext", &[], &["-"], &bytes(&draft)) else { return };
    assert_eq!(text.matches("word").count(), 2_000 + text.matches("Time and words").count());
}

#[test]
fn a_paper_comes_of_whatever_a_recording_is_called_and_a_person_types() {
    for source in [
        "",
        ".m4a",
        " .m4a",
        "a",
        "家 🏠.m4a",
        "שלום.m4a",
        "tab\there\u{200b}\u{7}.m4a",
        "ﬁ\u{301}\u{1f3fd}.wav",
    ] {
        let mut draft = Draft { source: source.to_owned(), ..walk() };
        for line in &mut draft.lines {
            line.structure = source.to_owned();
            line.detail = Some(source.to_owned());
            line.quote = source.to_owned();
        }
        assert!(bytes(&draft).starts_with(b"%PDF-1.7"), "{source:?}");
    }
    let unnamed = Draft { source: ".m4a".to_owned(), ..walk() };
    let job = Job::new(&unnamed, &Scope::of(&unnamed), &[], &GRAMMAR).property().to_owned();
    assert_eq!(job, ".m4a");
}
