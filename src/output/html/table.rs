//! Tables of a page. On a narrow screen each row becomes a paragraph, in which a number tells its column's heading.

use super::{linked, said};
use crate::output::page::{Cell, Column, Group, Holds, Row, Table};
use maud::{Markup, html};

/// What a table is known by to whoever hears it read.
#[derive(Clone, Copy)]
pub(super) enum Name<'a> {
    /// The heading of that id.
    Heading(&'a str),
    /// Words.
    Words(&'a str),
}

/// A table.
pub(super) fn table(table: &Table, name: Name) -> Markup {
    let (heading, words) = match name {
        Name::Heading(id) => (Some(id), None),
        Name::Words(words) => (None, Some(words)),
    };
    html! {
        section.wide aria-labelledby=[heading] aria-label=[words] tabindex="0" {
            table aria-labelledby=[heading] aria-label=[words] {
                thead { tr { @for column in &table.columns { th class=[class(column)] scope="col" { (column.heading) } } } }
                @for group in &table.groups { (group_of(group, table)) }
            }
        }
    }
}

fn group_of(group: &Group, table: &Table) -> Markup {
    html! {
        @if let Some(heading) = &group.heading {
            tbody.group { tr { td colspan=(table.columns.len()) { h3 { (heading) } } } }
        }
        @for row in &group.rows { (row_of(row, table)) }
    }
}

fn row_of(row: &Row, table: &Table) -> Markup {
    html! {
        tbody.flagged[row.flagged] id=[row.anchor.as_ref()] {
            tr {
                @for (cell, column) in row.cells.iter().zip(&table.columns) { (cell_of(cell, column)) }
            }
            @for note in &row.notes {
                tr.note.flag[note.flagged] { td colspan=(table.columns.len()) { (note.text) } }
            }
        }
    }
}

fn cell_of(cell: &Cell, column: &Column) -> Markup {
    match column.holds {
        Holds::Names => html! { th scope="row" { (told(cell)) } },
        _ => html! { td class=[class(column)] data-heading=[heading(cell, column)] { (told(cell)) } },
    }
}

/// The heading of a number, for where there is no head of the table; words tell what they are.
fn heading(cell: &Cell, column: &Column) -> Option<&'static str> {
    (!cell.text.is_empty() && column.holds == Holds::Numbers).then_some(column.heading)
}

fn told(cell: &Cell) -> Markup {
    html! {
        @match cell.missing {
            true => span.missing { (linked(cell.link.as_ref(), &cell.text)) },
            false => (linked(cell.link.as_ref(), &cell.text)),
        }
        @if !cell.more.is_empty() { span.more { ", " (cell.more) } }
        @if let Some(words) = &cell.said { (said(words)) }
    }
}

fn class(column: &Column) -> Option<&'static str> {
    match column.holds {
        Holds::Numbers => Some("number"),
        Holds::Words => Some("words"),
        Holds::Names | Holds::Text | Holds::Links => None,
    }
}
