//! Which column of a list holds what: told by its headings, or by a file that a person wrote or adjusted.

use super::error::ListError;
use super::model::ColumnUse;
use super::sheet::{Row, Table};
use crate::grammar::lists::{Column, Headed, ListWords, plain};
use serde::Deserialize;
use serde_spanned::Spanned;
use std::collections::BTreeMap;
use std::fmt::Write;

/// What a file of columns begins with, by which it is known as the program's own.
pub const COLUMNS_MARK: &str = "# The columns of a list, for `eavesdraft compare`.";

/// Headings stand among the first rows that hold something.
const AMONG: usize = 60;

/// Where the headings are, and what each column holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Columns {
    /// The row of the headings; none where there are none.
    pub header: Option<usize>,
    /// The columns, from the left.
    pub uses: Vec<ColumnUse>,
}

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
    /// The columns by their headings; none where no row has such.
    pub fn found(table: &Table, words: &ListWords, file: &str) -> Option<Result<Self, ListError>> {
        let headed =
            |row: &Row| -> Vec<Option<Headed>> { row.cells.iter().map(|cell| words.column(cell)).collect() };
        let mut best: Option<(usize, &Row, Vec<Option<Headed>>)> = None;
        for row in table.rows.iter().take(AMONG) {
            let columns = headed(row);
            let score = score(&columns);
            if score > best.as_ref().map_or(0, |best| best.0) {
                best = Some((score, row, columns));
            }
        }
        best.map(|(_, row, columns)| Self::of(row, &columns, file))
    }

    fn of(row: &Row, headed: &[Option<Headed>], file: &str) -> Result<Self, ListError> {
        let means = |at: usize| headed[at].map_or(Column::Nothing, |headed| headed.column);
        let mut uses: Vec<ColumnUse> = (0..row.cells.len())
            .map(|at| ColumnUse {
                letter: letter(at),
                heading: row.cells[at].clone(),
                means: means(at),
                instead: None,
            })
            .collect();
        for (single, name) in [(Column::Quantity, "quantity"), (Column::Unit, "unit")] {
            one(row, headed, &mut uses, single, name, file)?;
        }
        Ok(Self { header: Some(row.number), uses })
    }

    /// The places of the columns that hold something.
    pub fn holding(&self, column: Column) -> impl Iterator<Item = usize> {
        self.uses.iter().enumerate().filter(move |(_, used)| used.means == column).map(|(at, _)| at)
    }

    /// How many columns are read.
    pub fn read(&self) -> usize {
        self.uses.iter().filter(|used| used.means != Column::Nothing).count()
    }

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

/// How many meanings the headings tell; 0 where they don't tell enough.
fn score(headed: &[Option<Headed>]) -> usize {
    let has = |column| headed.iter().flatten().any(|headed| headed.column == column);
    let beside = [Column::Quantity, Column::Unit, Column::Work, Column::Side];
    if !has(Column::Item) || !beside.into_iter().any(has) {
        return 0;
    }
    let all = [Column::Item, Column::Price, Column::Size, Column::Note, Column::Number];
    all.into_iter().chain(beside).filter(|column| has(*column)).count()
}

/// Leaves one column of a kind of which only one can be read: the one whose heading tells it most surely.
fn one(
    row: &Row,
    headed: &[Option<Headed>],
    uses: &mut [ColumnUse],
    single: Column,
    name: &'static str,
    file: &str,
) -> Result<(), ListError> {
    let rank = |at: usize| headed[at].map_or(usize::MAX, |headed| headed.rank);
    let all: Vec<usize> = (0..uses.len()).filter(|at| uses[*at].means == single).collect();
    let Some(best) = all.iter().copied().min_by_key(|at| rank(*at)) else { return Ok(()) };
    let alike: Vec<usize> = all.iter().copied().filter(|at| rank(*at) == rank(best)).collect();
    if alike.len() > 1 {
        let letters: Vec<String> = alike.iter().map(|at| letter(*at)).collect();
        return Err(ListError::Twice {
            file: file.to_owned(),
            row: row.number,
            columns: letters.join(" and "),
            heading: row.cells[best].clone(),
            means: name,
            letter: letter(best),
        });
    }
    for at in all.into_iter().filter(|at| *at != best) {
        uses[at].means = Column::Nothing;
        uses[at].instead = Some(format!("`{}` is read as the {name}", row.cells[best]));
    }
    Ok(())
}

/// A meaning as files write it.
pub fn name(column: Column) -> &'static str {
    match column {
        Column::Price => "price",
        Column::Quantity => "quantity",
        Column::Unit => "unit",
        Column::Item => "item",
        Column::Work => "work",
        Column::Side => "side",
        Column::Size => "size",
        Column::Note => "note",
        Column::Number => "number",
        Column::Nothing => "nothing",
    }
}

/// The letter of a column: A … Z, AA …
pub(super) fn letter(at: usize) -> String {
    let last = char::from(b'A' + (at % 26) as u8);
    if at < 26 { last.to_string() } else { letter(at / 26 - 1) + &last.to_string() }
}

fn line(text: &str, byte: usize) -> usize {
    1 + text.as_bytes().iter().take(byte).filter(|byte| **byte == b'\n').count()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::grammar::Grammar;

    fn table(rows: &[&str]) -> Table {
        let cells = |row: &&str| row.split('|').map(str::to_owned).collect();
        let rows = rows.iter().zip(1..).map(|(row, number)| Row { number, cells: cells(row) }).collect();
        Table { sheet: None, rows, notices: Vec::new() }
    }

    fn found(rows: &[&str]) -> Option<Result<Columns, ListError>> {
        Columns::found(&table(rows), &Grammar::built_in().unwrap().lists, "list.csv")
    }

    fn means(columns: &Columns) -> Vec<Column> {
        columns.uses.iter().map(|used| used.means).collect()
    }

    #[test]
    fn headings_are_found_below_titles() {
        let columns = found(&[
            "Estimate for a house|||",
            "|date|today|",
            "Location|Description|Qty|UOM",
            "Front|Gutter|3|LF",
        ]);
        let columns = columns.unwrap().unwrap();
        assert_eq!(columns.header, Some(3));
        assert_eq!(means(&columns), [Column::Side, Column::Item, Column::Quantity, Column::Unit]);
    }

    #[test]
    fn of_two_quantities_the_surer_is_read_and_the_other_told() {
        let columns = found(&["Description|Qty|Amount"]).unwrap().unwrap();
        assert_eq!(means(&columns), [Column::Item, Column::Quantity, Column::Nothing]);
        assert_eq!(columns.uses[2].instead.as_deref(), Some("`Qty` is read as the quantity"));
    }

    #[test]
    fn two_columns_that_nothing_tells_apart_are_asked_about() {
        let error = found(&["Description|Qty|Qty"]).unwrap().unwrap_err();
        assert!(error.to_string().contains("columns B and C look alike (`Qty`)"), "{error}");
    }

    #[test]
    fn without_headings_nothing_is_guessed() {
        assert!(found(&["Front|Gutter|32|LF"]).is_none());
    }

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

    #[test]
    fn letters_go_on_behind_z() {
        assert_eq!([0, 25, 26, 51, 52, 702].map(letter), ["A", "Z", "AA", "AZ", "BA", "AAA"]);
    }
}
