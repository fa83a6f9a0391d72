//! Exact numbers: fractions, never floats. How much of a thing there is, how long it is and how steep stay exact from the
//! words to the paper; a decimal is made only where one is written.

use num_rational::Ratio;
use std::fmt;
use std::iter::{Product, Sum};
use std::ops::{Add, AddAssign, Div, Mul, Neg, Rem, Sub};
use std::str::FromStr;

/// An exact number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Exact(Ratio<i128>);

/// A decimal is written with as many thousandths as come nearest.
const THOUSANDTHS: i128 = 1000;

/// The finest mark of a tape, in parts of a foot: a sixteenth of an inch.
const TAPE_MARKS: i128 = 16 * 12;

impl Exact {
    /// Nothing.
    pub const ZERO: Self = Self(Ratio::new_raw(0, 1));

    /// One.
    pub const ONE: Self = Self(Ratio::new_raw(1, 1));

    /// A fraction. The denominator is never zero.
    pub fn new(numerator: impl Into<i128>, denominator: impl Into<i128>) -> Self {
        Self(Ratio::new(numerator.into(), denominator.into()))
    }

    /// A whole number.
    pub fn from_integer(number: impl Into<i128>) -> Self {
        Self(Ratio::from_integer(number.into()))
    }

    /// Whether it is a whole number.
    pub fn is_integer(self) -> bool {
        self.0.is_integer()
    }

    /// Its whole part.
    pub fn to_integer(self) -> i128 {
        self.0.to_integer()
    }

    /// What stands above the line of the fraction.
    pub fn numer(self) -> i128 {
        *self.0.numer()
    }

    /// What stands below it.
    pub fn denom(self) -> i128 {
        *self.0.denom()
    }

    /// Without what comes after the point.
    pub fn trunc(self) -> Self {
        Self(self.0.trunc())
    }

    /// Down to a whole number.
    pub fn floor(self) -> Self {
        Self(self.0.floor())
    }

    /// Up to a whole number.
    pub fn ceil(self) -> Self {
        Self(self.0.ceil())
    }

    /// To the nearest whole number, a half away from zero.
    pub fn round(self) -> Self {
        Self(self.0.round())
    }

    /// One divided by it; it is never zero.
    pub fn recip(self) -> Self {
        Self(self.0.recip())
    }

    /// Without its sign.
    pub fn abs(self) -> Self {
        if self < Self::ZERO { -self } else { self }
    }

    /// The square root, rounded half up to parts of one: `grain` of them. None of a number below zero.
    pub fn root(self, grain: i128) -> Option<Self> {
        let parts = self * grain * grain;
        if parts < Self::ZERO {
            return None;
        }
        // The nearest whole number to √q is half of what ⌊√4q⌋ + 1 is, rounded down.
        let doubled = (parts * 4).to_integer().isqrt();
        Some(Self::new((doubled + 1) / 2, grain))
    }

    /// As other programs get it: a decimal with three places at most.
    pub fn decimal(self) -> f64 {
        (self * THOUSANDTHS).round().to_integer() as f64 / THOUSANDTHS as f64
    }

    /// The binary number next to it, for a spreadsheet.
    pub fn binary(self) -> f64 {
        self.numer() as f64 / self.denom() as f64
    }

    /// As a person reads it: a decimal with two places at most, half a hundredth up.
    pub fn text(self) -> String {
        let hundredths = (self * 100).round().to_integer();
        let sign = if hundredths < 0 { "-" } else { "" };
        let text = format!("{sign}{}.{:02}", hundredths.abs() / 100, hundredths.abs() % 100);
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    }

    /// What a decimal of a draft stands for where no fraction stands beside it. Drafts round to thousandths: what has
    /// three places and is at most half a thousandth off a sixteenth of an inch was told in feet and inches.
    pub fn of_decimal(decimal: f64) -> Self {
        let thousandths = (decimal * THOUSANDTHS as f64).round() as i128;
        let told = Self::new(thousandths, THOUSANDTHS);
        let on_tape = (told * TAPE_MARKS).round() / TAPE_MARKS;
        let near = (on_tape - told).abs() <= Self::new(1, 2 * THOUSANDTHS);
        if thousandths % 10 != 0 && near { on_tape } else { told }
    }
}

