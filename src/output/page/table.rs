//! Tables.

use super::{Link, Said};

/// A table. Its head is repeated on every sheet. How wide its columns are follows from what stands in them.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, in groups.
    pub groups: Vec<Group>,
}

/// A column of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Its heading.
    pub heading: &'static str,
    /// What it holds.
    pub holds: Holds,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// What the row is about; it is read out before the other cells.
    Names,
    /// A few words, kept on one line where there is room.
    Words,
    /// Sentences and formulas, which give way first.
    Text,
    /// Numbers, which stand at the right edge and are never broken.
    Numbers,
    /// Links and nothing else: there is no such column where nothing can be followed.
    Links,
}

/// Rows of a table that belong together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Group {
    /// A heading over them; none where they need none.
    pub heading: Option<String>,
    /// The rows.
    pub rows: Vec<Row>,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Row {
    /// What links lead to it by; none where none do.
    pub anchor: Option<String>,
    /// A cell a column.
    pub cells: Vec<Cell>,
    /// What stands under the row, over its whole width.
    pub notes: Vec<Note>,
    /// Whether a person has to look at it.
    pub flagged: bool,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cell {
    /// What it tells.
    pub text: String,
    /// What describes that further; it stands back.
    pub more: String,
    /// What was said, and when.
    pub said: Option<Said>,
    /// Where its text leads.
    pub link: Option<Link>,
    /// Whether the text tells that something is missing.
    pub missing: bool,
}

/// What stands under a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// The words.
    pub text: String,
    /// Whether it is what a person has to look at.
    pub flagged: bool,
}

impl Column {
    /// A column of names.
    pub const fn names(heading: &'static str) -> Self {
        Self { heading, holds: Holds::Names }
    }

    /// A column of words.
    pub const fn words(heading: &'static str) -> Self {
        Self { heading, holds: Holds::Words }
    }

    /// A column of text.
    pub const fn text(heading: &'static str) -> Self {
        Self { heading, holds: Holds::Text }
    }

    /// A column of numbers.
    pub const fn numbers(heading: &'static str) -> Self {
        Self { heading, holds: Holds::Numbers }
    }

    /// A column of links.
    pub const fn links(heading: &'static str) -> Self {
        Self { heading, holds: Holds::Links }
    }
}

impl Table {
    /// A table of rows that need no grouping.
    pub fn plain(columns: impl Into<Vec<Column>>, rows: Vec<Row>) -> Self {
        Self { columns: columns.into(), groups: vec![Group { heading: None, rows }] }
    }

    /// All its rows.
    pub fn rows(&self) -> impl Iterator<Item = &Row> {
        self.groups.iter().flat_map(|group| &group.rows)
    }

    /// The table where nothing can be followed: without its columns of links.
    pub fn without_links(&self) -> Self {
        let kept: Vec<bool> = self.columns.iter().map(|column| column.holds != Holds::Links).collect();
        let mut table = self.clone();
        keep(&mut table.columns, &kept);
        table.groups.iter_mut().flat_map(|group| &mut group.rows).for_each(|row| keep(&mut row.cells, &kept));
        table
    }
}

fn keep<T>(all: &mut Vec<T>, kept: &[bool]) {
    let mut kept = kept.iter();
    all.retain(|_| kept.next().copied().unwrap_or(true));
}

impl Row {
    /// A row without notes.
    pub fn of<const N: usize>(cells: [impl Into<Cell>; N]) -> Self {
        Self { cells: cells.into_iter().map(Into::into).collect(), ..Self::default() }
    }
}

impl Cell {
    /// What was said, and when.
    pub fn said(said: Said) -> Self {
        Self { said: Some(said), ..Self::default() }
    }

    /// That something is missing.
    pub fn missing(text: &str) -> Self {
        Self { text: text.to_owned(), missing: true, ..Self::default() }
    }

    /// The same with what describes it further.
    pub fn and(self, more: String) -> Self {
        Self { more, ..self }
    }

    /// The same, leading somewhere.
    pub fn to(self, link: Link) -> Self {
        Self { link: Some(link), ..self }
    }

    /// All that it tells, in one text.
    pub fn told(&self) -> String {
        let said = self.said.as_ref().map(Said::told).unwrap_or_default();
        let parts = [&self.text, &self.more, &said].into_iter().filter(|part| !part.is_empty());
        parts.map(String::as_str).collect::<Vec<_>>().join(", ")
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self { text, ..Self::default() }
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::from(text.to_owned())
    }
}

impl Note {
    /// What the row rests on, or what else is to be known of it.
    pub fn plain(text: impl Into<String>) -> Self {
        Self { text: text.into(), flagged: false }
    }

    /// What a person has to look at.
    pub fn flagged(text: impl Into<String>) -> Self {
        Self { text: text.into(), flagged: true }
    }
}
