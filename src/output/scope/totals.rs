//! The totals: how much of each thing with each work.

use crate::model::{Quantity, wording};
use crate::output::job::Job;
use crate::output::page::{Block, Cell, Column, Row, Section, Table};
use crate::output::sums::{Sum, sums};

/// What the table holds.
const TOLD: &str = "How much there is of each item and kind of work, on all sides together. Lines under “Only if” are not \
                    in it. Elements are those of UNIFORMAT II (NISTIR 6389).";

/// The section; none where there are no lines.
pub(super) fn section(job: &Job) -> Option<Section> {
    let columns = [
        Column::names("Item"),
        Column::words("Work"),
        Column::numbers("Quantity"),
        Column::words("Unit"),
        Column::numbers("Lines"),
        Column::words("Element"),
    ];
    let rows: Vec<Row> = sums(job).iter().map(row).collect();
    if rows.is_empty() {
        return None;
    }
    let table = Table::plain(columns, rows);
    Section::of("Totals", vec![Block::Text(TOLD.to_owned()), Block::Table(table)])
}

fn row(sum: &Sum) -> Row {
    let unit = wording::unit_beside(Quantity::between(sum.low, sum.high), sum.unit);
    Row::of([
        Cell::from(sum.item.clone()),
        Cell::from(wording::work(sum.work)),
        Cell::from(sum.told()),
        Cell::from(unit),
        Cell::from(sum.lines.len().to_string()),
        Cell::from(sum.element.unwrap_or_default()),
    ])
}
