//! Prices on paper.

use super::priced::{Applied, Missing, Priced, PricedLine};
use crate::model::Exact;
use crate::model::wording::{self, capital};
use crate::output::page::{Block, Column, Group, Note, Row, Section, Table};
use crate::output::rows::unit;
use rust_decimal::Decimal;

/// What is told of every priced scope.
pub(in crate::output) const TOLD: &str = "Prices are from the office's own list. Each amount is rounded to the cent once, half a cent up. Lines under “Only \
     if” are not included.";

const COLUMNS: [Column; 6] = [
    Column::names("Item"),
    Column::words("Work"),
    Column::numbers("Quantity"),
    Column::words("Unit"),
    Column::numbers("Price"),
    Column::numbers("Amount"),
];

/// The columns of what has no price.
const MISSING: [Column; 5] = [
    Column::names("Item"),
    Column::words("Work"),
    Column::numbers("Quantity"),
    Column::words("Unit"),
    Column::text("Why"),
];

/// The prices as a section; none where nothing has a price and nothing lacks one.
pub fn section(priced: &Priced) -> Option<Section> {
    if priced.lines.is_empty() && priced.missing.is_empty() {
        return None;
    }
    let told = format!("{TOLD} Price list: {}.", priced.file);
    let groups = vec![
        Group { heading: None, rows: priced.lines.iter().map(row).collect() },
        Group { heading: Some("Total".to_owned()), rows: totals(priced) },
    ];
    let mut blocks = vec![Block::Text(told), Block::Table(Table { columns: COLUMNS.to_vec(), groups })];
    if !priced.missing.is_empty() {
        blocks.push(Block::Text("No price, and not in the amounts above:".to_owned()));
        let rows = priced.missing.iter().map(missing).collect();
        blocks.push(Block::Table(Table::plain(MISSING, rows)));
    }
    Section::of("Prices", blocks)
}

fn row(line: &PricedLine) -> Row {
    let mut notes: Vec<Note> = line.notes.iter().map(|note| Note::plain(wording::sentence(note))).collect();
    if line.price.unit != line.unit {
        notes.push(Note::plain(turned(line)));
    }
    Row {
        notes,
        ..Row::of([
            line.item.clone(),
            wording::work(line.work).to_owned(),
            line.measured.text(),
            unit(line.price.unit).to_owned(),
            money(line.price.price),
            money(line.amount),
        ])
    }
}

/// How the scope's unit became the list's, from the larger of the two: `1 square is 100 sq ft.`
fn turned(line: &PricedLine) -> String {
    let (scope, list) = (unit(line.unit), unit(line.price.unit));
    match line.factor >= Exact::ONE {
        true => format!("1 {scope} is {} {list}.", line.factor.text()),
        false => format!("1 {list} is {} {scope}.", line.factor.recip().text()),
    }
}

fn totals(priced: &Priced) -> Vec<Row> {
    let row = |name: String, amount: Decimal| {
        let empty = String::new;
        Row::of([name, empty(), empty(), empty(), empty(), money(amount)])
    };
    let mut rows = vec![row("Subtotal".to_owned(), priced.subtotal)];
    rows.extend(priced.percents.iter().map(|applied| row(told(applied), applied.amount)));
    rows.push(row("Total".to_owned(), priced.total));
    rows
}

/// A percentage and what it was taken of: `Overhead, 10% of 1,200.00`.
fn told(applied: &Applied) -> String {
    let Applied { percent, base, .. } = applied;
    format!("{}, {}% of {}", capital(&percent.name), percent.percent.normalize(), money(*base))
}

fn missing(missing: &Missing) -> Row {
    let Missing { item, work, quantity, unit: counted, why } = missing;
    Row::of([item.as_str(), wording::work(*work), quantity, unit(*counted), why])
}

/// Money with two decimals at least and commas before each three digits: `12,345.60`.
pub(in crate::output) fn money(amount: Decimal) -> String {
    let mut amount = amount.normalize();
    if amount.scale() < 2 {
        amount.rescale(2);
    }
    let text = amount.to_string();
    let (whole, cents) = text.split_once('.').unwrap_or((&text, "00"));
    let groups: Vec<&str> =
        whole.as_bytes().rchunks(3).rev().filter_map(|g| str::from_utf8(g).ok()).collect();
    format!("{}.{cents}", groups.join(","))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_is_grouped_and_keeps_its_cents() {
        let cases = [
            (0, 0, "0.00"),
            (5, 1, "0.50"),
            (123_456, 2, "1,234.56"),
            (100_000, 0, "100,000.00"),
            (4105, 3, "4.105"),
        ];
        for (mantissa, scale, told) in cases {
            assert_eq!(money(Decimal::new(mantissa, scale)), told);
        }
    }
}