/// As a fraction: `25/3`; a whole number without a line: `8`.
impl fmt::Display for Exact {
    fn fmt(&self, to: &mut fmt::Formatter) -> fmt::Result {
        self.0.fmt(to)
    }
}

/// Reads what [`Display`](fmt::Display) writes.
impl FromStr for Exact {
    type Err = num_rational::ParseRatioError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        text.parse().map(Self)
    }
}

/// With another exact number, or with a whole one of any kind.
macro_rules! operate {
    ($($operator:ident $method:ident),*) => { $(
        impl<N: Into<Exact>> $operator<N> for Exact {
            type Output = Self;

            fn $method(self, other: N) -> Self {
                Self(self.0.$method(other.into().0))
            }
        }
    )* };
}

operate!(Add add, Sub sub, Mul mul, Div div, Rem rem);

macro_rules! from_whole {
    ($($whole:ty)*) => { $(
        impl From<$whole> for Exact {
            fn from(whole: $whole) -> Self {
                Self::from_integer(whole)
            }
        }
    )* };
}

from_whole!(u8 u16 i32 u32 i64 u64 i128);

impl AddAssign for Exact {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Neg for Exact {
    type Output = Self;

    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Sum for Exact {
    fn sum<I: Iterator<Item = Self>>(numbers: I) -> Self {
        numbers.fold(Self::ZERO, Add::add)
    }
}

impl<'a> Sum<&'a Exact> for Exact {
    fn sum<I: Iterator<Item = &'a Self>>(numbers: I) -> Self {
        numbers.copied().sum()
    }
}

impl Product for Exact {
    fn product<I: Iterator<Item = Self>>(numbers: I) -> Self {
        numbers.fold(Self::ONE, Mul::mul)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_decimal_of_a_draft_is_taken_as_a_tape_shows_it() {
        assert_eq!(Exact::of_decimal(8.333), Exact::new(100, 12));
        assert_eq!(Exact::of_decimal(6.667), Exact::new(80, 12));
        assert_eq!(Exact::of_decimal(6.5), Exact::new(13, 2));
        assert_eq!(Exact::of_decimal(8.3), Exact::new(83, 10));
        assert_eq!(Exact::of_decimal(13.98), Exact::new(1398, 100));
        assert_eq!(Exact::of_decimal(14.0), Exact::from_integer(14));
    }

    #[test]
    fn every_inch_of_a_tape_comes_back_from_a_draft() {
        for inches in 0..=240 {
            let exact = Exact::new(inches, 12);
            assert_eq!(Exact::of_decimal(exact.decimal()), exact, "{inches} in");
        }
    }

    #[test]
    fn roots_are_rounded_half_up() {
        let root = |number: i32, grain| Exact::from_integer(number).root(grain);
        assert_eq!(root(144, 1), Some(Exact::from_integer(12)));
        assert_eq!(root(2, 10), Some(Exact::new(14, 10)));
        assert_eq!(Exact::new(9, 4).root(1), Some(Exact::from_integer(2)));
        assert_eq!(Exact::new(1, 4).root(1), Some(Exact::ONE));
        assert_eq!(root(0, 192), Some(Exact::ZERO));
        assert_eq!(root(-1, 192), None);
    }

    #[test]
    fn people_read_two_decimals_and_no_idle_zero() {
        let numbers = [
            (Exact::from_integer(14), "14"),
            (Exact::new(13, 2), "6.5"),
            (Exact::new(25, 3), "8.33"),
            (Exact::from_integer(100), "100"),
            (Exact::ZERO, "0"),
            (Exact::new(201, 200), "1.01"),
            (Exact::new(-1, 4), "-0.25"),
            (Exact::new(-1, 1000), "0"),
        ];
        for (exact, shown) in numbers {
            assert_eq!(exact.text(), shown);
        }
    }

    #[test]
    fn a_fraction_is_read_as_it_is_written() {
        for exact in [Exact::new(25, 3), Exact::from_integer(8), Exact::new(-1, 192)] {
            assert_eq!(exact.to_string().parse(), Ok(exact));
        }
        assert!("1/0".parse::<Exact>().is_err());
        assert!("8.3".parse::<Exact>().is_err());
    }
}
