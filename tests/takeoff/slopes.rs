//! Slopes of roofs: told as they are said, and what follows from them, against published examples.

use super::{GRAMMAR, decimal, figure, taken_off, whole};
use eavesdraft::model::{Draft, Measured, Shape, Side, Slope, Typed};
use eavesdraft::scope::drafting::by_rules as draft;
use eavesdraft::scope::takeoff::{Takeoff, takeoff};
use eavesdraft::speech::Transcript;

fn drafted(said: &str) -> Draft {
    draft(&Transcript::from_plain(said), &GRAMMAR)
}

fn slopes(said: &str) -> Vec<(Side, f64)> {
    drafted(said).slopes.iter().map(|Slope { side, rise, .. }| (*side, rise.decimal())).collect()
}

/// The takeoff of what is said, with what somebody typed.
fn with_typed(said: &str, typed: &[(Side, Shape, [&str; 3])]) -> Takeoff {
    let measured = typed.iter().map(|(side, shape, [width, height, rise])| {
        let typed = |text: &str| {
            let typed = Typed { text: text.to_owned(), who: "Ann".into(), at: "2026-01-01T00:00:00Z".into() };
            (text != "-").then_some(typed)
        };
        let face = Measured::of("house", *side, *shape, 1);
        Measured { width: typed(width), height: typed(height), rise: typed(rise), ..face }
    });
    takeoff(&Draft { measured: measured.collect(), ..drafted(said) }, &GRAMMAR)
}

#[test]
fn a_slope_is_heard_in_the_words_that_roofers_use() {
    for said in [
        "The roof's a six twelve pitch.",
        "The roof is six in twelve.",
        "It's about a 6/12 pitch.",
        "It's a 6 in 12 roof.",
        "Six on twelve, all of it.",
        "The pitch is six twelve.",
        "The pitch looks like a six.",
        "It's a 612 pitch.",
        "It's a 6-12 pitch.",
        "It's six over twelve.",
        "The slope here is 6-12.",
        "The slope is 612.",
        "The roof is a 6-weld pitch.",
    ] {
        assert_eq!(slopes(said), [(Side::None, 6.0)], "{said}");
        assert!(drafted(said).lines.is_empty(), "{said}: {:?}", drafted(said).lines);
    }
}

#[test]
fn a_slope_is_of_the_side_whose_slope_is_spoken_of_and_the_last_word_stands() {
    assert_eq!(
        slopes("Front slope is a four twelve pitch, back slope's eight twelve pitch."),
        [(Side::Front, 4.0), (Side::Rear, 8.0)]
    );
    assert_eq!(slopes("It's a six twelve pitch, no wait, an eight twelve pitch."), [(Side::None, 8.0)]);
    assert_eq!(slopes("It's a six twelve pitch. Again, a six twelve pitch."), [(Side::None, 6.0)]);
}

#[test]
fn of_two_slopes_of_a_roof_none_is_chosen() {
    let said = "Left side. The gable is twenty six feet wide. The roof is a six twelve pitch. The porch is a three twelve pitch.";
    let takeoff = taken_off(said);
    assert_eq!(takeoff.lacking[0].measure, "height of the gable at its peak, or the slope of the roof");
    assert!(takeoff.figures.iter().all(|figure| figure.name != "gable"));
    let settled = with_typed(said, &[(Side::Left, Shape::Gable, ["-", "6' 6\"", "-"])]);
    assert_eq!(decimal(figure(&settled, "gable").value), 84.5);
}

#[test]
fn what_is_no_slope_gives_none() {
    for said in [
        "Twelve box vents, replace.",
        "Six windows. Twelve shutters, detach and reset.",
        "Gutter, twelve foot, pitch it and put up new.",
        "Six foot of fence, twelve posts.",
        "Pitch the old shutters, two pair.",
        "We'll be back in twelve days.",
        "The back slope is half gone, replace the shingles.",
        "Eight in twelve inch boards, replace.",
        "Two in twelve of them are cracked.",
        "The slope is forty along the eave and twelve up the rafter.",
    ] {
        assert_eq!(slopes(said), [], "{said}");
    }
}

/// Pitch as rise over span, with the rise in twelve of run that it is: US Army Engineer School EN5156, Table Method 2,
/// Fig. 3-13 and 3-14; of a quarter also JLC Field Guide, "Slope vs. Pitch".
#[test]
fn a_pitch_over_the_span_is_turned_into_a_rise_in_twelve() {
    let pitches = [("1/6", 4.0), ("1/4", 6.0), ("1/3", 8.0), ("1/2", 12.0), ("5/8", 15.0), ("3/4", 18.0)];
    let spoken = [("quarter", 6.0), ("half", 12.0), ("three quarter", 18.0)];
    for (pitch, rise) in pitches.into_iter().chain(spoken) {
        assert_eq!(slopes(&format!("It's a {pitch} pitch.")), [(Side::None, rise)], "{pitch}");
    }
}

