//! Tables: columns as wide as what stands in them asks for, a head on every sheet, rows kept whole where a sheet can hold
//! them.

use super::letters::{Cut, Letters};
use super::sheets::{Ink, Mark, SIDE, Set, Sheets, WIDTH};
use super::tree::{Part, Role};
use crate::output::page::fit::{Want, fit};
use crate::output::page::{self, Cell, Group, Holds, Row, Table};

const TEXT: Set = Set { cut: Cut::Regular, size: 8.0, ink: Ink::Black };
const HEAD: Set = Set { cut: Cut::Bold, size: 7.5, ink: Ink::Soft };
const NOTE: Set = Set { cut: Cut::Italic, size: 8.0, ink: Ink::Soft };
const GROUP: Set = Set { cut: Cut::Bold, size: 9.5, ink: Ink::Black };
/// Between the columns.
const GAP: f32 = 6.0;
/// Above and below the text of a row.
const PAD: f32 = 2.5;

/// How thick a rule is.
const RULE: f32 = 0.6;

/// A column as it stands on the paper.
struct Column {
    x: f32,
    width: f32,
    holds: Holds,
}

/// Draws a table.
pub(super) fn table(sheets: &mut Sheets, table: &Table) {
    let table = &table.without_links();
    let columns = columns(&sheets.letters, table);
    let whole = sheets.tree.part(Role::Table);
    sheets.need(6.0 * TEXT.leading());
    head(sheets, table, &columns, Some(whole));
    let body = sheets.tree.part_of(whole, Role::Body);
    let mut drawing = Drawing { sheets, table, columns, body };
    for one in &table.groups {
        drawing.group(one);
    }
}

fn columns(letters: &Letters, table: &Table) -> Vec<Column> {
    let wants: Vec<Want> =
        table.columns.iter().enumerate().map(|(n, column)| want(letters, table, n, column)).collect();
    let room = WIDTH - GAP * (wants.len() as f32 - 1.0);
    // Where no words fit they are broken.
    let mut widths = fit(&wants, room).unwrap_or_else(|| wants.iter().map(|want| want.least).collect());
    spread(&mut widths, table, room);
    let mut x = SIDE;
    let mut columns = Vec::new();
    for (column, width) in table.columns.iter().zip(widths) {
        columns.push(Column { x, width, holds: column.holds });
        x += width + GAP;
    }
    columns
}

/// Spreads columns over so much room. Numbers stay close to what they count, unless there is nothing else.
fn spread(widths: &mut [f32], table: &Table, room: f32) {
    let grows = |column: &page::Column| column.holds != Holds::Numbers;
    let all = !table.columns.iter().any(grows);
    let wide: f32 = widths.iter().sum();
    let growing = || table.columns.iter().map(|column| all || grows(column));
    let grown: f32 = widths.iter().zip(growing()).filter(|(_, grows)| *grows).map(|(width, _)| width).sum();
    let scale = (grown + room - wide) / grown.max(1.0);
    widths.iter_mut().zip(growing()).filter(|(_, grows)| *grows).for_each(|(width, _)| *width *= scale);
}

/// How wide a column would be and how narrow it may get.
fn want(letters: &Letters, table: &Table, n: usize, column: &page::Column) -> Want {
    /// Words are broken rather than that a column of them is wider than this.
    const WIDEST_WORD: f32 = 60.0;
    let cells = table.rows().filter_map(|row| row.cells.get(n)).map(Cell::told);
    let wide = |text: &str| letters.width(text, TEXT.cut, TEXT.size) + 0.5;
    let longest = |text: &str| text.split_whitespace().map(wide).fold(0.0, f32::max);
    let head = |text: &str| letters.width(text, HEAD.cut, HEAD.size) + 0.5;
    let mut least = column.heading.split_whitespace().map(head).fold(0.0, f32::max);
    let mut widest = 0f32;
    for text in cells {
        widest = widest.max(wide(&text));
        least = least.max(longest(&text).min(WIDEST_WORD));
    }
    if column.holds == Holds::Numbers {
        least = widest.min(2.0 * WIDEST_WORD).max(least);
    }
    Want { whole: widest.max(head(column.heading)), least }
}

/// The head of a table. On the sheets after the first it is there for the eye alone.
fn head(sheets: &mut Sheets, table: &Table, columns: &[Column], whole: Option<Part>) {
    let row = whole.map(|whole| {
        let head = sheets.tree.part_of(whole, Role::Head);
        sheets.tree.part_of(head, Role::Row)
    });
    let (top, mut height) = (sheets.y, 0f32);
    for (column, heading) in columns.iter().zip(&table.columns) {
        let part = row.map(|row| sheets.tree.part_of(row, Role::ColumnHead));
        let lines = sheets.letters.lines(heading.heading, HEAD.cut, HEAD.size, column.width);
        height = height.max(lines.len() as f32 * HEAD.leading());
        cell(sheets, part, &lines, HEAD, column, top);
    }
    sheets.y = top + height + PAD;
    rule(sheets, Ink::Black);
    sheets.y += PAD;
}

