//! One fixed draft as every document, side by side in `snapshots/`.
//!
//! After a wanted change, accept the new snapshots and look at what changed in them before it is committed:
//! `INSTA_UPDATE=always cargo test documents`.

use crate::harness::sample_draft;
use eavesdraft::model::span::Moment;
use eavesdraft::model::{Clip, Draft};
use eavesdraft::output::parts::Depth;
use eavesdraft::output::{draft, html, text};
use insta::assert_snapshot;

fn as_html(draft: &Draft) -> String {
    String::from_utf8(html::html(&draft::page(draft, Depth::Words))).unwrap()
}

/// What someone sees who has no colours.
fn shown(draft: &Draft, width: usize, depth: Depth) -> String {
    anstream::adapter::strip_str(&text::text(&draft::page(draft, depth), width)).to_string()
}

/// The sample as if it had come from text: no times and no length.
fn untimed() -> Draft {
    let mut draft = sample_draft();
    draft.length = None;
    draft.lines.iter_mut().for_each(|line| line.start = None);
    draft
}

/// The sample as a visit in two clips, the second from one minute on.
fn of_clips() -> Draft {
    let clip = |source: &str, start: u64, length: u64| Clip {
        source: source.to_owned(),
        digest: Some(format!("{start:064}")),
        start: Moment(start),
        length: Some(Moment(length)),
        first_word: 0,
    };
    Draft {
        source: "14 Elm".to_owned(),
        clips: vec![clip("0412.m4a", 0, 60_000), clip("0413.m4a", 60_000, 88_100)],
        ..sample_draft()
    }
}

/// A draft of words that name no work.
fn empty() -> Draft {
    let nothing =
        r#"{"source":"a.txt","lines":[],"no_work":[],"follow_ups":[],"dimensions":[],"cautions":[]}"#;
    serde_json::from_str(nothing).unwrap()
}

#[test]
fn on_a_terminal() {
    assert_snapshot!("terminal", shown(&sample_draft(), 80, Depth::Lines));
}

#[test]
fn on_a_terminal_with_the_reasons() {
    assert_snapshot!("terminal_why", shown(&sample_draft(), 100, Depth::Why));
}

#[test]
fn as_a_page() {
    // A tag a line, so that a change shows where it is.
    assert_snapshot!("page", as_html(&sample_draft()).replace("><", ">\n<"));
}

#[test]
fn a_visit_in_clips_on_a_terminal() {
    assert_snapshot!("terminal_of_clips", shown(&of_clips(), 80, Depth::Lines));
}

#[test]
fn a_visit_in_clips_as_a_page() {
    let page = as_html(&of_clips());
    for told in [
        "Length of the recording: 02:28, 2 clips.",
        "Clip 1: 0412.m4a, 01:00.",
        "Clip 2: 0413.m4a, 01:28.",
        "<span class=\"time\">clip 1, 00:04</span>",
        "SHA-256 of 0413.m4a: ",
    ] {
        assert!(page.contains(told), "{told}");
    }
    // Whatever is told with a time is told with its clip.
    let count = |text: &str| page.matches(&format!("<span class=\"time\">{text}")).count();
    assert!(count("clip ") > 0 && count("") == count("clip "));
}

#[test]
fn as_json() {
    assert_eq!(draft::json(&sample_draft()), include_bytes!("sample.scope.json"));
    let papers = draft::papers(&sample_draft());
    assert_eq!(papers, [draft::json(&sample_draft()), as_html(&sample_draft()).into_bytes()]);
}

#[test]
fn terminal_lines_keep_to_the_width() {
    for (width, draft) in [60, 72, 80, 120].into_iter().flat_map(|w| [(w, sample_draft()), (w, of_clips())]) {
        let text = shown(&draft, width, Depth::Why);
        let widest = text.lines().map(|line| line.chars().count()).max().unwrap();
        assert!(widest <= width, "{widest} columns in {width}");
    }
}

#[test]
fn the_page_asks_for_nothing_from_outside() {
    let page = as_html(&sample_draft());
    for word in ["http:", "https:", "//", "src=", "url(", "@import", "<script", "<link"] {
        assert!(!page.contains(word), "{word}");
    }
}

#[test]
fn words_never_become_markup() {
    let mut draft = sample_draft();
    draft.source = "<script>\"'&.m4a".to_owned();
    draft.lines[0].quote = "</q><img>".to_owned();
    let page = as_html(&draft);
    assert!(page.contains("&lt;script&gt;") && page.contains("&lt;/q&gt;&lt;img&gt;"));
    assert!(!page.contains("<script") && !page.contains("<img"));
}

#[test]
fn conditional_lines_stand_apart_and_after_all_others() {
    for text in [as_html(&sample_draft()), shown(&sample_draft(), 80, Depth::Lines)] {
        let (standing, apart) = text.split_once("Not in totals until confirmed").unwrap();
        assert!(standing.contains("shingles") && !standing.contains("window wrap"));
        assert!(apart.contains("window wrap"));
    }
}

#[test]
fn every_line_that_needs_review_is_linked_once() {
    let page = as_html(&sample_draft());
    for (n, line) in (1..).zip(&sample_draft().lines) {
        assert_eq!(page.matches(&format!("id=\"line-{n}\"")).count(), 1, "{}", line.quote);
    }
    assert_eq!(page.matches("href=\"#line-").count(), 7);
}

#[test]
fn without_times_nothing_speaks_of_a_recording() {
    for text in [as_html(&untimed()), shown(&untimed(), 80, Depth::Lines)] {
        assert!(!text.contains("Length of the recording"));
        assert!(text.contains("coach light") || text.contains("light fixture"));
    }
}

#[test]
fn a_draft_of_nothing_says_so() {
    for text in [as_html(&empty()), shown(&empty(), 80, Depth::Lines)] {
        assert!(text.contains("0 lines; none needs review."), "{text}");
        assert!(text.contains("Nothing that was said names work to be done."));
        assert!(!text.contains("Needs review"));
    }
}
