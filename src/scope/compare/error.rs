//! Why a list can't be read: what, where, and what to do.

/// Their list, or the columns for it, can't be used.
#[derive(Debug, thiserror::Error, Clone, PartialEq, Eq)]
pub enum ListError {
    /// There is nothing in the file.
    #[error("`{0}`: there is nothing in it: check that it is the right file")]
    Empty(String),
    /// The file isn't one that is read.
    #[error("`{0}`: this is neither a table in text (CSV) nor a spreadsheet: save the list as CSV or XLSX")]
    NoTable(String),
    /// A spreadsheet that is broken, or locked.
    #[error(
        "`{file}`: the spreadsheet can't be read ({why}): open it, save it again as XLSX or CSV, and give that"
    )]
    Broken {
        /// The file.
        file: String,
        /// What was wrong.
        why: String,
    },
    /// A row that can't be read.
    #[error("`{file}`, row {row}: {why}")]
    Row {
        /// The file.
        file: String,
        /// The row, from 1.
        row: usize,
        /// What was wrong, and what to do.
        why: String,
    },
    /// More than anyone reads.
    #[error(
        "`{file}`: more than {most} {what}: this is no list of work for one property; cut out the part that is"
    )]
    TooLarge {
        /// The file.
        file: String,
        /// What there is too much of.
        what: &'static str,
        /// How much would do.
        most: usize,
    },
    /// No headings were found.
    #[error(
        "`{0}`: no row has headings that are known; one must tell the thing (`Description`, `Item`) and another its \
         quantity, unit, work or side. Name the columns in a file given with --columns: under [columns] a line for each, \
         such as \"B\" = \"quantity\""
    )]
    NoHeadings(String),
    /// Several columns claim the same, and nothing tells which is meant.
    #[error(
        "`{file}`, row {row}: columns {columns} look alike (`{heading}`): say which is the {means} in a file given with \
         --columns, such as \"{letter}\" = \"{means}\" under [columns]"
    )]
    Twice {
        /// The file.
        file: String,
        /// The row of the headings.
        row: usize,
        /// The columns by letter.
        columns: String,
        /// Their heading.
        heading: String,
        /// What both claim to hold.
        means: &'static str,
        /// The letter of the first.
        letter: String,
    },
    /// Several sheets hold lists.
    #[error("`{file}`: the sheets {sheets} all look like lists: name one with --sheet")]
    Sheets {
        /// The file.
        file: String,
        /// Their names.
        sheets: String,
    },
    /// There is no sheet of that name.
    #[error("`{file}`: there is no sheet `{sheet}`; there is: {there}")]
    NoSheet {
        /// The file.
        file: String,
        /// The name that was given.
        sheet: String,
        /// The names there are.
        there: String,
    },
    /// The file of the columns is wrong.
    #[error("`{file}`, line {line}: {why}")]
    Columns {
        /// The file with the columns.
        file: String,
        /// The line, from 1.
        line: usize,
        /// What was wrong, and what to do.
        why: String,
    },
}
