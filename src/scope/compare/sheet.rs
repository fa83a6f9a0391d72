//! Bytes to rows: text with any of the usual separators in any of the usual encodings, or a spreadsheet.

use super::error::ListError;
use calamine::{Data, Reader, Sheets, open_workbook_auto_from_rs};
use encoding_rs::{Encoding, WINDOWS_1252};
use std::io::Cursor;

/// A table as its file holds it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Table {
    /// The sheet's name; none for text.
    pub sheet: Option<String>,
    /// The rows that hold something.
    pub rows: Vec<Row>,
    /// What a person should know about the reading.
    pub notices: Vec<String>,
}

/// A row that holds something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Row {
    /// Its number in the file, from 1.
    pub number: usize,
    /// Its cells, trimmed, white space in them as single blanks.
    pub cells: Vec<String>,
}

/// The largest file that is looked into.
const LARGEST: usize = 64 << 20;

/// The most rows.
const MOST_ROWS: usize = 20_000;

/// The most letters of a cell that are kept.
const LONGEST_CELL: usize = 2_000;

/// What parts cells in text, the likeliest first.
const SEPARATORS: [u8; 4] = [b',', b';', b'\t', b'|'];

/// The tables in a file: the sheets of a spreadsheet, or of a text what each separator makes of it.
pub(super) fn tables(bytes: &[u8], file: &str) -> Result<Tables, ListError> {
    if bytes.len() > LARGEST {
        return Err(ListError::TooLarge { file: file.to_owned(), what: "megabytes", most: LARGEST >> 20 });
    }
    if bytes.iter().all(|byte| byte.is_ascii_whitespace()) {
        return Err(ListError::Empty(file.to_owned()));
    }
    if bytes.starts_with(b"PK\x03\x04") || bytes.starts_with(b"\xd0\xcf\x11\xe0") {
        return Ok(Tables::Sheets(sheets(bytes, file)?));
    }
    let (text, notice) = text(bytes).ok_or_else(|| ListError::NoTable(file.to_owned()))?;
    let text = text.replace("\r\n", "\n").replace('\r', "\n");
    let separated = SEPARATORS.iter().map(|separator| separated(&text, *separator, file));
    let mut tables = separated.collect::<Result<Vec<Table>, ListError>>()?;
    tables.iter_mut().for_each(|table| table.notices.extend(notice.clone()));
    // A text of nothing but one separator.
    if tables.iter().any(|table| table.rows.is_empty()) {
        return Err(ListError::Empty(file.to_owned()));
    }
    Ok(Tables::Readings(tables))
}

/// What a file holds.
pub(super) enum Tables {
    /// Each is a table of its own.
    Sheets(Vec<Table>),
    /// Each is the same text, parted by another mark.
    Readings(Vec<Table>),
}

/// The text, and what there is to tell of its encoding; none where it is no text.
fn text(bytes: &[u8]) -> Option<(String, Option<String>)> {
    if let Some((encoding, _)) = Encoding::for_bom(bytes) {
        let (text, _, wrong) = encoding.decode(bytes);
        return (!wrong && is_text(&text)).then(|| (text.into_owned(), None));
    }
    if let Ok(text) = std::str::from_utf8(bytes) {
        return is_text(text).then(|| (text.to_owned(), None));
    }
    let (text, _, _) = WINDOWS_1252.decode(bytes);
    let told = "it isn't UTF-8 text and was read as Windows-1252: check accents and signs".to_owned();
    is_text(&text).then(|| (text.into_owned(), Some(told)))
}

/// Text has no control characters but those that part lines, pages and cells.
fn is_text(text: &str) -> bool {
    !text.chars().any(|c| c.is_control() && !matches!(c, '\n' | '\r' | '\t' | '\u{c}'))
}

fn separated(text: &str, separator: u8, file: &str) -> Result<Table, ListError> {
    let mut lines = Lines { text, at: 0, line: 1 };
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| {
            let row = error.position().map_or(1, |at| lines.of(at.byte() as usize));
            ListError::Row { file: file.to_owned(), row, why: format!("{error}: save the list as CSV again") }
        })?;
        let number = record.position().map_or(1, |at| lines.of(at.byte() as usize));
        keep(&mut rows, number, record.iter().map(cell).collect(), file)?;
    }
    Ok(Table { sheet: None, rows, notices: Vec::new() })
}