/// Draws the lines of a cell from its upper edge on.
fn cell(sheets: &mut Sheets, part: Option<Part>, lines: &[String], set: Set, column: &Column, top: f32) {
    for (n, line) in lines.iter().enumerate() {
        let indent = match column.holds {
            Holds::Numbers => column.width - sheets.letters.width(line, set.cut, set.size),
            _ => 0.0,
        };
        sheets.line(part, line.clone(), set, column.x + indent, top + n as f32 * set.leading());
    }
}

fn rule(sheets: &mut Sheets, ink: Ink) {
    let at = [SIDE, sheets.y, WIDTH, RULE];
    sheets.draw(None, Mark::Fill { at, ink });
}

struct Drawing<'a> {
    sheets: &'a mut Sheets,
    table: &'a Table,
    columns: Vec<Column>,
    body: Part,
}

impl Drawing<'_> {
    fn turn(&mut self) {
        self.sheets.turn();
        head(self.sheets, self.table, &self.columns, None);
    }

    fn over_all(&self) -> u32 {
        u32::try_from(self.columns.len()).unwrap_or(1)
    }

    fn group(&mut self, group: &Group) {
        if let Some(heading) = &group.heading {
            if self.sheets.room() < GROUP.leading() + 4.0 * TEXT.leading() {
                self.turn();
            }
            self.sheets.y += 4.0;
            let row = self.sheets.tree.part_of(self.body, Role::Row);
            let part = self.sheets.tree.part_of(row, Role::Cell(self.over_all()));
            self.sheets.bookmark(2, heading);
            self.sheets.write(Some(part), heading, GROUP, SIDE, WIDTH);
            self.sheets.y += PAD;
        }
        for row in &group.rows {
            self.row(row);
        }
    }

    fn row(&mut self, row: &Row) {
        let cells: Vec<Vec<String>> = row
            .cells
            .iter()
            .zip(&self.columns)
            .map(|(one, column)| self.sheets.letters.lines(&one.told(), TEXT.cut, TEXT.size, column.width))
            .collect();
        let notes: Vec<String> = row
            .notes
            .iter()
            .flat_map(|note| self.sheets.letters.lines(&note.text, NOTE.cut, NOTE.size, WIDTH - 2.0 * GAP))
            .collect();
        let lines = cells.iter().map(Vec::len).max().unwrap_or(0);
        let height = lines as f32 * TEXT.leading() + notes.len() as f32 * NOTE.leading() + 2.0 * PAD;
        if self.sheets.room() < height {
            self.turn();
        }
        let tagged = self.sheets.tree.part_of(self.body, Role::Row);
        if row.flagged {
            // Below the rule of the row before, which is seen so between two of them.
            let high = height.min(self.sheets.room()) - RULE;
            let at = [SIDE - 3.0, self.sheets.y + RULE, WIDTH + 6.0, high];
            self.sheets.draw(None, Mark::Fill { at, ink: Ink::Flag });
        }
        self.sheets.y += PAD;
        self.cells(tagged, &cells, lines);
        self.notes(&notes);
        self.sheets.y += PAD;
        rule(self.sheets, Ink::Rule);
    }

    /// The cells side by side, as many lines at a time as the sheet holds.
    fn cells(&mut self, row: Part, cells: &[Vec<String>], lines: usize) {
        let role = |column: &Column| if column.holds == Holds::Names { Role::RowHead } else { Role::Cell(1) };
        let parts: Vec<Part> =
            self.columns.iter().map(|column| self.sheets.tree.part_of(row, role(column))).collect();
        let mut done = 0;
        while done < lines {
            let fits = ((self.sheets.room() / TEXT.leading()) as usize).max(1).min(lines - done);
            let top = self.sheets.y;
            for ((lines, column), part) in cells.iter().zip(&self.columns).zip(&parts) {
                let now = lines.get(done..lines.len().min(done + fits)).unwrap_or_default();
                cell(self.sheets, Some(*part), now, TEXT, column, top);
            }
            self.sheets.y = top + fits as f32 * TEXT.leading();
            done += fits;
            if done < lines {
                self.turn();
            }
        }
    }

    fn notes(&mut self, notes: &[String]) {
        if notes.is_empty() {
            return;
        }
        let row = self.sheets.tree.part_of(self.body, Role::Row);
        let part = self.sheets.tree.part_of(row, Role::Cell(self.over_all()));
        for note in notes {
            if self.sheets.room() < NOTE.leading() {
                self.turn();
            }
            self.sheets.line(Some(part), note.clone(), NOTE, SIDE + 2.0 * GAP, self.sheets.y);
            self.sheets.y += NOTE.leading();
        }
    }
}
