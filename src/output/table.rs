//! The lines as comma-separated values, as RFC 4180 has them: UTF-8, a header, a line end of two signs.
//!
//! A spreadsheet takes a cell that begins with one of a few signs for a formula, whoever spoke or typed it. Such a text
//! gets an apostrophe before it, and the reader takes that away again. Numbers stay numbers.

use super::job::Job;
use super::rows::{LineRow, rows};
use super::unreadable::Unreadable;
use crate::model::Exact;
use csv::{ReaderBuilder, StringRecord, Terminator, WriterBuilder};

/// The header.
pub const COLUMNS: [&str; 23] = [
    "Number",
    "Structure",
    "Side",
    "Area",
    "Item",
    "Item id",
    "Element",
    "Size",
    "Work",
    "Quantity",
    "Low",
    "High",
    "Unit",
    "Rough",
    "Only if",
    "State",
    "Looks",
    "Note",
    "Quote",
    "Time",
    "Clip",
    "By",
    "Id",
];

/// Signs that make a formula, or end a cell, in one spreadsheet or another; the wide ones in East Asian settings.
const UNSAFE: [char; 11] = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];

/// The lines of a scope as a table.
pub fn bytes(job: &Job) -> Vec<u8> {
    write(&rows(job))
}

/// Rows as a table.
pub fn write(rows: &[LineRow]) -> Vec<u8> {
    let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    let records = rows.iter().map(cells);
    for record in std::iter::once(COLUMNS.map(str::to_owned)).chain(records) {
        // All records are as long as the header, and a Vec takes everything.
        let _ = writer.write_record(record);
    }
    writer.into_inner().unwrap_or_default()
}

/// Reads what [`write()`] wrote; `file` is what the table is called in an error.
///
/// # Errors
/// Another header, a row of another length, a number that is none.
pub fn read(file: &str, bytes: &[u8]) -> Result<Vec<LineRow>, Unreadable> {
    let bytes = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes);
    let mut reader = ReaderBuilder::new().from_reader(bytes);
    let header = reader.headers().map_err(|error| Unreadable::csv(file, 1, &error))?;
    if header != &StringRecord::from(COLUMNS.to_vec()) {
        return Err(Unreadable::row(file, 1, format!("the header has to be {}", COLUMNS.join(","))));
    }
    let row = |(record, n): (csv::Result<StringRecord>, u64)| {
        let record = record.map_err(|error| Unreadable::csv(file, n, &error))?;
        Cells { file, row: n, record: &record }.row()
    };
    reader.records().zip(2..).map(row).collect()
}

fn cells(row: &LineRow) -> [String; COLUMNS.len()] {
    let number =
        |number: Option<Exact>| number.map(|number| number.decimal().to_string()).unwrap_or_default();
    let yes = |yes: bool| if yes { "yes" } else { "no" }.to_owned();
    [
        row.number.to_string(),
        safe(&row.structure),
        safe(&row.side),
        safe(&row.area),
        safe(&row.item),
        safe(&row.item_id),
        safe(&row.element),
        safe(&row.size),
        safe(&row.work),
        number(row.quantity),
        number(row.low),
        number(row.high),
        safe(&row.unit),
        yes(row.rough),
        yes(row.only_if),
        safe(&row.state),
        safe(&row.looks),
        safe(&row.note),
        safe(&row.quote),
        safe(&row.time),
        safe(&row.clip),
        safe(&row.by),
        safe(&row.id),
    ]
}

/// Whether a text, but for apostrophes before it, begins a formula.
fn is_unsafe(text: &str) -> bool {
    text.trim_start_matches('\'').starts_with(UNSAFE)
}

/// A text that no spreadsheet takes for a formula.
pub(super) fn safe(text: &str) -> String {
    if is_unsafe(text) { format!("'{text}") } else { text.to_owned() }
}

/// The text that was made safe.
pub(super) fn plain(text: &str) -> &str {
    text.strip_prefix('\'').filter(|_| is_unsafe(text)).unwrap_or(text)
}

/// A row that is being read.
struct Cells<'a> {
    file: &'a str,
    row: u64,
    record: &'a StringRecord,
}

impl Cells<'_> {
    fn row(&self) -> Result<LineRow, Unreadable> {
        let text = |column| plain(self.cell(column)).to_owned();
        Ok(LineRow {
            number: self.cell(0).parse().map_err(|_| self.no_number(0))?,
            structure: text(1),
            side: text(2),
            area: text(3),
            item: text(4),
            item_id: text(5),
            element: text(6),
            size: text(7),
            work: text(8),
            quantity: self.number(9)?,
            low: self.number(10)?,
            high: self.number(11)?,
            unit: text(12),
            rough: self.cell(13) == "yes",
            only_if: self.cell(14) == "yes",
            state: text(15),
            looks: text(16),
            note: text(17),
            quote: text(18),
            time: text(19),
            clip: text(20),
            by: text(21),
            id: text(22),
        })
    }

    fn cell(&self, column: usize) -> &str {
        self.record.get(column).unwrap_or_default()
    }

    fn number(&self, column: usize) -> Result<Option<Exact>, Unreadable> {
        match self.cell(column) {
            "" => Ok(None),
            text => text
                .parse()
                .ok()
                .filter(|number: &f64| number.is_finite())
                .map(|number| Some(Exact::of_decimal(number)))
                .ok_or_else(|| self.no_number(column)),
        }
    }

    fn no_number(&self, column: usize) -> Unreadable {
        let what = format!("“{}” is no number: type it in digits", self.cell(column));
        Unreadable::cell(self.file, self.row, COLUMNS[column], what)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_begins_a_formula_gets_an_apostrophe_and_loses_it_again() {
        let texts = [
            ("=1+1", "'=1+1"),
            ("-2 ft", "'-2 ft"),
            ("'=1", "''=1"),
            ("'tis", "'tis"),
            ("ten", "ten"),
            ("", ""),
        ];
        for (text, written) in texts {
            assert_eq!(safe(text), written);
            assert_eq!(plain(written), text);
        }
    }
}
