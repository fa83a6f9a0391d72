//! Tables in columns of a terminal. A row that somebody has to look at begins with a mark that is seen without colors.

use super::pen::{FLAG, PLAIN, Pen, SOFT, STRONG, styled};
use crate::output::page::fit::{Want, fit};
use crate::output::page::{Cell, Column, Holds, Row, Table};
use anstyle::Style;
use textwrap::core::display_width;

/// Between two columns.
const GAP: usize = 2;

/// Before a row that somebody has to look at.
const MARK: &str = "! ";

/// Where the notes of a row begin.
const INDENT: usize = 6;

/// Columns of words get no narrower, however short their words are.
const NARROWEST: usize = 8;

/// Writes a table: in columns where there is room for them, else a paragraph a row.
pub(super) fn table(pen: &mut Pen, table: &Table) {
    let table = &table.without_links();
    let mark = if table.rows().any(|row| row.flagged) { MARK.len() } else { 0 };
    let widths = widths(table, pen.width - mark);
    if let Some(widths) = &widths {
        head(pen, table, mark, widths);
    }
    for (n, group) in table.groups.iter().enumerate() {
        if let Some(heading) = &group.heading {
            if n > 0 {
                pen.skip();
            }
            pen.text(STRONG, 0, heading);
        }
        for row in &group.rows {
            match &widths {
                Some(widths) => in_columns(pen, row, &table.columns, mark, widths),
                None => in_words(pen, row, &table.columns),
            }
            let style = |flagged| if flagged { FLAG } else { SOFT };
            row.notes.iter().for_each(|note| pen.text(style(note.flagged), INDENT, &note.text));
        }
    }
}

/// How wide the columns are; none where there is no room for all of them.
fn widths(table: &Table, room: usize) -> Option<Vec<usize>> {
    let want = |(n, column): (usize, &Column)| {
        let cells = table.rows().filter_map(|row| row.cells.get(n)).map(Cell::told);
        let texts: Vec<String> = cells.collect();
        let widest = texts.iter().map(|text| display_width(text)).max().unwrap_or(0);
        let whole = widest.max(display_width(column.heading));
        let least = match column.holds {
            Holds::Numbers => widest,
            _ => longest_word(&texts).max(NARROWEST).min(whole),
        };
        let least = least.max(longest_word(&[column.heading.to_owned()]));
        Want { whole: whole as f32, least: least as f32 }
    };
    let wants: Vec<Want> = table.columns.iter().enumerate().map(want).collect();
    let gaps = GAP * wants.len().saturating_sub(1);
    let fitted = fit(&wants, room.saturating_sub(gaps) as f32)?;
    Some(fitted.into_iter().map(|width| width as usize).collect())
}

fn longest_word(texts: &[String]) -> usize {
    texts.iter().flat_map(|text| text.split_whitespace()).map(display_width).max().unwrap_or(0)
}

fn head(pen: &mut Pen, table: &Table, mark: usize, widths: &[usize]) {
    let headings: Vec<Vec<String>> =
        table.columns.iter().zip(widths).map(|(column, width)| lines(column.heading, *width)).collect();
    for n in 0..headings.iter().map(Vec::len).max().unwrap_or(0) {
        let heading = |(lines, (column, width)): (&Vec<String>, (&Column, &usize))| {
            aligned(lines.get(n).map(String::as_str).unwrap_or_default(), column, *width)
        };
        let row: Vec<String> = headings.iter().zip(table.columns.iter().zip(widths)).map(heading).collect();
        pen.row(&format!("{:mark$}{}", "", styled(SOFT, row.join(&" ".repeat(GAP)).trim_end())));
    }
}

fn lines(text: &str, width: usize) -> Vec<String> {
    textwrap::wrap(text, width).into_iter().map(String::from).collect()
}

fn in_columns(pen: &mut Pen, row: &Row, columns: &[Column], mark: usize, widths: &[usize]) {
    let cells: Vec<Vec<String>> =
        row.cells.iter().zip(widths).map(|(cell, width)| lines(&cell.told(), *width)).collect();
    for n in 0..cells.iter().map(Vec::len).max().unwrap_or(0) {
        let line = |((lines, cell), (column, width)): ((&Vec<String>, &Cell), (&Column, &usize))| {
            let text = lines.get(n).map(String::as_str).unwrap_or_default();
            let room = aligned(text, column, *width);
            room.replacen(text, &styled(style(cell, column), text), 1)
        };
        let cells = cells.iter().zip(&row.cells).zip(columns.iter().zip(widths)).map(line);
        let before = match row.flagged && n == 0 {
            true => styled(FLAG, MARK),
            false => " ".repeat(mark),
        };
        pen.row(&(before + &cells.collect::<Vec<_>>().join(&" ".repeat(GAP))));
    }
}

/// A row for which there are no columns: its cells one after the other, numbers with their headings.
fn in_words(pen: &mut Pen, row: &Row, columns: &[Column]) {
    let cell = |(cell, column): (&Cell, &Column)| match (cell.told(), column.holds) {
        (told, _) if told.is_empty() => None,
        (told, Holds::Numbers) => Some(format!("{} {told}", column.heading.to_lowercase())),
        (told, _) => Some(told),
    };
    let told: Vec<String> = row.cells.iter().zip(columns).filter_map(cell).collect();
    pen.marked(if row.flagged { MARK } else { "- " }, &told.join(", "));
}

fn style(cell: &Cell, column: &Column) -> Style {
    match (cell.missing, &cell.said, column.holds) {
        (true, ..) => FLAG,
        (false, Some(_), _) => SOFT,
        (false, None, Holds::Names) => STRONG,
        (false, None, _) => PLAIN,
    }
}

fn aligned(text: &str, column: &Column, width: usize) -> String {
    let room = " ".repeat(width.saturating_sub(display_width(text)));
    match column.holds {
        Holds::Numbers => room + text,
        _ => text.to_owned() + &room,
    }
}
