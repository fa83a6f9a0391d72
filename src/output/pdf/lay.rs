//! Laying a paper out on sheets: its head, its sections, its end.

use super::letters::Cut;
use super::pictures;
use super::sheets::{Ink, Mark, SIDE, Set, Sheets, WIDTH};
use super::table;
use super::tree::{Part, Role};
use crate::output::page::{Block, Drawing, Entry, Page, Section};

const KIND: Set = Set { cut: Cut::Bold, size: 10.0, ink: Ink::Soft };
const TITLE: Set = Set { cut: Cut::Bold, size: 20.0, ink: Ink::Black };
const HEADING: Set = Set { cut: Cut::Bold, size: 13.0, ink: Ink::Black };
const TEXT: Set = Set { cut: Cut::Regular, size: 9.0, ink: Ink::Black };
const STRONG: Set = Set { cut: Cut::Bold, size: 9.0, ink: Ink::Black };
const SOFT: Set = Set { cut: Cut::Regular, size: 8.0, ink: Ink::Soft };

/// Lays out the whole paper.
pub(super) fn page(sheets: &mut Sheets, page: &Page) {
    masthead(sheets, page);
    for section in &page.sections {
        section_of(sheets, section);
    }
    sheets.space(16.0);
    sheets.need(page.closing.len() as f32 * 2.0 * SOFT.leading());
    page.closing.iter().for_each(|line| paragraph(sheets, line, SOFT));
}

fn masthead(sheets: &mut Sheets, page: &Page) {
    paragraph(sheets, &page.kind, KIND);
    let part = sheets.tree.part(Role::Heading(1, page.title.clone()));
    sheets.bookmark(1, &page.title);
    sheets.write(Some(part), &page.title, TITLE, SIDE, WIDTH);
    sheets.y += 2.0;
    blanks(sheets, &page.blanks);
    if !page.summary.is_empty() {
        paragraph(sheets, &page.summary.join(" "), TEXT);
    }
    notices(sheets, &page.notices);
}

/// What is filled in by hand, two side by side, each with a line to write on.
fn blanks(sheets: &mut Sheets, blanks: &[&str]) {
    /// Room for a hand's writing above a line.
    const HIGH: f32 = 14.0;
    const BETWEEN: f32 = 24.0;
    const WIDE: f32 = (WIDTH - BETWEEN) / 2.0;
    for pair in blanks.chunks(2) {
        sheets.y += HIGH;
        for (n, blank) in pair.iter().enumerate() {
            let left = SIDE + n as f32 * (WIDE + BETWEEN);
            let (part, text) = (sheets.tree.part(Role::Paragraph), format!("{blank}:"));
            let from = sheets.letters.width(&text, TEXT.cut, TEXT.size) + 5.0;
            sheets.line(Some(part), text, TEXT, left, sheets.y);
            let at = [left + from, sheets.y + TEXT.leading(), WIDE - from, 0.6];
            sheets.draw(None, Mark::Fill { at, ink: Ink::Soft });
        }
        sheets.y += TEXT.leading();
    }
    if !blanks.is_empty() {
        sheets.y += HIGH;
    }
}

/// What the reader has to know first, in a band of its own.
fn notices(sheets: &mut Sheets, notices: &[String]) {
    const INDENT: f32 = 8.0;
    const PAD: f32 = 5.0;
    if notices.is_empty() {
        return;
    }
    sheets.y += 8.0;
    let wide = WIDTH - 2.0 * INDENT;
    let lines = |text: &String| sheets.letters.lines(text, STRONG.cut, STRONG.size, wide).len();
    let lines: usize = notices.iter().map(lines).sum();
    let height = (lines as f32 * STRONG.leading() + 2.0 * PAD).min(sheets.room());
    sheets.draw(None, Mark::Fill { at: [SIDE, sheets.y, WIDTH, height], ink: Ink::Flag });
    sheets.y += PAD;
    for text in notices {
        let part = sheets.tree.part(Role::Paragraph);
        sheets.write(Some(part), text, STRONG, SIDE + INDENT, wide);
    }
    sheets.y += PAD;
}

fn paragraph(sheets: &mut Sheets, text: &str, set: Set) {
    let part = sheets.tree.part(Role::Paragraph);
    sheets.write(Some(part), text, set, SIDE, WIDTH);
}

