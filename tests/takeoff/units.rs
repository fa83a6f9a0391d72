//! Units, against NIST Handbook 44 (2026), Appendix C.

use eavesdraft::scope::takeoff::exact::{
    HUNDREDTHS, INCHES, SIXTEENTHS, SQUARE, decimal, of_decimal, root, whole,
};
use eavesdraft::scope::takeoff::{Exact, Measure, told};

/// NIST Handbook 44, Appendix C: 1 square (building) = 100 sq ft; 1 sq ft = 144 sq in, exactly; 1 sq yd = 9 sq ft =
/// 1296 sq in, exactly.
#[test]
fn areas_are_those_of_the_handbook() {
    assert_eq!(SQUARE, 100);
    assert_eq!(INCHES * INCHES, 144);
    let yard = whole(3);
    assert_eq!(yard * yard, whole(9));
    assert_eq!(yard * yard * (INCHES * INCHES), whole(1296));
}

/// NIST Handbook 44, Appendix C: 1 sq ft = 929.0304 sq cm, exactly, with 1 in = 25.4 mm.
#[test]
fn feet_are_exact_in_metres() {
    let inch = Exact::new(254, 100);
    assert_eq!(inch * INCHES * inch * INCHES, Exact::new(9_290_304, 10_000));
}

#[test]
fn a_sixteenth_is_the_finest_mark_of_a_tape() {
    assert_eq!(SIXTEENTHS, 192);
    let told: Vec<String> = [
        Exact::new(11_112, 1_200) + Exact::new(0, 1),
        whole(26),
        Exact::new(13, 2),
        Exact::new(1, 192),
        Exact::new(1, 4),
        Exact::new(83, 10),
    ]
    .map(|feet| told(feet, Measure::Foot))
    .into();
    assert_eq!(told, ["9.26 ft", "26 ft", "6 ft 6 in", "1/16 in", "3 in", "8.3 ft"]);
    let eighth = Exact::new(9 * 192 + 3 * 16 + 2, 192);
    assert_eq!(eavesdraft::scope::takeoff::told(eighth, Measure::Foot), "9 ft 3 1/8 in");
}

#[test]
fn what_a_draft_rounds_to_thousandths_is_taken_back_exactly() {
    for inches in 0..=240 {
        let exact = Exact::new(inches, INCHES);
        assert_eq!(of_decimal(decimal(exact)), exact, "{inches} in");
    }
}

/// NAVEDTRA 14044 (Builder): half a sixteenth and more rounds up.
#[test]
fn roots_round_half_a_grain_up() {
    let just =
        |sixteenths: Exact| root(sixteenths * sixteenths / (SIXTEENTHS * SIXTEENTHS), SIXTEENTHS).unwrap();
    assert_eq!(just(Exact::new(5, 2)), Exact::new(3, SIXTEENTHS));
    assert_eq!(just(Exact::new(249, 100)), Exact::new(2, SIXTEENTHS));
    assert_eq!(root(whole(2), HUNDREDTHS), Some(Exact::new(141, 100)));
}
