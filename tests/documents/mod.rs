//! One fixed draft as every document, side by side in `snapshots/`.
//!
//! After a wanted change, accept the new snapshots and look at what changed in them before it is committed:
//! `INSTA_UPDATE=always cargo test documents`.

use crate::harness::sample_draft;
use eavesdraft::cli::terminal::sheet::{self, Depth};
use eavesdraft::model::span::Moment;
use eavesdraft::model::{Clip, Draft};
use eavesdraft::output::documents::{Format, Html, Json};
use insta::assert_snapshot;

fn rendered(format: &dyn Format, draft: &Draft) -> String {
    String::from_utf8(format.render(draft)).unwrap()
}

/// What someone sees who has no colours.
fn shown(draft: &Draft, width: usize, depth: Depth) -> String {
    anstream::adapter::strip_str(&sheet::draft(draft, width, depth)).to_string()
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
    assert_snapshot!("page", rendered(&Html, &sample_draft()).replace("><", ">\n<"));
}

#[test]
fn a_visit_in_clips_on_a_terminal() {
    assert_snapshot!("terminal_of_clips", shown(&of_clips(), 80, Depth::Lines));
}

#[test]
fn a_visit_in_clips_as_a_page() {
    let page = rendered(&Html, &of_clips());
    for told in [
        "Recording of 02:28 in 2 clips. ",
        "Clip 1: 0412.m4a, 01:00",
        "Clip 2: 0413.m4a, 01:28",
        "clip 1,<br>00:04",
        "into the clip. ",
        "SHA-256 of 0413.m4a: ",
    ] {
        assert!(page.contains(told), "{told}");
    }
    // Whatever is told with a time is told with its clip.
    for time in ["<td class=\"time\">", "<span class=\"time\">"] {
        let count = |text: &str| page.matches(&format!("{time}{text}")).count();
        assert!(count("clip ") > 0);
        assert_eq!(count(""), count("clip ") + count("</"), "{time}");
    }
}

#[test]
fn as_json() {
    assert_eq!(rendered(&Json, &sample_draft()), include_str!("sample.scope.json"));
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
    let page = rendered(&Html, &sample_draft());
    for word in ["http:", "https:", "//", "src=", "url(", "@import", "<script", "<link"] {
        assert!(!page.contains(word), "{word}");
    }
}

#[test]
fn words_never_become_markup() {
    let mut draft = sample_draft();
    draft.source = "<script>\"'&.m4a".to_owned();
    draft.lines[0].quote = "</q><img>".to_owned();
    let page = rendered(&Html, &draft);
    assert!(page.contains("&lt;script&gt;") && page.contains("&lt;/q&gt;&lt;img&gt;"));
    assert!(!page.contains("<script") && !page.contains("<img"));
}

#[test]
fn conditional_lines_stand_apart_and_after_all_others() {
    for text in [rendered(&Html, &sample_draft()), shown(&sample_draft(), 80, Depth::Lines)] {
        let (standing, apart) = text.split_once("outside every total").unwrap();
        assert!(standing.contains("shingles") && !standing.contains("window wrap"));
        assert!(apart.contains("window wrap"));
    }
}

#[test]
fn every_line_that_needs_a_look_is_linked_once() {
    let page = rendered(&Html, &sample_draft());
    for (n, line) in (1..).zip(&sample_draft().lines) {
        assert_eq!(page.matches(&format!("id=\"line-{n}\"")).count(), 1, "{}", line.quote);
    }
    assert_eq!(page.matches("href=\"#line-").count(), 7);
}

#[test]
fn without_times_nothing_speaks_of_a_recording() {
    for text in [rendered(&Html, &untimed()), shown(&untimed(), 80, Depth::Lines)] {
        assert!(!text.contains("Recording of") && !text.contains("into the recording"));
        assert!(text.contains("coach light") || text.contains("light fixture"));
    }
}

#[test]
fn a_draft_of_nothing_says_so() {
    for text in [rendered(&Html, &empty()), shown(&empty(), 80, Depth::Lines)] {
        assert!(text.contains("0 lines; nothing needs a look."), "{text}");
        assert!(text.contains("these words name no work to be done"));
        assert!(!text.contains("Needs a look"));
    }
}
