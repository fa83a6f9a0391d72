//! A paper as one page for a browser that needs nothing but itself, to read and to print.

mod table;

use super::page::{Block, Drawing, Entry, Link, Page, Picture, Said, Section};
use base64::prelude::{BASE64_STANDARD, Engine};
use maud::{DOCTYPE, Markup, PreEscaped, html};
use table::Name;

/// What names this program in its pages, so that it can tell them from anyone else's.
pub const MARK: &str = r#"<meta name="generator" content="Eavesdraft">"#;

const STYLE: &str = include_str!("page.css");

/// The paper as a page.
pub fn html(page: &Page) -> Vec<u8> {
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            (head(&format!("{}: {}", page.kind, page.title)))
            body {
                (masthead(page))
                main {
                    @if !page.notices.is_empty() {
                        section.notices aria-label="Please note" { @for notice in &page.notices { p { (notice) } } }
                    }
                    @for (section, number) in page.sections.iter().zip(1..) { (section_of(section, number)) }
                }
                footer { @for line in &page.closing { p { (line) } } }
            }
        }
    };
    (markup.into_string() + "\n").into_bytes()
}

fn head(title: &str) -> Markup {
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

fn masthead(page: &Page) -> Markup {
    html! {
        header {
            p.kind { (page.kind) }
            h1 { (page.title) }
            @if !page.blanks.is_empty() {
                div.blanks { @for blank in &page.blanks { p { (blank) ":" span {} } } }
            }
            @if !page.summary.is_empty() { p.summary { (page.summary.join(" ")) } }
        }
    }
}

fn section_of(section: &Section, number: usize) -> Markup {
    let id = format!("section-{number}");
    html! {
        section.framed[section.framed] {
            h2 id=(id) { (section.heading) }
            @for (n, block) in section.blocks.iter().enumerate() {
                @match block {
                    Block::Text(text) => p { (text) },
                    Block::Table(one) => (table::table(one, named(&section.blocks[..n], &id))),
                    Block::List { ticks, entries } => (list(*ticks, entries)),
                    Block::Drawing(one) => (drawing(one)),
                    Block::Pictures(some) => (pictures(some)),
                }
            }
        }
    }
}

/// What the table behind those blocks is known by: the heading over it, or the words before it where another table has
/// that already.
fn named<'a>(before: &'a [Block], heading: &'a str) -> Name<'a> {
    let is_second = before.iter().any(|block| matches!(block, Block::Table(_)));
    match before.last() {
        Some(Block::Text(text)) if is_second => Name::Words(text),
        _ => Name::Heading(heading),
    }
}

fn list(ticks: bool, entries: &[Entry]) -> Markup {
    html! {
        ul.ticks[ticks] {
            @for Entry { name, link, text, said: words, source } in entries {
                li {
                    @if !name.is_empty() {
                        strong { (linked(link.as_ref(), name)) } @if !text.is_empty() { ": " }
                    }
                    (text)
                    @if let Some(words) = words { p.soft { (said(words)) } }
                    @if !source.is_empty() { p.soft { (source) } }
                }
            }
        }
    }
}

/// Words that lead somewhere, or don't.
fn linked(link: Option<&Link>, words: &str) -> Markup {
    match link {
        Some(Link::Row(anchor)) => html! { a href={ "#" (anchor) } { (words) } },
        Some(Link::Page(address)) => html! { a href=(address) { (words) } },
        None => html! { (words) },
    }
}

/// What was said, and when.
fn said(Said { time, words }: &Said) -> Markup {
    html! {
        @if !time.is_empty() { span.time { (time) } " " }
        @if !words.is_empty() { q { (words) } }
    }
}

fn pictures(pictures: &[Picture]) -> Markup {
    html! {
        div.pictures {
            @for picture in pictures {
                figure {
                    img src={ "data:image/jpeg;base64," (BASE64_STANDARD.encode(&picture.jpeg)) } alt=(picture.told)
                        width=(picture.width) height=(picture.height);
                    figcaption { (picture.caption) }
                }
            }
        }
    }
}

fn drawing(drawing: &Drawing) -> Markup {
    let view = format!("0 0 {} {}", drawing.width, drawing.height);
    html! {
        svg.drawing role="img" aria-label=(drawing.told) viewBox=(view) width=(drawing.width) height=(drawing.height) {
            @for [x, y, width, height] in &drawing.boxes {
                rect x=(x) y=(y) width=(width) height=(height) {}
            }
            @for label in &drawing.words {
                text.strong[label.strong] x=(label.x) y=(label.y) { (label.text) }
            }
        }
    }
}
