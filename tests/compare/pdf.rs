//! The comparison as a PDF, read back by poppler.

use super::papers::LIST;
use super::{GRAMMAR, WALK, beside, read, scope};
use crate::papers::pdf::told;
use eavesdraft::model::Draft;
use eavesdraft::model::wording::{CLOSING, capital};
use eavesdraft::output::comparison::page;
use eavesdraft::output::pdf;
use eavesdraft::scope::compare::{Comparison, Outcome, Reading, compare};

fn bytes(comparison: &Comparison) -> Vec<u8> {
    pdf::pdf(&page(comparison, None)).unwrap()
}

/// The words of the PDF, parted by single spaces.
fn words(pdf: &[u8]) -> Option<String> {
    let text = told("pdftotext", &[], &["-"], pdf)?;
    Some(text.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// A scope of so many times the walk's lines.
fn long(times: usize) -> Comparison {
    let walk = scope(WALK);
    let lines = std::iter::repeat_n(walk.lines.clone(), times).flatten().collect();
    let list = read(LIST.as_bytes(), &Reading::default()).unwrap();
    compare(&Draft { lines, ..walk }, &list, &GRAMMAR)
}

#[test]
fn each_finding_shows_our_words_with_their_time_and_the_rows_that_it_is_held_beside() {
    let comparison = beside(LIST);
    let Some(text) = words(&bytes(&comparison)) else { return };
    for finding in &comparison.findings {
        for our in &finding.ours {
            let time = our.time.as_deref().unwrap();
            assert!(
                text.contains(&format!("Line {}, {time}: “{}”", our.number, our.quote)),
                "{our:#?}: {text}"
            );
        }
        for their in &finding.theirs {
            assert!(
                text.contains(&format!("Row {}: “{}”, {}", their.row, their.text, their.amount)),
                "{their:#?}"
            );
        }
        for why in finding.because.iter().chain(&finding.question) {
            assert!(text.contains(why), "{why}");
        }
    }
}

#[test]
fn it_is_a_letter_with_what_is_to_be_filled_in_and_what_it_isnt() {
    let comparison = beside(LIST);
    let Some(text) = words(&bytes(&comparison)) else { return };
    let head = "Two lists of work, compared line by line Our scope compared with list";
    assert!(text.starts_with(head), "{text}");
    for blank in ["From:", "To:", "Property:", "Date:"] {
        assert!(text.contains(blank), "{blank}");
    }
    for outcome in Outcome::ALL.into_iter().filter(|outcome| comparison.of(*outcome).count() > 0) {
        let heading = format!("{} ({})", capital(outcome.words()), comparison.of(outcome).count());
        assert!(text.contains(&heading), "{heading}");
    }
    for told in ["Open questions (1)", "Only if (1)", "How their columns were read", "Read as"] {
        assert!(text.contains(told), "{told}");
    }
    assert!(text.contains("It does not say what any policy covers"));
    assert!(CLOSING.iter().all(|line| text.contains(line)), "{text}");
}

#[test]
fn the_head_of_a_table_stands_on_every_sheet_it_goes_on_to() {
    let comparison = long(8);
    let Some(text) = told("pdftotext", &["-layout"], &["-"], &bytes(&comparison)) else { return };
    let sheets: Vec<&str> = text.split('\x0c').filter(|sheet| !sheet.trim().is_empty()).collect();
    for (number, sheet) in (1..).zip(&sheets) {
        assert!(sheet.contains(&format!("Page {number} of {}", sheets.len())), "sheet {number}");
    }
    let with_lines = |sheet: &&&str| sheet.contains("Line ");
    let without = sheets
        .iter()
        .filter(with_lines)
        .find(|sheet| !sheet.contains("Our line") && !sheet.contains("Their row"));
    assert!(sheets.iter().filter(with_lines).count() > 5 && without.is_none(), "{without:?}");
}

#[test]
fn it_is_tagged_titled_accessible_and_says_the_same_twice() {
    let comparison = beside(LIST);
    let pdf = bytes(&comparison);
    let holds = |what: &[u8]| pdf.windows(what.len()).any(|window| window == what);
    assert!(holds(b"pdfuaid:part") && holds(b"/Outlines"));
    assert_eq!(pdf, bytes(&beside(LIST)));
    let Some(info) = told("pdfinfo", &[], &[], &pdf) else { return };
    let has = |key: &str, value: &str| {
        info.lines().any(|line| line.starts_with(key) && line.trim_end().ends_with(value))
    };
    let title = "Two lists of work, compared line by line: Our scope compared with list";
    assert!(has("Tagged:", "yes") && has("Title:", title) && has("Page size:", "(letter)"), "{info}");
    let structure = told("pdfinfo", &["-struct-text"], &[], &pdf).unwrap();
    for role in ["H1", "H2", "Table", "THead", "TH:", "/Scope /Column", "LI", "LBody"] {
        assert!(structure.contains(role), "{role}: {structure}");
    }
}
