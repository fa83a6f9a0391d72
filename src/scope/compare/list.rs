//! Their list: the one table of a file that is a list, its columns told, its lines understood.

use super::below;
use super::columns::Columns;
use super::columns_file::ColumnsFile;
use super::error::ListError;
use super::model::PassedOver;
use super::rows;
use super::sheet::{Table, Tables, tables};
use super::their::{Their, their};
use super::words::{self, by_count};
use crate::language::rules::Grammar;
use crate::model::Side;

/// Another party's list.
#[derive(Debug, Clone)]
pub struct List {
    pub(super) file: String,
    pub(super) sheet: Option<String>,
    pub(super) columns: Columns,
    pub(super) lines: Vec<Their>,
    pub(super) passed_over: Vec<PassedOver>,
    pub(super) notices: Vec<String>,
}

/// How a list is to be read, where that is told.
#[derive(Debug, Clone, Default)]
pub struct Reading<'a> {
    /// The sheet; none where the file has one list.
    pub sheet: Option<&'a str>,
    /// The columns; none where their headings tell.
    pub columns: Option<&'a ColumnsFile>,
    /// The side of the house that faces north; none where nobody told.
    pub north: Option<Side>,
}

/// A table and its columns.
type Laid = (Table, Columns);

impl List {
    /// Reads a list from a file's bytes; `file` is what the user calls it.
    ///
    /// # Errors
    /// What is wrong, where, and what to do.
    pub fn new(bytes: &[u8], file: &str, reading: &Reading, grammar: &Grammar) -> Result<Self, ListError> {
        let (table, columns) = match (tables(bytes, file)?, reading.sheet) {
            (Tables::Sheets(sheets), Some(name)) => named(sheets, name, file, reading, grammar)?,
            (Tables::Sheets(sheets), None) => only(sheets, file, reading, grammar)?,
            (Tables::Readings(_), Some(name)) => return Err(no_sheet(&[], name, file)),
            (Tables::Readings(readings), None) => likeliest(readings, file, reading, grammar)?,
        };
        let (mut listed, passed_over) = rows::lines(&table, &columns, grammar);
        let mut notices = table.notices;
        notices.extend(below::fill(&mut listed));
        let lines: Vec<Their> = listed.iter().map(|listed| their(listed, reading.north, grammar)).collect();
        notices.extend(by_compass(&lines));
        if lines.is_empty() {
            notices.push("no row of the list is a line of work: check its columns".to_owned());
        }
        let name = file.rsplit(['/', '\\']).next().unwrap_or(file).to_owned();
        Ok(Self { file: name, sheet: table.sheet, columns, lines, passed_over, notices })
    }

    /// How its columns were read, as a file that can be adjusted and given again.
    pub fn columns_file(&self) -> String {
        self.columns.written()
    }
}

/// What there is to tell of lines whose sides are named by the compass; none where there are none.
fn by_compass(lines: &[Their]) -> Option<String> {
    let those: Vec<usize> =
        lines.iter().filter(|their| their.by_compass).map(|their| their.line.row).collect();
    (!those.is_empty()).then(|| {
        let verb = by_count(those.len(), "names its side", "name their sides");
        format!(
            "{} {verb} by the compass, which is no side until it is told which side of the house faces north: with --north, \
             such as --north front",
            words::rows(&those)
        )
    })
}

/// The columns of a table; none where nothing tells them.
fn laid(table: Table, file: &str, reading: &Reading, grammar: &Grammar) -> Option<Result<Laid, ListError>> {
    let columns = match reading.columns {
        Some(columns) => Some(columns.of(&table)),
        None => Columns::found(&table, &grammar.lists, file),
    };
    columns.map(|columns| columns.map(|columns| (table, columns)))
}

fn named(
    sheets: Vec<Table>,
    name: &str,
    file: &str,
    reading: &Reading,
    grammar: &Grammar,
) -> Result<Laid, ListError> {
    let is =
        |table: &Table| table.sheet.as_deref().is_some_and(|sheet| sheet.eq_ignore_ascii_case(name.trim()));
    match sheets.iter().position(is) {
        Some(at) => only(vec![sheets[at].clone()], file, reading, grammar),
        None => Err(no_sheet(&sheets, name, file)),
    }
}

fn no_sheet(sheets: &[Table], name: &str, file: &str) -> ListError {
    let there: Vec<&str> = sheets.iter().filter_map(|table| table.sheet.as_deref()).collect();
    ListError::NoSheet {
        file: file.to_owned(),
        sheet: name.to_owned(),
        there: if there.is_empty() { "none: the file is text".to_owned() } else { there.join(", ") },
    }
}

/// The one sheet that is a list.
fn only(sheets: Vec<Table>, file: &str, reading: &Reading, grammar: &Grammar) -> Result<Laid, ListError> {
    let (mut lists, mut faults) = (Vec::new(), Vec::new());
    for table in sheets.into_iter().filter(|table| !table.rows.is_empty()) {
        match laid(table, file, reading, grammar) {
            Some(Ok(laid)) => lists.push(laid),
            Some(Err(fault)) => faults.push(fault),
            None => {}
        }
    }
    let names: Vec<&str> = lists.iter().filter_map(|(table, _)| table.sheet.as_deref()).collect();
    if names.len() > 1 {
        return Err(ListError::Sheets { file: file.to_owned(), sheets: names.join(", ") });
    }
    let fault = || faults.into_iter().next().unwrap_or_else(|| ListError::NoHeadings(file.to_owned()));
    lists.pop().ok_or_else(fault)
}

/// Of a text parted by each separator the reading in which most columns make sense, and of such the one with most cells.
fn likeliest(
    readings: Vec<Table>,
    file: &str,
    reading: &Reading,
    grammar: &Grammar,
) -> Result<Laid, ListError> {
    let (mut best, mut fault): (Option<(usize, usize, Laid)>, Option<ListError>) = (None, None);
    for table in readings {
        match laid(table, file, reading, grammar) {
            Some(Ok(laid)) => {
                let read = (laid.1.read(), laid.0.rows.iter().map(|row| row.cells.len()).sum());
                if best.as_ref().is_none_or(|best| read > (best.0, best.1)) {
                    best = Some((read.0, read.1, laid));
                }
            }
            Some(Err(error)) => fault = fault.or(Some(error)),
            None => {}
        }
    }
    best.map(|best| best.2).ok_or_else(|| fault.unwrap_or_else(|| ListError::NoHeadings(file.to_owned())))
}
