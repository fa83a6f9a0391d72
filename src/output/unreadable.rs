//! Why a table that somebody gave can't be read: file, row, column, and what to do.

use std::fmt;

/// A table that can't be read as it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// The file, as it was named.
    pub file: String,
    /// The row, counted as a spreadsheet does: the header is row 1.
    pub row: Option<u64>,
    /// The column's heading.
    pub column: Option<String>,
    /// What is wrong, and what to do.
    pub what: String,
}

impl Unreadable {
    /// A fault of the file as a whole.
    pub(super) fn file(file: &str, what: impl Into<String>) -> Self {
        Self { file: file.to_owned(), row: None, column: None, what: what.into() }
    }

    /// A fault of a row.
    pub(super) fn row(file: &str, row: u64, what: impl Into<String>) -> Self {
        Self { row: Some(row), ..Self::file(file, what) }
    }

    /// A fault of a cell.
    pub(super) fn cell(file: &str, row: u64, column: &str, what: impl Into<String>) -> Self {
        Self { column: Some(column.to_owned()), ..Self::row(file, row, what) }
    }

    /// What the reader of comma-separated values found.
    pub(super) fn csv(file: &str, row: u64, error: &csv::Error) -> Self {
        match error.kind() {
            csv::ErrorKind::Utf8 { .. } => {
                Self::row(file, row, "is not UTF-8: save it as CSV with UTF-8 letters")
            }
            csv::ErrorKind::UnequalLengths { expected_len, len, .. } => Self::row(
                file,
                row,
                format!("has {len} cells where the header has {expected_len}: check its commas and quotes"),
            ),
            other => Self::row(file, row, format!("can't be read ({other:?}): check its commas and quotes")),
        }
    }
}

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}`", self.file)?;
        if let Some(row) = self.row {
            write!(f, ", row {row}")?;
        }
        if let Some(column) = &self.column {
            write!(f, ", {column}")?;
        }
        write!(f, ": {}", self.what)
    }
}

impl std::error::Error for Unreadable {}
