//! The sums as a sheet, computed from the lines.

use super::grid::{Cell, Grid};
use super::lines::summed;
use crate::model::wording;
use crate::output::rows::unit;
use crate::output::sums::Sum;

const COLUMNS: [(&str, f64); 11] = [
    ("Total", 6.0),
    ("UNIFORMAT II element", 11.0),
    ("Item", 26.0),
    ("Work", 20.0),
    ("Quantity", 12.0),
    ("Low", 12.0),
    ("High", 12.0),
    ("Unit", 9.0),
    ("Lines", 8.0),
    ("Without a number", 10.0),
    ("As shown", 28.0),
];

/// The sheet.
pub(super) fn grid(sums: &[Sum]) -> Grid {
    let rows = (1..).zip(sums).map(|(number, sum)| cells(number, sum)).collect();
    Grid { name: "Totals", columns: COLUMNS.to_vec(), rows }
}

/// The cell of a sum's quantity, from another sheet; sums are counted from 0.
pub(super) fn quantity(sum: usize) -> String {
    format!("Totals!E{}", sum + 2)
}

fn cells(number: usize, sum: &Sum) -> Vec<Cell> {
    let [quantity, low, high] = summed(&format!("A{}", number + 1));
    vec![
        Cell::Count(number),
        Cell::text(sum.element.unwrap_or_default()),
        Cell::text(&sum.item),
        Cell::text(wording::work(sum.work)),
        Cell::Computed(quantity, sum.quantity),
        Cell::Computed(low, sum.low),
        Cell::Computed(high, sum.high),
        Cell::text(unit(sum.unit)),
        Cell::Count(sum.lines.len()),
        Cell::Count(sum.unnumbered),
        Cell::text(sum.told()),
    ]
}