/// What is said of a gable's width and of the slope gives the rake, as in worked examples of common rafters.
#[test]
fn a_rake_follows_from_the_width_and_the_slope() {
    let rake = |gable: &str, pitch: &str| {
        let takeoff =
            taken_off(&format!("Left side. The gable is {gable} wide. The roof is a {pitch} pitch."));
        figure(&takeoff, "rake").value
    };
    // NAVEDTRA 14044, Example 1: 7 in rise, 16 ft span: 9 ft 3 1/8 in.
    assert_eq!(rake("sixteen feet", "seven twelve"), whole(9) + eavesdraft::model::Exact::new(50, 192));
    // Carpentry (1916), Appendix IV: 12 in rise, 25 ft span: 17 ft 8 1/8 in.
    assert_eq!(
        rake("twenty five feet", "twelve twelve"),
        whole(17) + eavesdraft::model::Exact::new(130, 192)
    );
    // Carpentry (1916), Fig. 49: 6 in rise, 25 ft span: 13.98 ft, by a table of hundredths of an inch; ours is on the tape's
    // sixteenth below.
    assert!((decimal(rake("twenty five feet", "six twelve")) - 13.98).abs() < 0.01);
    // US Army Engineer School EN0069, Fig. 2-17: 13 in rise, 20 ft 8 in wide: 182.79 in, by the same table.
    let inches = decimal(rake("twenty foot eight inches", "thirteen twelve")) * 12.0;
    assert!((inches - 182.79).abs() < 0.1, "{inches}");
}

/// A gable 24 ft wide and 5 ft high has rakes of 13 ft, by 5, 12 and 13 (Euclid I.47). That channel runs up both is common
/// practice, no source.
#[test]
fn channel_runs_up_both_rakes_of_every_gable() {
    let takeoff = taken_off(
        "Left side. The gable is twenty four wide and five at the peak. Right side. The gable is twenty four wide and five at the peak.",
    );
    let channel = figure(&takeoff, "channel at gables");
    assert_eq!(channel.value, whole(52));
    assert_eq!(figure(&takeoff, "channel at gables, pieces").value, whole(5));
}

#[test]
fn a_gable_of_known_slope_has_its_area_and_tells_how() {
    let takeoff = taken_off("Left side. The gable is twenty six feet wide. The roof is a six twelve pitch.");
    let height = figure(&takeoff, "height of the gable");
    assert_eq!((decimal(height.value), height.formula.text()), (6.5, "26' ÷ 2 × 6 in 12 ÷ 12".to_owned()));
    assert_eq!(height.rule.as_deref(), Some("half the width at the slope of the roof"));
    assert_eq!(decimal(figure(&takeoff, "gable").value), 84.5);
    let lacking = taken_off("Left side. The gable is twenty six feet wide.").lacking;
    assert_eq!(lacking[0].measure, "height of the gable at its peak, or the slope of the roof");
}

/// JLC, "Estimating With a Spreadsheet", Fig. 1: 1,820 sq ft on the flat at 6 in 12, by √180 ÷ 12; the product is
/// computed.
#[test]
fn the_roof_over_the_walls_follows_from_the_slope_and_is_told_apart_from_shingles() {
    let takeoff = taken_off(
        "Front elevation. The wall is fifty two by nine. Right side. The wall is thirty five by nine. The roof is a six \
         twelve pitch. Shingles, remove and replace.",
    );
    let over = figure(&takeoff, "roof over the walls alone, without eaves and rakes");
    assert!((decimal(over.value) - 2034.8).abs() < 0.05, "{over:?}");
    assert!(takeoff.figures.iter().all(|figure| !figure.name.starts_with("shingles")));
    assert_eq!(takeoff.lacking[0].measure, "length of each slope, along the eave and up the rafter");
}

#[test]
fn typed_measures_reach_dormers_hips_and_slopes() {
    let takeoff = with_typed(
        "Front elevation. The roof is a twelve twelve pitch. Two valleys, replace.",
        &[
            (Side::Rear, Shape::DormerSides, ["4", "6 ft", "-"]),
            (Side::Front, Shape::HipOrValley, ["12' 6\"", "-", "-"]),
            (Side::Front, Shape::RoofSlope, ["40", "20' 6\"", "-"]),
        ],
    );
    // A lumber yard's siding guide, p. 70: dormer sides of 4 by 6 ft, 24 sq ft both.
    assert_eq!(figure(&takeoff, "dormer sides").value, whole(24));
    // Carpentry (1916), Appendix IV §4c: 12.5 × 20.78 in; the product of the rounded factor, 21 ft 7 3/4 in, is computed.
    let hip = figure(&takeoff, "hip or valley");
    assert!((decimal(hip.value) - (21.0 + 7.75 / 12.0)).abs() < 1.0 / 192.0 + 0.001, "{hip:?}");
    assert_eq!(decimal(figure(&takeoff, "roof slope").value), 820.0);
    // √(12² + 12²) and √(12² + 12² + 12²) inches: 16.97 and 20.78 on a framing square.
    assert!((decimal(figure(&takeoff, "rafter for one foot of run").value) * 12.0 - 16.97).abs() < 0.04);
    assert!(
        (decimal(figure(&takeoff, "hip or valley for one foot of run").value) * 12.0 - 20.78).abs() < 0.04
    );
}

#[test]
fn what_is_typed_stands_over_what_was_said_and_may_take_it_away() {
    let said = "Front elevation. The wall is forty by nine.";
    let wall = |typed: [&str; 3]| {
        let takeoff = with_typed(said, &[(Side::Front, Shape::Wall, typed)]);
        takeoff.figures.iter().find(|figure| figure.name == "wall").map(|wall| wall.formula.text())
    };
    assert_eq!(wall(["-", "-", "-"]).as_deref(), Some("40' × 9'"));
    assert_eq!(wall(["41' 6\"", "-", "-"]).as_deref(), Some("41' 6\" × 9'"));
    assert_eq!(wall(["", "-", "-"]), None);
}