fn section_of(sheets: &mut Sheets, section: &Section) {
    sheets.space(18.0);
    sheets.need(HEADING.leading() + beginning(section));
    let part = sheets.tree.part(Role::Heading(2, section.heading.clone()));
    sheets.bookmark(1, &section.heading);
    if section.framed {
        let at = [SIDE, sheets.y, WIDTH, HEADING.leading() + 2.0];
        sheets.draw(None, Mark::Fill { at, ink: Ink::Frame });
    }
    sheets.write(Some(part), &section.heading, HEADING, SIDE, WIDTH);
    sheets.draw(None, Mark::Fill { at: [SIDE, sheets.y, WIDTH, 1.2], ink: Ink::Black });
    sheets.y += 6.0;
    for block in &section.blocks {
        match block {
            Block::Text(text) => {
                paragraph(sheets, text, TEXT);
                sheets.y += 5.0;
            }
            Block::Table(one) => {
                table::table(sheets, one);
                sheets.y += 8.0;
            }
            Block::List { ticks, entries } => list(sheets, *ticks, entries),
            Block::Drawing(one) => drawing(sheets, one),
            Block::Pictures(some) => pictures::pictures(sheets, some),
        }
    }
}

/// How much room a section's heading wants below it, so that it never stands alone at the foot of a sheet.
fn beginning(section: &Section) -> f32 {
    let drawing = section.blocks.iter().find_map(|block| match block {
        Block::Drawing(drawing) => Some(drawing.height),
        _ => None,
    });
    3.0 * TEXT.leading() + drawing.unwrap_or(5.0 * TEXT.leading())
}

/// The side of a box to tick.
const TICK: f32 = 7.5;

fn list(sheets: &mut Sheets, ticks: bool, entries: &[Entry]) {
    let list = sheets.tree.part(Role::List);
    let indent = if ticks { 14.0 } else { 0.0 };
    for entry in entries {
        sheets.need(3.0 * TEXT.leading());
        if ticks {
            let at = [SIDE, sheets.y + 2.0, TICK, TICK];
            sheets.draw(None, Mark::Frame { at });
        }
        let one = sheets.tree.part_of(list, Role::ListEntry);
        let body = sheets.tree.part_of(one, Role::EntryBody);
        named(sheets, body, entry, indent);
        for text in entry.below() {
            let part = sheets.tree.part_of(body, Role::Paragraph);
            sheets.write(Some(part), &text, SOFT, SIDE + indent, WIDTH - indent);
        }
        sheets.y += 4.0;
    }
}

/// The name of an entry and its text: on one line where both fit, else one below the other.
fn named(sheets: &mut Sheets, body: Part, entry: &Entry, indent: f32) {
    const BETWEEN: f32 = 5.0;
    let part = |sheets: &mut Sheets| Some(sheets.tree.part_of(body, Role::Paragraph));
    let wide = |text: &str, set: Set| sheets.letters.width(text, set.cut, set.size);
    let name = wide(&entry.name, STRONG) + BETWEEN;
    if !entry.name.is_empty() && name + wide(&entry.text, TEXT) < WIDTH - indent {
        let (strong, text) = (part(sheets), part(sheets));
        let y = sheets.y;
        sheets.line(strong, sheets.letters.drawable(&entry.name, STRONG.cut), STRONG, SIDE + indent, y);
        sheets.line(text, sheets.letters.drawable(&entry.text, TEXT.cut), TEXT, SIDE + indent + name, y);
        sheets.y += STRONG.leading();
        return;
    }
    for (text, set) in
        [(&entry.name, STRONG), (&entry.text, TEXT)].into_iter().filter(|(text, _)| !text.is_empty())
    {
        let part = part(sheets);
        sheets.write(part, text, set, SIDE + indent, WIDTH - indent);
    }
}

fn drawing(sheets: &mut Sheets, drawing: &Drawing) {
    sheets.need(drawing.height);
    let part = Some(sheets.tree.part(Role::Figure(drawing.told.clone())));
    let (left, top) = (SIDE + (WIDTH - drawing.width) / 2.0, sheets.y);
    for [x, y, width, height] in &drawing.boxes {
        sheets.draw(part, Mark::Frame { at: [left + x, top + y, *width, *height] });
    }
    for label in &drawing.words {
        let set = if label.strong { STRONG } else { SOFT };
        let text = sheets.letters.drawable(&label.text, set.cut);
        let half = sheets.letters.width(&text, set.cut, set.size) / 2.0;
        sheets.line(part, text, set, left + label.x - half, top + label.y - set.size);
    }
    sheets.y = top + drawing.height;
}
