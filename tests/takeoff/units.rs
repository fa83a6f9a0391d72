//! How lengths are told, and how roots are rounded.

use super::whole;
use eavesdraft::model::Exact;
use eavesdraft::model::unit::SIXTEENTHS;
use eavesdraft::scope::takeoff::{Measure, told};

#[test]
fn a_sixteenth_is_the_finest_mark_of_a_tape() {
    assert_eq!(SIXTEENTHS, 192);
    let told: Vec<String> = [
        Exact::new(11_112, 1_200),
        whole(26),
        Exact::new(13, 2),
        Exact::new(1, 192),
        Exact::new(1, 4),
        Exact::new(83, 10),
    ]
    .map(|feet| told(feet, Measure::Foot))
    .into();
    assert_eq!(told, ["9.26 ft", "26'", "6' 6\"", "1/16\"", "3\"", "8.3 ft"]);
    let eighth = Exact::new(9 * 192 + 3 * 16 + 2, 192);
    assert_eq!(eavesdraft::scope::takeoff::told(eighth, Measure::Foot), "9' 3 1/8\"");
}

/// NAVEDTRA 14044 (Builder): half a sixteenth and more rounds up.
#[test]
fn roots_round_half_a_grain_up() {
    let just =
        |sixteenths: Exact| (sixteenths * sixteenths / (SIXTEENTHS * SIXTEENTHS)).root(SIXTEENTHS).unwrap();
    assert_eq!(just(Exact::new(5, 2)), Exact::new(3, SIXTEENTHS));
    assert_eq!(just(Exact::new(249, 100)), Exact::new(2, SIXTEENTHS));
    assert_eq!(whole(2).root(100), Some(Exact::new(141, 100)));
}
