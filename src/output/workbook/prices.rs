//! Prices as a sheet: quantities from the sums, amounts by formula, so that a changed price or percentage is followed.

use super::grid::{Cell, Grid};
use super::sums::quantity;
use crate::model::{Exact, wording};
use crate::output::prices::{Applied, Missing, Priced, PricedLine};
use crate::output::rows::unit;

const COLUMNS: [(&str, f64); 8] = [
    ("Item", 28.0),
    ("Work", 20.0),
    ("Quantity", 12.0),
    ("Unit", 9.0),
    ("Price or percent", 14.0),
    ("Amount", 14.0),
    ("Row in price list", 9.0),
    ("Notes", 60.0),
];

/// The sheet.
pub(super) fn grid(priced: &Priced) -> Grid {
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for line in &priced.lines {
        rows.push(priced_line(rows.len() + 2, line));
    }
    let lines = rows.len();
    let subtotal = if lines == 0 { "0".to_owned() } else { format!("SUM(F2:F{})", lines + 1) };
    rows.push(total("Subtotal", Cell::ComputedMoney(subtotal, priced.subtotal), &priced.file));
    let first = rows.len() + 1;
    for applied in &priced.percents {
        rows.push(percent(first, rows.len() + 2, applied));
    }
    let all = format!("SUM(F{first}:F{})", rows.len() + 1);
    let told = "each amount rounded to the cent once, half a cent up; lines under Only if not included";
    rows.push(total("Total", Cell::ComputedMoney(all, priced.total), told));
    rows.extend(priced.missing.iter().map(missing));
    Grid { name: "Prices", columns: COLUMNS.to_vec(), rows }
}

fn priced_line(row: usize, line: &PricedLine) -> Vec<Cell> {
    let measured = format!("{}{}", quantity(line.sum), times(line.factor));
    vec![
        Cell::text(&line.item),
        Cell::text(wording::work(line.work)),
        Cell::Computed(measured, line.measured),
        Cell::text(unit(line.price.unit)),
        Cell::Money(line.price.price),
        Cell::ComputedMoney(format!("ROUND(C{row}*E{row},2)"), line.amount),
        Cell::Count(line.price.row as usize),
        Cell::text(line.notes.join("; ")),
    ]
}

/// A factor as a spreadsheet computes it.
fn times(factor: Exact) -> String {
    match (factor.numer(), factor.denom()) {
        _ if factor == Exact::ONE => String::new(),
        (numerator, 1) => format!("*{numerator}"),
        (1, denominator) => format!("/{denominator}"),
        (numerator, denominator) => format!("*{numerator}/{denominator}"),
    }
}

/// A percentage of the subtotal, or of the subtotal and all percentages above.
fn percent(first: usize, row: usize, applied: &Applied) -> Vec<Cell> {
    let percent = &applied.percent;
    let (base, told) = match percent.compound {
        true => (format!("SUM(F{first}:F{})", row - 1), "percent of everything above, from the subtotal on"),
        false => (format!("F{first}"), "percent of the subtotal"),
    };
    let amount = Cell::ComputedMoney(format!("ROUND({base}*E{row}/100,2)"), applied.amount);
    let rate = Cell::Money(percent.percent);
    let empty = || Cell::Empty;
    vec![Cell::text(&percent.name), empty(), empty(), empty(), rate, amount, empty(), Cell::text(told)]
}

fn total(name: &str, amount: Cell, told: &str) -> Vec<Cell> {
    let empty = || Cell::Empty;
    vec![Cell::text(name), empty(), empty(), empty(), empty(), amount, empty(), Cell::text(told)]
}

fn missing(missing: &Missing) -> Vec<Cell> {
    let Missing { item, work, quantity, unit: counted, why } = missing;
    vec![
        Cell::text(item),
        Cell::text(wording::work(*work)),
        Cell::text(quantity),
        Cell::text(unit(*counted)),
        Cell::text("no price"),
        Cell::Empty,
        Cell::Empty,
        Cell::text(why),
    ]
}
