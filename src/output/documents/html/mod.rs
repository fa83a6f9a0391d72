//! The draft as one printable page that needs nothing from outside.

mod lines;
mod lists;

use super::Format;
use crate::model::Draft;
use crate::model::wording::{self, CLOSING, sentence};
use crate::scope::arrange::Arranged;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// One self-contained page, for reading on a screen and for printing.
pub struct Html;

/// What names this program in its pages, so that it can tell them from anyone else's.
pub const MARK: &str = r#"<meta name="generator" content="Eavesdraft">"#;

const STYLE: &str = include_str!("page.css");

impl Format for Html {
    fn ending(&self) -> &'static str {
        "scope.html"
    }

    fn render(&self, draft: &Draft) -> Vec<u8> {
        let arranged = Arranged::new(draft);
        let page = html! {
            (DOCTYPE)
            html lang="en" {
                (head(&format!("Draft scope of work: {}", draft.source)))
                body {
                    (masthead(draft))
                    main {
                        (notices(draft))
                        (lines::by_place(&arranged))
                        (lines::only_if(&arranged))
                        (lists::to_settle(&arranged))
                        (lists::follow_ups(draft))
                        (lists::dimensions(draft))
                        (lists::cleared(draft))
                        (lists::unplaced(draft))
                        (lists::mentioned(draft))
                        (lists::cautions(draft))
                    }
                    (foot(draft))
                }
            }
        };
        (page.into_string() + "\n").into_bytes()
    }
}

/// The head of a page that needs nothing but itself.
pub(crate) fn head(title: &str) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'";
            (PreEscaped(MARK))
            title { (title) }
            style { (PreEscaped(STYLE)) }
        }
    }
}

fn masthead(draft: &Draft) -> Markup {
    html! {
        header {
            p.kind { "Draft scope of work" }
            h1 { (draft.source) }
            p.summary {
                @if let Some(recording) = wording::recording(draft) { (recording) }
                (sentence(&wording::summary(draft)))
            }
            @for (clip, number) in draft.clips.iter().zip(1..) {
                p.source { "Clip " (number) ": " (wording::clip(clip)) }
            }
        }
    }
}

fn notices(draft: &Draft) -> Markup {
    html! {
        @if !draft.notices.is_empty() {
            section.notices aria-label="Notices" {
                @for notice in &draft.notices { p { (sentence(notice)) } }
            }
        }
    }
}

/// The files that the draft came from, each with what tells whether it is still the same.
fn digests(draft: &Draft) -> Vec<(&str, &str)> {
    if draft.clips.is_empty() {
        return draft.digest.iter().map(|digest| (draft.source.as_str(), digest.as_str())).collect();
    }
    draft.clips.iter().filter_map(|clip| Some((clip.source.as_str(), clip.digest.as_deref()?))).collect()
}

fn foot(draft: &Draft) -> Markup {
    let (timed, gap) = if draft.clips.is_empty() { ("recording", "") } else { ("clip", " ") };
    html! {
        footer {
            @for line in CLOSING { p { (line) } }
            p.print {
                "Left and right are as seen from the street. "
                @if draft.length.is_some() { "Times are minutes and seconds into the " (timed) ". " }
                @for (name, digest) in digests(draft) { "SHA-256 of " (name) ": " code { (digest) } (gap) }
            }
        }
    }
}
