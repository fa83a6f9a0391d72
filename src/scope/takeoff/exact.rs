//! Exact lengths and areas: feet and square feet as fractions, never floats.
//!
//! The constants are exact by definition: NIST Handbook 44, Appendix C.

use num_rational::Ratio;

/// An exact number of feet, square feet or pieces.
pub type Exact = Ratio<i128>;

/// Inches in a foot.
pub const INCHES: i128 = 12;

/// The finest mark of a tape, in parts of a foot: a sixteenth of an inch.
pub const SIXTEENTHS: i128 = 16 * INCHES;

/// Square feet in a square of roof or wall.
pub const SQUARE: i128 = 100;

/// Parts of a square foot to which an area is rounded where a root makes it endless.
pub const HUNDREDTHS: i128 = 100;

/// A whole number.
pub const fn whole(number: i128) -> Exact {
    Exact::new_raw(number, 1)
}

/// The exact number that a decimal of a draft stands for. Drafts round to thousandths: what has three decimals and is
/// a thousandth's half off a sixteenth of an inch at most was told in feet and inches, and is taken so.
pub fn of_decimal(decimal: f64) -> Exact {
    let thousandths = (decimal * 1000.0).round() as i128;
    let told = Exact::new(thousandths, 1000);
    let on_tape = (told * SIXTEENTHS).round() / SIXTEENTHS;
    let gap = if on_tape > told { on_tape - told } else { told - on_tape };
    if thousandths % 10 != 0 && gap <= Exact::new(1, 2000) { on_tape } else { told }
}

/// As a decimal with three places at most, for output.
pub fn decimal(exact: Exact) -> f64 {
    let thousandths = (exact * 1000).round().to_integer();
    thousandths as f64 / 1000.0
}

/// The square root, rounded half up to parts of one: `grain` of them. None of a number below zero.
pub fn root(square: Exact, grain: i128) -> Option<Exact> {
    let parts = square * grain * grain;
    if parts < whole(0) {
        return None;
    }
    // The nearest whole number to √q is half of what ⌊√4q⌋ + 1 is, rounded down.
    let doubled = (parts * 4).to_integer().isqrt();
    Some(Exact::new((doubled + 1) / 2, grain))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_decimal_of_a_draft_is_taken_as_a_tape_shows_it() {
        assert_eq!(of_decimal(8.333), Exact::new(100, 12));
        assert_eq!(of_decimal(6.667), Exact::new(80, 12));
        assert_eq!(of_decimal(6.5), Exact::new(13, 2));
        assert_eq!(of_decimal(8.3), Exact::new(83, 10));
        assert_eq!(of_decimal(13.98), Exact::new(1398, 100));
        assert_eq!(of_decimal(14.0), whole(14));
    }

    #[test]
    fn every_sixteenth_of_a_tape_comes_back_from_a_draft() {
        for sixteenths in 0..SIXTEENTHS {
            let exact = whole(9) + Exact::new(sixteenths, SIXTEENTHS);
            let again = of_decimal(decimal(exact));
            let gap = if again > exact { again - exact } else { exact - again };
            assert!(gap <= Exact::new(1, 2000), "{exact} came back as {again}");
        }
    }

    #[test]
    fn roots_are_rounded_half_up() {
        assert_eq!(root(whole(144), 1), Some(whole(12)));
        assert_eq!(root(whole(2), 10), Some(Exact::new(14, 10)));
        assert_eq!(root(Exact::new(9, 4), 1), Some(whole(2)));
        assert_eq!(root(Exact::new(1, 4), 1), Some(whole(1)));
        assert_eq!(root(whole(0), 192), Some(whole(0)));
        assert_eq!(root(whole(-1), 192), None);
    }
}
