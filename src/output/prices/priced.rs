//! A scope with prices: an amount a sum, what has none, the subtotal, percentages, the total.

use super::list::{Price, PriceList};
use super::percent::{Percent, cents};
use crate::model::{Exact, Unit, Work, wording};
use crate::output::job::Job;
use crate::output::rows;
use crate::output::sums::{Sum, sums};
use rust_decimal::Decimal;

/// Cents in one of the currency.
const CENTS: i128 = 100;

/// A scope with prices.
#[derive(Debug, Clone, PartialEq)]
pub struct Priced {
    /// The price list.
    pub file: String,
    /// What has a price, in the order of the sums.
    pub lines: Vec<PricedLine>,
    /// What has none, and why.
    pub missing: Vec<Missing>,
    /// What the lines come to.
    pub subtotal: Decimal,
    /// What goes on top, in the order given.
    pub percents: Vec<Applied>,
    /// All of it.
    pub total: Decimal,
}

/// A sum with its price.
#[derive(Debug, Clone, PartialEq)]
pub struct PricedLine {
    /// Which sum, from 0.
    pub sum: usize,
    /// The thing.
    pub item: String,
    /// The work.
    pub work: Option<Work>,
    /// How much, in the unit of the scope.
    pub quantity: Exact,
    /// That unit.
    pub unit: Unit,
    /// How much, in the unit of the price.
    pub measured: Exact,
    /// How many of the price's unit one of the scope's is.
    pub factor: Exact,
    /// The price.
    pub price: Price,
    /// What it comes to, rounded to the cent, half a cent up.
    pub amount: Decimal,
    /// What a reader should know: hedged, a range, lines without a number.
    pub notes: Vec<String>,
}

/// A sum without a price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// The thing.
    pub item: String,
    /// The work.
    pub work: Option<Work>,
    /// How much, as it is shown.
    pub quantity: String,
    /// What is counted.
    pub unit: Unit,
    /// Why it has none, and what to do.
    pub why: String,
}

/// A percentage and what it comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Applied {
    /// The percentage.
    pub percent: Percent,
    /// What it was taken of.
    pub base: Decimal,
    /// What it comes to.
    pub amount: Decimal,
}

/// Puts prices to a scope.
pub fn priced(job: &Job, list: &PriceList, percents: &[Percent]) -> Priced {
    let (mut lines, mut missing) = (Vec::new(), Vec::new());
    for (place, sum) in sums(job).iter().enumerate() {
        match line(place, sum, list) {
            Ok(line) => lines.push(line),
            Err(why) => missing.push(lacking(sum, why)),
        }
    }
    let subtotal = cents(lines.iter().map(|line: &PricedLine| line.amount).sum());
    let mut total = subtotal;
    let mut applied = Vec::new();
    for percent in percents {
        let base = if percent.compound { total } else { subtotal };
        let amount = percent.of(base);
        total += amount;
        applied.push(Applied { percent: percent.clone(), base, amount });
    }
    Priced { file: list.file.clone(), lines, missing, subtotal, percents: applied, total }
}

fn line(place: usize, sum: &Sum, list: &PriceList) -> Result<PricedLine, String> {
    let (price, factor) = price_of(sum, list)?;
    if sum.unnumbered == sum.lines.len() {
        return Err("no quantity was given: count or measure it".to_owned());
    }
    let measured = sum.quantity * factor;
    let amount = amount(measured, price.price).ok_or("is too large to be priced: check it")?;
    Ok(PricedLine {
        sum: place,
        item: sum.item.clone(),
        work: sum.work,
        quantity: sum.quantity,
        unit: sum.unit,
        measured,
        factor,
        price: price.clone(),
        amount,
        notes: notes(sum),
    })
}

/// The price of a sum and how many of its unit one of the sum's is. One for the very work comes before one for any, and
/// one in the very unit before one that has to be turned into it.
fn price_of<'a>(sum: &Sum, list: &'a PriceList) -> Result<(&'a Price, Exact), String> {
    let item = sum.item.to_lowercase();
    let fits = |price: &&Price| price.item == item && (price.work.is_none() || price.work == sum.work);
    let found: Vec<&Price> = list.prices.iter().filter(fits).collect();
    let priced = found.iter().filter_map(|price| Some((*price, sum.unit.in_unit(price.unit)?)));
    let best = priced.min_by_key(|(price, _)| (price.work.is_none(), price.unit != sum.unit));
    best.ok_or_else(|| match found.first() {
        None => "no price in the list: add a row".to_owned(),
        Some(price) => format!(
            "row {} is a price per {}, which {} can't be turned into: add a row per {}",
            price.row,
            rows::unit(price.unit),
            rows::unit(sum.unit),
            rows::unit(sum.unit)
        ),
    })
}

/// Quantity by price, to the cent, half a cent up.
fn amount(quantity: Exact, price: Decimal) -> Option<Decimal> {
    let price = Exact::new(price.mantissa(), 10_i128.checked_pow(price.scale())?);
    let numerator = quantity.numer().checked_mul(price.numer())?.checked_mul(CENTS)?;
    let denominator = quantity.denom().checked_mul(price.denom())?;
    let in_cents = (Exact::new(numerator, denominator) + Exact::new(1, 2)).floor();
    Decimal::try_from_i128_with_scale(in_cents.to_integer(), 2).ok()
}

fn notes(sum: &Sum) -> Vec<String> {
    let mut notes = Vec::new();
    if sum.low < sum.high {
        notes.push("the quantity is a range: priced at its middle".to_owned());
    } else if sum.rough {
        notes.push("the quantity is approximate".to_owned());
    }
    match sum.unnumbered {
        0 => {}
        more => {
            notes.push(format!("not counting {} without a quantity", wording::count(more, "line", "lines")))
        }
    }
    notes
}

fn lacking(sum: &Sum, why: String) -> Missing {
    Missing { item: sum.item.clone(), work: sum.work, quantity: sum.told(), unit: sum.unit, why }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_is_rounded_once_half_a_cent_up() {
        let amount = |n, d, price, scale| amount(Exact::new(n, d), Decimal::new(price, scale)).unwrap();
        // 3 x 0.335 = 1.005, which a binary number holds as 1.00499…
        assert_eq!(amount(3, 1, 335, 3), Decimal::new(101, 2));
        // 8 1/3 x 1.50 = 12.50.
        assert_eq!(amount(25, 3, 150, 2), Decimal::new(1250, 2));
        // 1/3 x 0.01 = 0.0033…
        assert_eq!(amount(1, 3, 1, 2), Decimal::new(0, 2));
        assert_eq!(amount(0, 1, 150, 2), Decimal::ZERO);
    }
}
