//! A sheet before it is written: a header and rows of cells. All sheets are written alike.

use crate::model::Exact;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder, Formula, Worksheet, XlsxError};
use textwrap::wrap;

/// The longest text that a cell holds, in letters.
const LONGEST: usize = 32_767;

/// As much of the title as a sheet's footer holds beside the rest.
const TITLE: usize = 100;

/// How high a line of words is, in points.
const LINE: f64 = 15.0;

/// The most lines that a row is made high for: no row may be higher than 409 points.
const MOST_LINES: usize = 27;

/// A sheet.
pub(super) struct Grid {
    /// Its name.
    pub name: &'static str,
    /// The headings with the widths of their columns, in letters.
    pub columns: Vec<(&'static str, f64)>,
    /// The rows under the header.
    pub rows: Vec<Vec<Cell>>,
}

/// A cell.
#[derive(Debug, Clone)]
pub(super) enum Cell {
    /// Nothing.
    Empty,
    /// Words. They are never taken for a formula, whatever they begin with.
    Text(String),
    /// How many.
    Count(usize),
    /// How much.
    Number(f64),
    /// How much, computed by the sheet, and what it comes to.
    Computed(String, Exact),
    /// An amount of money or a price.
    Money(Decimal),
    /// Money, computed by the sheet, and what it comes to.
    ComputedMoney(String, Decimal),
}

impl Cell {
    /// Words.
    pub fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    /// An exact value.
    pub fn exact(value: Exact) -> Self {
        Self::Number(value.binary())
    }
}

impl From<Option<f64>> for Cell {
    fn from(number: Option<f64>) -> Self {
        number.map_or(Self::Empty, Self::Number)
    }
}

/// A column by its letters: `A`, `Z`, `AA`.
pub(super) fn letters(column: usize) -> String {
    const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    let last = &LETTERS[column % LETTERS.len()..][..1];
    match column / LETTERS.len() {
        0 => last.to_owned(),
        before => format!("{}{last}", letters(before - 1)),
    }
}

/// How cells look.
struct Looks {
    head: Format,
    text: Format,
    count: Format,
    number: Format,
    money: Format,
}

impl Looks {
    fn new() -> Self {
        let top = || Format::new().set_align(FormatAlign::Top);
        Self {
            head: top()
                .set_bold()
                .set_text_wrap()
                .set_background_color(Color::RGB(0x00E8_ECEF))
                .set_border_bottom(FormatBorder::Thin),
            text: top().set_text_wrap(),
            count: top().set_num_format("0"),
            number: top().set_num_format("#,##0.00"),
            money: top().set_num_format("#,##0.00##"),
        }
    }
}

impl Grid {
    /// Writes it onto a sheet; `title` goes to the foot of every printed page.
    pub fn write(&self, sheet: &mut Worksheet, title: &str) -> Result<(), XlsxError> {
        let looks = Looks::new();
        sheet.set_name(self.name)?;
        for (column, (heading, width)) in (0..).zip(&self.columns) {
            sheet.set_column_width(column, *width)?;
            sheet.write_string_with_format(0, column, *heading, &looks.head)?;
        }
        for (row, cells) in (1..).zip(&self.rows) {
            for (column, cell) in (0..).zip(cells) {
                put(sheet, row, column, cell, &looks)?;
            }
            // Not every program makes a row as high as its words when it opens the file.
            let lines = self.lines(cells);
            if lines > 1 {
                sheet.set_row_height(row, LINE * lines as f64)?;
            }
        }
        self.set_up(sheet, title)
    }

    /// How many lines the longest words of a row take in their columns.
    fn lines(&self, cells: &[Cell]) -> usize {
        let widths = self.columns.iter().map(|(_, width)| *width as usize);
        let texts = widths.zip(cells).filter_map(|(width, cell)| match cell {
            Cell::Text(text) => Some(wrap(text, width.max(2) - 1).len()),
            _ => None,
        });
        texts.max().unwrap_or(1).min(MOST_LINES)
    }

    /// What makes it easy to scroll, to filter and to print.
    fn set_up(&self, sheet: &mut Worksheet, title: &str) -> Result<(), XlsxError> {
        let (last_row, last_column) = (self.rows.len() as u32, self.columns.len() as u16 - 1);
        sheet.set_freeze_panes(1, 0)?;
        sheet.autofilter(0, 0, last_row, last_column)?;
        sheet.set_landscape().set_print_fit_to_pages(1, 0).set_repeat_rows(0, 0)?;
        // A lone & begins a code of the footer.
        let title = title.chars().take(TITLE).collect::<String>().replace('&', "&&");
        sheet.set_footer(format!("&L{title}&C&A&R&P of &N"));
        Ok(())
    }
}

fn put(sheet: &mut Worksheet, row: u32, column: u16, cell: &Cell, looks: &Looks) -> Result<(), XlsxError> {
    let computed = |text: &str, value: String| Formula::new(format!("={text}")).set_result(value);
    let decimal = |money: &Decimal| money.to_f64().unwrap_or_default();
    match cell {
        Cell::Empty => sheet.write_blank(row, column, &looks.text)?,
        Cell::Text(text) if text.is_empty() => sheet.write_blank(row, column, &looks.text)?,
        Cell::Text(text) => {
            let text: String = text.chars().take(LONGEST).collect();
            sheet.write_string_with_format(row, column, text, &looks.text)?
        }
        Cell::Count(count) => sheet.write_number_with_format(row, column, *count as f64, &looks.count)?,
        Cell::Number(number) => sheet.write_number_with_format(row, column, *number, &looks.number)?,
        Cell::Computed(text, value) => {
            let formula = computed(text, value.binary().to_string());
            sheet.write_formula_with_format(row, column, formula, &looks.number)?
        }
        Cell::Money(money) => sheet.write_number_with_format(row, column, decimal(money), &looks.money)?,
        Cell::ComputedMoney(text, money) => {
            let formula = computed(text, money.to_string());
            sheet.write_formula_with_format(row, column, formula, &looks.money)?
        }
    };
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_go_on_after_z() {
        assert_eq!([0, 25, 26, 27, 51, 52].map(letters), ["A", "Z", "AA", "AB", "AZ", "BA"]);
    }
}