/// Counts lines as a text editor does: where a row begins, blank lines before it are behind.
struct Lines<'a> {
    text: &'a str,
    at: usize,
    line: usize,
}

impl Lines<'_> {
    /// The line of what begins at a byte or behind the blank lines there; bytes are asked for in order.
    fn of(&mut self, byte: usize) -> usize {
        let bytes = self.text.as_bytes();
        let blank = bytes[byte.min(bytes.len())..].iter().take_while(|b| **b == b'\n').count();
        let begins = (byte + blank).min(bytes.len());
        self.line += bytes[self.at..begins].iter().filter(|b| **b == b'\n').count();
        self.at = begins;
        self.line
    }
}

fn keep(rows: &mut Vec<Row>, number: usize, cells: Vec<String>, file: &str) -> Result<(), ListError> {
    if cells.iter().any(|cell| !cell.is_empty()) {
        rows.push(Row { number, cells });
    }
    if rows.len() > MOST_ROWS {
        return Err(ListError::TooLarge { file: file.to_owned(), what: "rows", most: MOST_ROWS });
    }
    Ok(())
}

/// A cell's text in one line.
fn cell(text: &str) -> String {
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    line.chars().filter(|c| !c.is_control()).take(LONGEST_CELL).collect()
}

fn sheets(bytes: &[u8], file: &str) -> Result<Vec<Table>, ListError> {
    let broken = |why: String| ListError::Broken { file: file.to_owned(), why };
    let mut book: Sheets<_> =
        open_workbook_auto_from_rs(Cursor::new(bytes)).map_err(|error| broken(error.to_string()))?;
    let mut tables = Vec::new();
    for name in book.sheet_names() {
        let range = book.worksheet_range(&name).map_err(|error| broken(error.to_string()))?;
        let first = range.start().map_or(0, |(row, _)| row as usize);
        // A sheet may begin at any column; its letters are told as the spreadsheet shows them.
        let before = range.start().map_or(0, |(_, column)| column as usize);
        let mut rows = Vec::new();
        for (at, cells) in range.rows().enumerate() {
            let empty = std::iter::repeat_n(String::new(), before);
            let cells = empty.chain(cells.iter().map(value)).collect();
            keep(&mut rows, first + at + 1, cells, file)?;
        }
        tables.push(Table { sheet: Some(name), rows, notices: Vec::new() });
    }
    if tables.iter().all(|table| table.rows.is_empty()) {
        return Err(ListError::Empty(file.to_owned()));
    }
    Ok(tables)
}

fn value(data: &Data) -> String {
    match data {
        Data::Float(number) if number.abs() < 1e15 => format!("{}", (number * 1e6).round() / 1e6),
        Data::Error(_) => String::new(),
        other => cell(&other.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(bytes: &[u8]) -> Table {
        match tables(bytes, "list.csv").unwrap() {
            Tables::Readings(readings) => readings.into_iter().next().unwrap(),
            Tables::Sheets(_) => panic!("this is text"),
        }
    }

    #[test]
    fn rows_keep_the_numbers_they_have_in_the_file() {
        let table = read(b"a,b\r\n\r\n,\r\n\"c\nd\",e\r\nf\r\n");
        let rows: Vec<_> = table.rows.iter().map(|row| (row.number, row.cells.join("|"))).collect();
        assert_eq!(rows, [(1, "a|b".to_owned()), (4, "c d|e".to_owned()), (6, "f".to_owned())]);
    }

    #[test]
    fn text_is_read_in_its_encoding_and_a_doubtful_one_is_told() {
        assert_eq!(read(b"\xef\xbb\xbfa,ft\xc2\xb2").rows[0].cells, ["a", "ft²"]);
        assert_eq!(read(b"\xff\xfea\0,\0b\0").rows[0].cells, ["a", "b"]);
        let old = read(b"a,ft\xb2 \x96 6\x94");
        assert_eq!(old.rows[0].cells, ["a", "ft² – 6”"]);
        assert!(old.notices[0].contains("Windows-1252"));
    }

    #[test]
    fn what_is_no_table_is_told_by_name() {
        let told = |bytes: &[u8]| tables(bytes, "x").map(|_| ()).unwrap_err();
        assert_eq!(told(b" \r\n"), ListError::Empty("x".into()));
        assert_eq!(told(b"\x00\x01\x02\xff"), ListError::NoTable("x".into()));
        assert!(matches!(told(b"PK\x03\x04broken"), ListError::Broken { .. }));
    }
}
