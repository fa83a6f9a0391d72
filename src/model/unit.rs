//! Units: what each of them counts, which of them measure the same, and what one is in the other, exactly.
//!
//! Lengths and areas are those of NIST Handbook 44, Appendix C, General Tables of Units of Measurement.

use super::Exact;
use serde::{Deserialize, Serialize};

/// Inches in a foot.
pub const INCHES: i128 = 12;

/// Sixteenths of an inch, the finest marks of a tape, in a foot.
pub const SIXTEENTHS: i128 = 16 * INCHES;

/// Square feet in a square of roof or wall.
pub const SQUARE: i128 = 100;

/// What a quantity counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Pieces.
    Each,
    /// Running feet.
    Foot,
    /// Square feet.
    SquareFoot,
    /// A hundred square feet of roof or wall.
    Square,
    /// Two that belong together.
    Pair,
    /// A set.
    Set,
    /// A roll.
    Roll,
    /// A sheet.
    Sheet,
    /// A bundle.
    Bundle,
    /// A box or carton.
    Box,
    /// Inches.
    Inch,
    /// Yards.
    Yard,
}

/// What a unit measures. Only units that measure the same are ever turned into each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum UnitKind {
    /// Inches, feet, yards.
    Length,
    /// Square feet, squares.
    Area,
    /// Pieces, pairs.
    Count,
    /// Sets, rolls, sheets, bundles and boxes are each only what they are: how much is in one differs.
    Only(Unit),
}

impl UnitKind {
    /// The plainest unit of the kind: feet, square feet, pieces.
    pub fn plainest(self) -> Unit {
        match self {
            Self::Length => Unit::Foot,
            Self::Area => Unit::SquareFoot,
            Self::Count => Unit::Each,
            Self::Only(unit) => unit,
        }
    }
}

impl Unit {
    /// Its word or short form, beside one or beside more.
    pub fn word(self, one: bool) -> &'static str {
        match (self, one) {
            (Self::Each, _) => "each",
            (Self::Foot, _) => "ft",
            (Self::SquareFoot, _) => "sq ft",
            (Self::Inch, _) => "in",
            (Self::Yard, _) => "yd",
            (Self::Square, true) => "square",
            (Self::Square, false) => "squares",
            (Self::Pair, true) => "pair",
            (Self::Pair, false) => "pairs",
            (Self::Set, true) => "set",
            (Self::Set, false) => "sets",
            (Self::Roll, true) => "roll",
            (Self::Roll, false) => "rolls",
            (Self::Sheet, true) => "sheet",
            (Self::Sheet, false) => "sheets",
            (Self::Bundle, true) => "bundle",
            (Self::Bundle, false) => "bundles",
            (Self::Box, true) => "box",
            (Self::Box, false) => "boxes",
        }
    }

    /// What it measures.
    pub fn kind(self) -> UnitKind {
        match self {
            Self::Inch | Self::Foot | Self::Yard => UnitKind::Length,
            Self::SquareFoot | Self::Square => UnitKind::Area,
            Self::Each | Self::Pair => UnitKind::Count,
            Self::Set | Self::Roll | Self::Sheet | Self::Bundle | Self::Box => UnitKind::Only(self),
        }
    }

    /// How many of the plainest unit of its kind one of it is.
    pub fn plain(self) -> Exact {
        match self {
            Self::Inch => Exact::new(1, INCHES),
            Self::Yard => Exact::from_integer(3),
            Self::Square => Exact::from_integer(SQUARE),
            Self::Pair => Exact::from_integer(2),
            _ => Exact::ONE,
        }
    }

    /// How many of `other` one of it is; none where they measure different things.
    pub fn in_unit(self, other: Self) -> Option<Exact> {
        (self.kind() == other.kind()).then(|| self.plain() / other.plain())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST Handbook 44, Appendix C, Units of Length and Units of Area: 12 inches = 1 foot, 3 feet = 1 yard, 1 square
    /// (building) = 100 square feet. A pair is two: common practice, no source.
    #[test]
    fn units_are_turned_into_each_other_as_published() {
        let published = [
            (12, Unit::Inch, Exact::ONE, Unit::Foot),
            (1, Unit::Yard, Exact::from_integer(3), Unit::Foot),
            (1, Unit::Yard, Exact::from_integer(36), Unit::Inch),
            (1, Unit::Inch, Exact::new(1, 36), Unit::Yard),
            (1, Unit::Square, Exact::from_integer(100), Unit::SquareFoot),
            (250, Unit::SquareFoot, Exact::new(5, 2), Unit::Square),
            (3, Unit::Pair, Exact::from_integer(6), Unit::Each),
            (1, Unit::Roll, Exact::ONE, Unit::Roll),
        ];
        for (amount, from, expected, to) in published {
            assert_eq!(from.in_unit(to).map(|one| one * amount), Some(expected), "{from:?} to {to:?}");
            assert_eq!(to.in_unit(from).map(|one| expected * one), Some(amount.into()), "{to:?} to {from:?}");
        }
    }

    /// NIST Handbook 44, Appendix C, Units of Area: 144 square inches = 1 square foot, 9 square feet = 1 square yard,
    /// 1296 square inches = 1 square yard. No unit of ours, but their sides are.
    #[test]
    fn squares_of_lengths_are_areas_as_published() {
        let in_unit = |from: Unit, to| from.in_unit(to).unwrap();
        let squared = |from, to| in_unit(from, to) * in_unit(from, to);
        assert_eq!(squared(Unit::Foot, Unit::Inch), Exact::from_integer(144));
        assert_eq!(squared(Unit::Yard, Unit::Foot), Exact::from_integer(9));
        assert_eq!(squared(Unit::Yard, Unit::Inch), Exact::from_integer(1296));
    }

    /// NIST Handbook 44, Appendix C: 1 square foot = 929.0304 square centimeters, exactly, with 1 inch = 25.4 mm.
    #[test]
    fn feet_are_exact_in_meters() {
        let foot_in_centimeters = Exact::new(254, 100) * INCHES;
        assert_eq!(foot_in_centimeters * foot_in_centimeters, Exact::new(9_290_304, 10_000));
    }

    #[test]
    fn what_comes_in_no_fixed_size_is_never_converted() {
        let wares = [Unit::Set, Unit::Roll, Unit::Sheet, Unit::Bundle, Unit::Box];
        for ware in wares {
            for other in [Unit::Each, Unit::Foot, Unit::SquareFoot, Unit::Square] {
                assert_eq!((ware.in_unit(other), other.in_unit(ware)), (None, None));
            }
            assert_eq!(wares.iter().filter(|other| ware.in_unit(**other).is_some()).count(), 1);
        }
        assert_eq!(Unit::Foot.in_unit(Unit::SquareFoot), None);
    }

    #[test]
    fn the_plainest_unit_of_a_kind_is_one_of_itself() {
        for unit in [Unit::Inch, Unit::Foot, Unit::Square, Unit::Pair, Unit::Roll] {
            let plainest = unit.kind().plainest();
            assert_eq!((plainest.kind(), plainest.plain()), (unit.kind(), Exact::ONE));
        }
    }
}
