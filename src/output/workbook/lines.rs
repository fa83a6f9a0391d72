//! The lines as a sheet, and where in it a quantity stands.

use super::grid::{Cell, Grid, letters};
use crate::model::Exact;
use crate::output::rows::LineRow;
use crate::output::sums::Sum;

/// The headings and widths.
const COLUMNS: [(&str, f64); 23] = [
    ("Number", 8.0),
    ("Structure", 12.0),
    ("Side", 9.0),
    ("Area", 9.0),
    ("Item", 22.0),
    ("Item id", 16.0),
    ("UNIFORMAT II element", 11.0),
    ("Size", 13.0),
    ("Work", 18.0),
    ("Quantity", 10.0),
    ("Low", 9.0),
    ("High", 9.0),
    ("Unit", 8.0),
    ("Rough", 7.0),
    ("State", 12.0),
    ("To review", 34.0),
    ("Note", 16.0),
    ("Quote", 40.0),
    ("Time", 8.0),
    ("Clip", 14.0),
    ("By", 12.0),
    ("Id", 12.0),
    ("Total", 6.0),
];

/// The columns that sums are made from.
const LOW_HIGH_SUM: [usize; 4] = [9, 10, 11, 22];

/// The lines as a sheet. Each tells the number of the sum that it is part of; conditional ones are part of none.
pub(super) fn grid<'a>(
    name: &'static str,
    rows: impl Iterator<Item = &'a LineRow>,
    sums: Option<&[Sum]>,
) -> Grid {
    let rows = rows.map(|row| cells(row, sums.and_then(|sums| sum_of(row, sums)))).collect();
    Grid { name, columns: COLUMNS.to_vec(), rows }
}

/// The number of the sum that a line is part of.
fn sum_of(row: &LineRow, sums: &[Sum]) -> Option<usize> {
    sums.iter().position(|sum| sum.lines.iter().any(|line| line.id == row.id)).map(|at| at + 1)
}

fn cells(row: &LineRow, sum: Option<usize>) -> Vec<Cell> {
    let number = |number: Option<Exact>| number.map_or(Cell::Empty, Cell::exact);
    vec![
        Cell::Count(row.number),
        Cell::text(&row.structure),
        Cell::text(&row.side),
        Cell::text(&row.area),
        Cell::text(&row.item),
        Cell::text(&row.item_id),
        Cell::text(&row.element),
        Cell::text(&row.size),
        Cell::text(&row.work),
        number(row.quantity),
        number(row.low),
        number(row.high),
        Cell::text(&row.unit),
        Cell::text(if row.rough { "yes" } else { "no" }),
        Cell::text(&row.state),
        Cell::text(&row.looks),
        Cell::text(&row.note),
        Cell::text(&row.quote),
        Cell::text(&row.time),
        Cell::text(&row.clip),
        Cell::text(&row.by),
        Cell::text(&row.id),
        sum.map_or(Cell::Empty, Cell::Count),
    ]
}

/// What computes a sum's quantity, its low and its high; `cell` holds the number of the sum. It goes by that number and
/// not by names, since a spreadsheet takes signs in names for patterns and large letters for small ones.
pub(super) fn summed(cell: &str) -> [String; 3] {
    let [quantity, low, high, sum] = LOW_HIGH_SUM.map(letters);
    [quantity, low, high].map(|column| format!("SUMIFS(Lines!{column}:{column},Lines!{sum}:{sum},{cell})"))
}
