//! Units: which of them measure the same, and what one is in the other, exactly.

use crate::model::Unit;
use num_rational::Ratio;

/// An exact number, wide enough for sums of whatever a list holds.
pub(super) type Exact = Ratio<i128>;

/// What a unit measures. Only what measures the same is ever converted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Measure {
    /// Inches, feet, yards.
    Length,
    /// Square feet, squares.
    Area,
    /// Pieces, pairs.
    Count,
    /// Sets, rolls, sheets, bundles and boxes are each only what they are: how much is in one differs.
    Only(Unit),
}

impl Measure {
    /// What a unit measures.
    pub fn of(unit: Unit) -> Self {
        match unit {
            Unit::Inch | Unit::Foot | Unit::Yard => Self::Length,
            Unit::SquareFoot | Unit::Square => Self::Area,
            Unit::Each | Unit::Pair => Self::Count,
            Unit::Set | Unit::Roll | Unit::Sheet | Unit::Bundle | Unit::Box => Self::Only(unit),
        }
    }
}

/// How many feet, square feet or pieces one of a unit is.
pub(super) fn plain(unit: Unit) -> Exact {
    match unit {
        Unit::Inch => Exact::new(1, 12),
        Unit::Yard => Exact::from_integer(3),
        Unit::Square => Exact::from_integer(100),
        Unit::Pair => Exact::from_integer(2),
        _ => Exact::from_integer(1),
    }
}

/// A number of a draft, exactly as it is shown: drafts keep three decimals.
pub(super) fn exact(number: f64) -> Option<Exact> {
    /// More than any list of work holds.
    const MOST: f64 = 1e9;
    const DECIMALS: f64 = 1e4;
    (number.is_finite() && number.abs() <= MOST)
        .then(|| Exact::new((number * DECIMALS).round() as i128, DECIMALS as i128))
}

/// As a decimal for output.
pub(super) fn decimal(exact: Exact) -> f64 {
    let value = *exact.numer() as f64 / *exact.denom() as f64;
    (value * 1000.0).round() / 1000.0
}

/// Whether two amounts are one: drafts and lists round, so a hundredth is no difference.
pub(super) fn same(a: Exact, b: Exact) -> bool {
    let apart = if a < b { b - a } else { a - b };
    apart <= Exact::new(1, 100)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn converted(amount: i128, from: Unit, to: Unit) -> Exact {
        assert_eq!(Measure::of(from), Measure::of(to));
        Exact::from_integer(amount) * plain(from) / plain(to)
    }

    /// NIST Handbook 44, Appendix C, General Tables of Units of Measurement: 12 inches = 1 foot, 3 feet = 1 yard.
    #[test]
    fn lengths_are_converted_as_published() {
        assert_eq!(converted(12, Unit::Inch, Unit::Foot), Exact::from_integer(1));
        assert_eq!(converted(1, Unit::Yard, Unit::Foot), Exact::from_integer(3));
        assert_eq!(converted(1, Unit::Yard, Unit::Inch), Exact::from_integer(36));
    }

    /// NIST Handbook 44, Appendix C: 1 square = 100 square feet.
    #[test]
    fn a_square_is_a_hundred_square_feet() {
        assert_eq!(converted(1, Unit::Square, Unit::SquareFoot), Exact::from_integer(100));
        assert_eq!(converted(250, Unit::SquareFoot, Unit::Square), Exact::new(5, 2));
    }

    /// NIST Handbook 44, Appendix C: 9 square feet = 1 square yard. Lists spell it; drafts have no such unit.
    #[test]
    fn a_square_yard_of_a_list_is_nine_square_feet() {
        let grammar = crate::language::rules::Grammar::built_in().unwrap();
        let listed = grammar.lists.unit("SY").unwrap();
        assert_eq!((listed.unit, listed.times), (Unit::SquareFoot, 9));
    }

    /// Common practice, no source.
    #[test]
    fn a_pair_is_two() {
        assert_eq!(converted(3, Unit::Pair, Unit::Each), Exact::from_integer(6));
    }

    #[test]
    fn what_comes_in_no_fixed_size_is_never_converted() {
        let wares = [Unit::Set, Unit::Roll, Unit::Sheet, Unit::Bundle, Unit::Box];
        for ware in wares {
            for other in [Unit::Each, Unit::Foot, Unit::SquareFoot, Unit::Square] {
                assert_ne!(Measure::of(ware), Measure::of(other));
            }
            assert_eq!(wares.iter().filter(|w| Measure::of(**w) == Measure::of(ware)).count(), 1);
        }
    }

    #[test]
    fn rounded_thirds_are_the_same_and_tenths_are_not() {
        let third = Exact::new(25, 3);
        assert!(same(third, exact(8.333).unwrap()) && same(exact(8.33).unwrap(), third));
        assert!(!same(exact(8.3).unwrap(), third));
    }
}
