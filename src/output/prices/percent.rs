//! Percentages that an office puts on top, each by its name: `overhead=8`.

use rust_decimal::{Decimal, RoundingStrategy};
use std::str::FromStr;

/// A percentage.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Percent {
    /// What for.
    pub name: String,
    /// How much of a hundred.
    pub percent: Decimal,
    /// Whether it is taken of all that stands above it, not of the subtotal alone.
    pub compound: bool,
}

impl FromStr for Percent {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let how = "write it as overhead=8, or tax=6.5:compound";
        let (name, number) =
            text.rsplit_once('=').ok_or_else(|| format!("“{text}” has no equals sign: {how}"))?;
        let (number, compound) = match number.split_once(':') {
            None => (number, false),
            Some((number, "compound")) => (number, true),
            Some((_, other)) => return Err(format!("“{other}” is no way to take a percentage: {how}")),
        };
        let percent: Decimal =
            number.trim().parse().map_err(|_| format!("“{number}” is no percentage: {how}"))?;
        let fits = percent >= Decimal::ZERO && percent <= Decimal::ONE_THOUSAND && percent.scale() <= 4;
        match (name.trim(), fits) {
            ("", _) => Err(format!("“{text}” has no name: {how}")),
            (_, false) => Err(format!("“{number}” is out of 0 to 1000 with four decimals: {how}")),
            (name, true) => Ok(Self { name: name.to_owned(), percent, compound }),
        }
    }
}

impl Percent {
    /// So much of an amount, to the cent.
    pub(super) fn of(&self, base: Decimal) -> Decimal {
        cents(base * self.percent / Decimal::ONE_HUNDRED)
    }
}

/// To the cent, half a cent up. Nothing here is below zero.
pub(super) fn cents(amount: Decimal) -> Decimal {
    let mut cents = amount.round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero);
    cents.rescale(2);
    cents
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_percentage_has_a_name_and_a_number() {
        let read = |text: &str| text.parse::<Percent>();
        let tax = read("sales tax=7.5:compound").unwrap();
        assert_eq!((tax.name.as_str(), tax.percent, tax.compound), ("sales tax", Decimal::new(75, 1), true));
        assert!(!read("overhead=10").unwrap().compound);
        for bad in ["overhead", "=10", "overhead=ten", "overhead=-1", "overhead=10:materials", "a=1001", "a="]
        {
            assert!(read(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn half_a_cent_goes_up() {
        for (amount, expected) in [(10_005, 1001), (10_004, 1000), (10_025, 1003), (0, 0)] {
            assert_eq!(cents(Decimal::new(amount, 3)), Decimal::new(expected, 2));
        }
    }
}
