//! Geometry, against published tables.

use super::{decimal, feet, in_twelve};
use eavesdraft::scope::takeoff::geometry::{hip, rafter, slope_area};

/// Inches of common rafter a foot of run, by the rise in twelve: the row of a framing square ("How To Make A Common
/// Rafter", instructables.com, step 4). NAVEDTRA 14044 and EN5156 print those of 6, 7, 12 and 13 as well.
const COMMON: [(i128, f64); 17] = [
    (2, 12.17),
    (3, 12.37),
    (4, 12.65),
    (5, 13.00),
    (6, 13.42),
    (7, 13.89),
    (8, 14.42),
    (9, 15.00),
    (10, 15.62),
    (11, 16.28),
    (12, 16.97),
    (13, 17.69),
    (14, 18.44),
    (15, 19.21),
    (16, 20.00),
    (17, 20.81),
    (18, 21.63),
];

/// Slope factor and hip-or-valley factor by the rise in twelve (JLC Field Guide, "Slope, Hip/Valley Conversion"). Its
/// 1.524 for the hip at 7 in 12 is a misprint, √(7² + 12² + 12²) ÷ 12 being 1.530, and is left out.
const FACTORS: [(i128, f64, Option<f64>); 9] = [
    (4, 1.054, Some(1.452)),
    (5, 1.083, Some(1.474)),
    (6, 1.118, Some(1.500)),
    (7, 1.157, None),
    (8, 1.202, Some(1.564)),
    (9, 1.250, Some(1.600)),
    (10, 1.302, Some(1.642)),
    (11, 1.356, Some(1.684)),
    (12, 1.414, Some(1.732)),
];

/// Over a run of a hundred feet a sixteenth of an inch is a hundredth of what the tables print.
const RUN: i128 = 100;

#[test]
fn common_rafters_are_those_of_the_framing_square() {
    for (rise, inches) in COMMON {
        let ours = decimal(rafter(feet(RUN), in_twelve(rise)).value().unwrap()) * 12.0 / RUN as f64;
        assert!((ours - inches).abs() <= 0.005 + 1e-3, "{rise} in 12: {ours}, printed {inches}");
    }
}

#[test]
fn slope_and_hip_factors_are_those_of_the_field_guide() {
    for (rise, slope, hipped) in FACTORS {
        let of = |length: eavesdraft::scope::takeoff::Formula| decimal(length.value().unwrap()) / RUN as f64;
        let ours = of(rafter(feet(RUN), in_twelve(rise)));
        assert!((ours - slope).abs() < 0.0015, "{rise} in 12: {ours}, printed {slope}");
        if let Some(printed) = hipped {
            let ours = of(hip(feet(RUN), in_twelve(rise)));
            assert!((ours - printed).abs() < 0.0015, "hip at {rise} in 12: {ours}, printed {printed}");
        }
    }
}

/// JLC, "Estimating With a Spreadsheet", figure 1: 1,820 sq ft on the flat at 6 in 12; the factor 1.118034 is printed,
/// the product 2,034.8 computed from it.
#[test]
fn an_area_on_the_flat_grows_by_the_slope() {
    let area = decimal(slope_area(feet(1820), in_twelve(6)).value().unwrap());
    assert!((area - 1820.0 * 1.118_034).abs() < 0.01, "{area}");
    assert!((area - 2034.8).abs() < 0.05, "{area}");
}

/// A hip roof has the area of the gable roof of its span, slope and length: Estimating in Building Construction, p. 181.
/// So the formula takes no hips.
#[test]
fn a_level_roof_is_as_large_as_what_it_covers() {
    assert_eq!(decimal(slope_area(feet(1200), in_twelve(0)).value().unwrap()), 1200.0);
}
