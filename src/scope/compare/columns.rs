//! Which column of a list holds what, as its headings tell.

use super::error::ListError;
use super::model::ColumnUse;
use super::sheet::{Row, Table};
use crate::language::rules::lists::{Column, Headed, ListWords};

/// Headings stand among the first rows that hold something.
pub(super) const AMONG: usize = 60;

/// Where the headings are, and what each column holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Columns {
    /// The row of the headings; none where there are none.
    pub header: Option<usize>,
    /// The columns, from the left.
    pub uses: Vec<ColumnUse>,
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

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::language::rules::Grammar;

    pub(in crate::scope::compare) fn table(rows: &[&str]) -> Table {
        let cells = |row: &&str| row.split('|').map(str::to_owned).collect();
        let rows = rows.iter().zip(1..).map(|(row, number)| Row { number, cells: cells(row) }).collect();
        Table { sheet: None, rows, notices: Vec::new() }
    }

    fn found(rows: &[&str]) -> Option<Result<Columns, ListError>> {
        Columns::found(&table(rows), &Grammar::built_in().unwrap().lists, "list.csv")
    }

    pub(in crate::scope::compare) fn means(columns: &Columns) -> Vec<Column> {
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
    fn letters_go_on_behind_z() {
        assert_eq!([0, 25, 26, 51, 52, 702].map(letter), ["A", "Z", "AA", "AZ", "BA", "AAA"]);
    }
}
