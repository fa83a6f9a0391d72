//! A paper as one page for a browser that needs nothing but itself, to read and to print.

use super::page::{Block, Drawing, Entry, Group, Page, Picture, Row, Section, Table};
use crate::output::documents::head;
use base64::prelude::{BASE64_STANDARD, Engine};
use maud::{DOCTYPE, Markup, html};

/// The paper as a page.
pub fn html(page: &Page) -> Vec<u8> {
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            (head(&format!("{}: {}", page.kind, page.title)))
            body {
                header {
                    p.kind { (page.kind) }
                    h1 { (page.title) }
                    @if !page.blanks.is_empty() {
                        div.blanks { @for blank in &page.blanks { p { (blank) ":" span {} } } }
                    }
                    @if !page.summary.is_empty() { p.summary { (page.summary.join(" ")) } }
                }
                main {
                    @if !page.open.is_empty() {
                        section.notices aria-label="Still open" {
                            p { strong { "This is a draft. Still open: " } (page.open.join(" ")) }
                        }
                    }
                    @for (section, number) in page.sections.iter().zip(1..) { (section_of(section, number)) }
                }
                footer { @for line in &page.closing { p { (line) } } }
            }
        }
    };
    (markup.into_string() + "\n").into_bytes()
}

fn section_of(section: &Section, number: usize) -> Markup {
    let id = format!("section-{number}");
    html! {
        section {
            h2 id=(id) { (section.heading) }
            @for block in &section.blocks {
                @match block {
                    Block::Text(text) => p { (text) },
                    Block::Table(one) => (table(one, &id)),
                    Block::List { ticks, entries } => (list(*ticks, entries)),
                    Block::Drawing(one) => (drawing(one)),
                    Block::Pictures(some) => (pictures(some)),
                }
            }
        }
    }
}

fn table(table: &Table, heading: &str) -> Markup {
    let shares: f32 = table.columns.iter().map(|column| column.share).sum();
    html! {
        section.wide aria-labelledby=(heading) tabindex="0" {
            table aria-labelledby=(heading) {
                colgroup {
                    @for column in &table.columns {
                        col style={ "width:" (format!("{:.1}", 100.0 * column.share / shares)) "%" };
                    }
                }
                thead { tr {
                    @for column in &table.columns { th.amount[column.number] scope="col" { (column.heading) } }
                } }
                @for group in &table.groups { (group_of(group, table)) }
            }
        }
    }
}

fn group_of(group: &Group, table: &Table) -> Markup {
    html! {
        @if let Some(heading) = &group.heading {
            tbody.place { tr { td colspan=(table.columns.len()) { h3 { (heading) } } } }
        }
        @for row in &group.rows { (row_of(row, table)) }
    }
}

fn row_of(row: &Row, table: &Table) -> Markup {
    html! {
        tbody.look[row.look] {
            tr {
                @for (cell, column) in row.cells.iter().zip(&table.columns) {
                    td.amount[column.number] { (cell) }
                }
            }
            @for note in &row.notes {
                tr.reason { td colspan=(table.columns.len()) { (note) } }
            }
        }
    }
}

fn list(ticks: bool, entries: &[Entry]) -> Markup {
    html! {
        ul.known[!ticks] {
            @for Entry { name, text, said } in entries {
                li {
                    @if !name.is_empty() { strong { (name) } @if !text.is_empty() { ": " } }
                    (text)
                    @if !said.is_empty() { p.heard { (said) } }
                }
            }
        }
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
