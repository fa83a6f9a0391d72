//! The draft as one printable page that needs nothing from outside.

mod lines;
mod lists;

use super::Format;
use super::arrange::Arranged;
use super::wording::{self, CLOSING, sentence};
use crate::draft::Draft;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// One self-contained page, for reading on a screen and for printing.
pub struct Html;

/// What names this program in its pages, so that it can tell them from anyone else's.
pub const MARK: &str = r#"<meta name="generator" content="Eavesdraft">"#;

pub(crate) const STYLE: &str = include_str!("page.css");

impl Format for Html {
    fn ending(&self) -> &'static str {
        "scope.html"
    }

    fn render(&self, draft: &Draft) -> Vec<u8> {
        let arranged = Arranged::new(draft);
        let page = html! {
            (DOCTYPE)
            html lang="en" {
                (head(draft))
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

fn head(draft: &Draft) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'";
            (PreEscaped(MARK))
            title { "Draft scope of work: " (draft.source) }
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
                @if let Some(length) = draft.length { "Recording of " (wording::time(length)) ". " }
                (sentence(&wording::summary(draft)))
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

fn foot(draft: &Draft) -> Markup {
    html! {
        footer {
            @for line in CLOSING { p { (line) } }
            p.print {
                "Left and right are as seen from the street. "
                @if draft.length.is_some() { "Times are minutes and seconds into the recording. " }
                @if let Some(digest) = &draft.digest { "SHA-256 of " (draft.source) ": " code { (digest) } }
            }
        }
    }
}
