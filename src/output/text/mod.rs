//! A paper as text for a terminal of some width, with colors in it. It prints nothing, and whoever prints it leaves the
//! colors out where nobody sees them; what they mean is told without them too.

mod pen;
mod table;

use super::page::{Block, Entry, Page, Section};
use pen::{FLAG, PLAIN, Pen, SOFT, STRONG};

/// The paper as text. What is filled in by hand has no place in it.
pub fn text(page: &Page, width: usize) -> String {
    let mut pen = Pen::new(width);
    pen.text(SOFT, 0, &page.kind);
    pen.text(STRONG, 0, &page.title);
    pen.text(PLAIN, 0, &page.summary.join(" "));
    page.notices.iter().for_each(|notice| pen.text(FLAG, 0, notice));
    page.sections.iter().for_each(|one| section(&mut pen, one));
    if !page.closing.is_empty() {
        pen.skip();
        page.closing.iter().for_each(|line| pen.text(SOFT, 0, line));
    }
    pen.finish()
}

fn section(pen: &mut Pen, section: &Section) {
    pen.skip();
    pen.text(STRONG, 0, &section.heading);
    for block in &section.blocks {
        match block {
            Block::Text(text) => pen.text(PLAIN, 0, text),
            Block::Table(one) => table::table(pen, one),
            Block::List { ticks, entries } => entries.iter().for_each(|one| entry(pen, *ticks, one)),
            Block::Drawing(drawing) => pen.text(PLAIN, 0, &drawing.told),
            Block::Pictures(pictures) => pictures.iter().for_each(|one| pen.marked("- ", &one.caption)),
        }
    }
}

fn entry(pen: &mut Pen, ticks: bool, entry: &Entry) {
    let mark = if ticks { "[ ] " } else { "- " };
    let told = Some(entry.told()).filter(|told| !told.is_empty());
    let mut lines = told.into_iter().chain(entry.below());
    pen.marked(mark, &lines.next().unwrap_or_default());
    lines.for_each(|line| pen.text(SOFT, mark.len(), &line));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::output::page::{Cell, Column, Link, Note, Row, Table};

    fn shown(columns: Vec<Column>, rows: Vec<Row>, width: usize) -> String {
        let table = Block::Table(Table::plain(columns, rows));
        let sections = Section::of("Things", vec![table]).into_iter().collect();
        let page = Page { title: "14 Elm".to_owned(), sections, ..Page::default() };
        anstream::adapter::strip_str(&text(&page, width)).to_string()
    }

    #[test]
    fn numbers_stand_at_the_right_and_a_mark_is_seen_without_colors() {
        let columns = vec![Column::numbers("No."), Column::names("Item"), Column::links("Review")];
        let link = || Cell::from("Review").to(Link::Page("http://127.0.0.1/".to_owned()));
        let flagged = Row {
            notes: vec![Note::flagged("Review: count it.")],
            flagged: true,
            ..Row::of([Cell::from("7"), Cell::from("gutter"), link()])
        };
        let rows = vec![flagged, Row::of([Cell::from("12"), Cell::from("mailbox"), link()])];
        let told = "14 Elm\n\nThings\n  No.  Item\n!   7  gutter\n      Review: count it.\n   12  mailbox\n";
        assert_eq!(shown(columns, rows, 80), told);
    }

    #[test]
    fn what_finds_no_room_in_columns_is_told_in_words() {
        let numbers = ["One", "Two", "Three", "Four", "Five", "Six"].map(Column::numbers);
        let columns = [vec![Column::names("Item")], numbers.to_vec()].concat();
        let cells = ["gutter"].into_iter().chain([&*"1".repeat(12); 6]).map(Cell::from).collect();
        let told = shown(columns, vec![Row { cells, ..Row::default() }], 60);
        assert!(told.contains("- gutter, one 111111111111, two 111111111111"), "{told}");
        assert!(told.lines().all(|line| line.len() <= 60), "{told}");
    }
}
