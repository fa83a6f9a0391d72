//! A file that says which column of a list holds what: written by a person, or by the program to be adjusted.

use super::columns::{AMONG, Columns, letter, name};
use super::error::ListError;
use super::model::ColumnUse;
use super::sheet::{Row, Table};
use crate::language::rules::lists::{Column, plain};
use serde::Deserialize;
use serde_spanned::Spanned;
use std::collections::BTreeMap;
use std::fmt::Write;

/// What a file of columns begins with, by which it is known as the program's own.
pub const COLUMNS_MARK: &str = "# The columns of a list, for `eavesdraft compare`.";

/// A file that says what the columns hold.
#[derive(Debug, Clone)]
pub struct ColumnsFile {
    name: String,
    text: String,
    read: Read,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Read {
    /// The row of the headings; 0 where there are none, and columns go by their letters.
    header: Option<usize>,
    columns: BTreeMap<Spanned<String>, Column>,
}

impl ColumnsFile {
    /// Reads a file of columns.
    ///
    /// # Errors
    /// With the line that is wrong.
    pub fn new(text: &str, name: &str) -> Result<Self, ListError> {
        let read: Read = toml::from_str(text).map_err(|error| ListError::Columns {
            file: name.to_owned(),
            line: line(text, error.span().map_or(0, |span| span.start)),
            why: error.message().replace('\n', " "),
        })?;
        Ok(Self { name: name.to_owned(), text: text.to_owned(), read })
    }

    fn wrong(&self, at: &Spanned<String>, why: String) -> ListError {
        ListError::Columns { file: self.name.clone(), line: line(&self.text, at.span().start), why }
    }

    /// The columns of a table, as this file has them.
    pub(super) fn of(&self, table: &Table) -> Result<Columns, ListError> {
        let header = self.header(table)?;
        let empty = Vec::new();
        let headings = header.map_or(&empty, |row| &row.cells);
        let width = table.rows.iter().map(|row| row.cells.len()).max().unwrap_or_default();
        let heading = |at: usize| headings.get(at).cloned().unwrap_or_default();
        let mut uses: Vec<ColumnUse> = (0..width)
            .map(|at| ColumnUse {
                letter: letter(at),
                heading: heading(at),
                means: Column::Nothing,
                instead: None,
            })
            .collect();
        for (key, means) in &self.read.columns {
            let named = |used: &ColumnUse| plain(&used.heading) == plain(key.get_ref());
            let lettered = |used: &ColumnUse| used.letter.eq_ignore_ascii_case(key.get_ref());
            let at = uses.iter().position(named).or_else(|| uses.iter().position(lettered));
            match at {
                Some(at) => uses[at].means = *means,
                None if *means == Column::Nothing => {}
                None => return Err(self.wrong(key, self.no_column(key.get_ref(), header))),
            }
        }
        let columns = Columns { header: header.map(|row| row.number), uses };
        if columns.holding(Column::Item).next().is_none() {
            let why = "no column is said to hold the thing: add one as \"item\"".to_owned();
            return Err(ListError::Columns { file: self.name.clone(), line: 1, why });
        }
        Ok(columns)
    }

    fn no_column(&self, key: &str, header: Option<&Row>) -> String {
        let headings = header.map(|row| row.cells.iter().filter(|cell| !cell.is_empty()).cloned());
        let there = headings.map(|cells| cells.collect::<Vec<_>>().join(", ")).unwrap_or_default();
        match there.is_empty() {
            true => format!("there is no column `{key}`: without headings columns go by their letters"),
            false => format!("there is no column `{key}`; the headings are: {there}"),
        }
    }

    /// The row of the headings: the one that is told, or the first that has one of those the file names.
    fn header<'t>(&self, table: &'t Table) -> Result<Option<&'t Row>, ListError> {
        let named = |row: &&Row| {
            let plain_cells: Vec<String> = row.cells.iter().map(|cell| plain(cell)).collect();
            self.read.columns.keys().filter(|key| plain_cells.contains(&plain(key.get_ref()))).count() > 1
        };
        match self.read.header {
            Some(0) => Ok(None),
            Some(number) => {
                let row = table.rows.iter().find(|row| row.number == number);
                row.map(Some).ok_or_else(|| ListError::Columns {
                    file: self.name.clone(),
                    line: 1,
                    why: format!(
                        "row {number} of the list is empty: give the row of the headings, or 0 for none"
                    ),
                })
            }
            None => Ok(table.rows.iter().take(AMONG).find(named)),
        }
    }
}

impl Columns {
    /// The columns as a file that may be adjusted and given again.
    pub fn written(&self) -> String {
        let mut text = format!(
            "{COLUMNS_MARK}\n# Each heading, or letter where there is none, and what stands under it: item, work, side, quantity, \
             unit, size, note,\n# price, number or nothing. Several may hold item, work, side or size; their words are taken \
             together.\n\nheader = {}\n\n[columns]\n",
            self.header.unwrap_or_default()
        );
        for used in &self.uses {
            let twice =
                self.uses.iter().filter(|other| plain(&other.heading) == plain(&used.heading)).count() > 1;
            let key = if used.heading.is_empty() || twice { &used.letter } else { &used.heading };
            if used.means != Column::Nothing || !used.heading.is_empty() {
                // Writing to a String can't fail.
                let _ = writeln!(text, "{} = \"{}\"", toml::Value::String(key.clone()), name(used.means));
            }
        }
        text
    }
}

fn line(text: &str, byte: usize) -> usize {
    1 + text.as_bytes().iter().take(byte).filter(|byte| **byte == b'\n').count()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scope::compare::columns::tests::{means, table};

    #[test]
    fn what_is_saved_reads_the_same() {
        let rows = ["Title||||", "Location|Item \"new\"|Qty|Qty|Unit", "Front|Gutter|1|2|LF"];
        let file = ColumnsFile::new("[columns]\nItem \"new\" = \"item\"", "c.toml").unwrap_err();
        assert!(matches!(file, ListError::Columns { line: 2, .. }));
        let text = "[columns]\n'Item \"new\"' = 'item'\nD = 'quantity'\nlocation = 'side'\nUnit = 'unit'";
        let columns = ColumnsFile::new(text, "c.toml").unwrap().of(&table(&rows)).unwrap();
        assert_eq!(
            means(&columns),
            [Column::Side, Column::Item, Column::Nothing, Column::Quantity, Column::Unit]
        );
        let again = ColumnsFile::new(&columns.written(), "c.toml").unwrap().of(&table(&rows)).unwrap();
        assert_eq!(again, columns);
    }

    #[test]
    fn a_column_that_isnt_there_is_told_with_those_that_are() {
        let file =
            ColumnsFile::new("[columns]\nThing = 'item'\nQty = 'quantity'\nMany = 'unit'", "c.toml").unwrap();
        let error = file.of(&table(&["Thing|Qty", "Gutter|1"])).unwrap_err();
        assert_eq!(
            error.to_string(),
            "`c.toml`, line 4: there is no column `Many`; the headings are: Thing, Qty"
        );
    }
}
