//! The tables of lines.

use crate::model::span::Moment;
use crate::model::wording::{self, ONLY_IF, capital};
use crate::model::{Clip, Line};
use crate::scope::arrange::{Arranged, Numbered, Placed};
use maud::{Markup, html};

/// The lines that stand: a table a structure, parted by place.
pub(super) fn by_place(arranged: &Arranged) -> Markup {
    let structures = arranged.places.chunk_by(|a, b| a.structure == b.structure);
    html! {
        @if arranged.places.is_empty() {
            p.nothing { "No line stands: these words name no work to be done." }
        }
        @for (n, places) in structures.enumerate() {
            @let heading = format!("structure-{}", n + 1);
            section {
                h2 id=(heading) { (capital(places[0].structure)) }
                (table(&heading, html! { @for place in places { (place_rows(place)) } }))
            }
        }
    }
}

fn place_rows(placed: &Placed) -> Markup {
    html! {
        tbody.place { tr { td colspan="9" { h3 { (capital(placed.place.heading())) } } } }
        @for line in &placed.lines { (rows(line, item(line.line))) }
    }
}

/// The conditional lines, apart from all others.
pub(super) fn only_if(arranged: &Arranged) -> Markup {
    let where_and_what = |n: &Numbered| {
        html! {
            (item(n.line))
            span.where { (wording::whereabouts(&n.line.structure, n.line.side)) }
        }
    };
    html! {
        @if !arranged.only_if.is_empty() {
            section.only-if {
                h2 id="only-if" { "Only if" }
                p { (ONLY_IF) }
                (table("only-if", html! { @for line in &arranged.only_if { (rows(line, where_and_what(line))) } }))
            }
        }
    }
}

/// A table of lines under the heading with that id. All such tables have the same columns in the same widths.
fn table(heading: &str, rows: Markup) -> Markup {
    html! {
        section.wide aria-labelledby=(heading) tabindex="0" {
            table aria-labelledby=(heading) {
                colgroup {
                    col.number; col.quantity; col.unit; col.item; col.size; col.detail; col.work; col.time; col.words;
                }
                thead {
                    tr {
                        th scope="col" { "No." }
                        th.amount scope="col" { "Quantity" }
                        th scope="col" { "Unit" }
                        th scope="col" { "Item" }
                        th scope="col" { "Size" }
                        th scope="col" { "Detail" }
                        th scope="col" { "Work" }
                        th scope="col" { "Time" }
                        th scope="col" { "Words" }
                    }
                }
                (rows)
            }
        }
    }
}

/// A line's row, and under it what a reviewer has to settle.
fn rows(numbered: &Numbered, item: Markup) -> Markup {
    let line = numbered.line;
    let looks: Vec<String> = wording::looks(line).collect();
    html! {
        tbody.look[line.needs_look()] id={ "line-" (numbered.number) } {
            tr {
                td.number { (numbered.number) }
                td.amount { (quantity(line)) }
                td.unit { (wording::unit(line)) }
                th scope="row" { (item) }
                td { (wording::size_of(line)) }
                td { (line.detail.as_deref().unwrap_or_default()) }
                td.missing[line.work.is_none()] { (wording::work(line.work)) }
                td.time { @if let Some(start) = line.start { (time(numbered.clips, start)) } }
                td.words { q { (line.quote) } }
            }
            @if !looks.is_empty() {
                tr.reason {
                    td {}
                    td colspan="8" { strong { "Look: " } (looks.join(" ")) }
                }
            }
        }
    }
}

/// A clip stands above the time in it: the column is narrow.
fn time(clips: &[Clip], start: Moment) -> Markup {
    let time = wording::time_in(clips, start);
    match time.rsplit_once(' ') {
        Some((clip, time)) => html! { (clip) br; (time) },
        None => html! { (time) },
    }
}

fn item(line: &Line) -> Markup {
    html! { (wording::item_of(line)) }
}

fn quantity(line: &Line) -> Markup {
    match wording::quantity(line) {
        Some(quantity) => html! { (quantity) },
        None => html! { span.missing { "not said" } },
    }
}
