//! From what is said to figures, and to what is lacking.

use super::{decimal, figure, taken_off, whole};
use eavesdraft::scope::takeoff::{Origin, Takeoff};

fn lacking(takeoff: &Takeoff) -> Vec<String> {
    takeoff.lacking.iter().map(|lacking| format!("{:?}: {}", lacking.side, lacking.measure)).collect()
}

#[test]
fn walls_less_openings_with_waste_apart() {
    let takeoff = taken_off(
        "Front elevation. The wall is forty by nine. Vinyl siding, remove and replace. One nine by seven garage door, \
         detach and reset. Right side. The wall is twenty six feet wide and nine feet high, and the gable is twenty six \
         wide and eight at the peak. Vinyl siding, remove and replace.",
    );
    let value = |name| decimal(figure(&takeoff, name).value);
    assert_eq!(value("openings"), 63.0);
    assert_eq!(value("net wall area"), 40.0 * 9.0 - 63.0);
    assert_eq!(value("wall area"), 26.0 * 9.0 + 26.0 * 8.0 / 2.0);
    assert_eq!(value("siding"), 6.35);
    assert_eq!(value("siding, waste"), 0.635);
    assert_eq!(value("siding with waste"), 6.985);
    assert_eq!(figure(&takeoff, "openings").formula.text(), "9' × 7'");
    let waste = figure(&takeoff, "siding, waste");
    assert!(waste.rule.as_ref().unwrap().starts_with("siding waste, percent: "));
}

#[test]
fn every_input_tells_the_words_it_came_from() {
    let takeoff =
        taken_off("Rear elevation. The wall is forty two feet wide and eight foot four inches high.");
    let wall = figure(&takeoff, "wall");
    assert_eq!(wall.value, whole(350));
    assert_eq!(wall.formula.text(), "42' × 8' 4\"");
    for input in wall.formula.inputs() {
        let Origin::Said { quote, .. } = &input.origin else { panic!("{input:?}") };
        assert!(quote.contains("forty two"), "{quote}");
    }
}

#[test]
fn a_height_for_all_around_is_every_walls() {
    let takeoff = taken_off(
        "The walls are nine foot high all around. Front elevation. The wall is forty feet wide. Rear elevation. The wall \
         is forty feet wide.",
    );
    let walls: Vec<f64> =
        takeoff.figures.iter().filter(|f| f.name == "wall").map(|f| decimal(f.value)).collect();
    assert_eq!(walls, [360.0, 360.0]);
}

#[test]
fn what_lacks_is_told_and_not_guessed() {
    let takeoff = taken_off(
        "Front elevation. Siding, remove and replace. Gutter, remove and replace. Rear elevation. The wall is forty feet \
         wide. Siding, remove and replace. Two windows.",
    );
    assert_eq!(
        lacking(&takeoff),
        ["Front: width and height of the wall", "Rear: height of the wall", "Front: length of the gutter"]
    );
    assert!(takeoff.figures.iter().all(|figure| figure.value > whole(0)));
}

#[test]
fn fences_have_faces_and_posts() {
    let takeoff = taken_off(
        "Rear elevation. Fifty feet of six foot wood fence, stain it. Left side. Ninety six feet of four foot chain link \
         fence, remove and replace.",
    );
    assert_eq!(decimal(figure(&takeoff, "wood fence, one face").value), 300.0);
    assert_eq!(decimal(figure(&takeoff, "wood fence, both faces").value), 600.0);
    assert_eq!(figure(&takeoff, "chain link fence, posts").value, whole(11));
}

#[test]
fn gutters_add_up_and_come_in_sections() {
    let takeoff = taken_off(
        "Front elevation. Forty two feet of gutter, remove and replace. Rear elevation. Thirty feet of gutter, remove and \
         replace. Left side. Twenty feet of gutter, detach and reset.",
    );
    assert_eq!(figure(&takeoff, "gutter, new").value, whole(72));
    assert_eq!(figure(&takeoff, "gutter, new").formula.text(), "42' + 30'");
    assert_eq!(figure(&takeoff, "gutter, pieces").value, whole(8));
}

#[test]
fn a_covering_counts_where_it_is_renewed_and_with_what_is_told_of_it() {
    let takeoff = taken_off(
        "Front elevation. The wall is forty by nine. Vinyl siding, remove and replace. Right side. The wall is twenty six \
         by nine. Two square of vinyl siding, remove and replace. Rear elevation. The wall is forty by nine. Left side. \
         Vinyl siding, remove and replace.",
    );
    let siding = figure(&takeoff, "siding");
    assert_eq!(decimal(siding.value), 3.6 + 2.0);
    assert_eq!(siding.rule.as_deref(), Some("without left, where it isn't measured"));
    assert_eq!(decimal(figure(&takeoff, "walls in all").value), 360.0 + 234.0 + 360.0);
}

#[test]
fn two_works_on_the_same_windows_are_the_same_openings() {
    let takeoff = taken_off(
        "Front elevation. The wall is forty by nine. Two windows, three feet by five feet, remove and replace. Two \
         windows, three feet by five feet, paint them.",
    );
    assert_eq!(decimal(figure(&takeoff, "openings").value), 30.0);
}

#[test]
fn sizes_in_inches_are_sizes_too() {
    let takeoff = taken_off(
        "Front elevation. The wall is forty by nine. Two thirty by forty eight inch windows, detach and reset.",
    );
    assert_eq!(decimal(figure(&takeoff, "openings").value), 20.0);
}

/// The names of what a covering's squares leave out.
fn left_out(said: &str, name: &str) -> Option<String> {
    figure(&taken_off(said), name).rule.clone()
}

#[test]
fn squares_tell_which_sides_they_leave_out() {
    let front = "Front elevation. The wall is forty by nine. Siding, remove and replace.";
    let gable_only = format!(
        "{front} Right side. The gable is twenty six wide and eight at the peak. Siding, remove and replace."
    );
    assert_eq!(decimal(figure(&taken_off(&gable_only), "siding").value), 3.6);
    assert_eq!(left_out(&gable_only, "siding").as_deref(), Some("without right, where it isn't measured"));
    assert_eq!(
        left_out(&gable_only, "walls in all").as_deref(),
        Some("without what isn't measured on the right")
    );
    let around = "Siding, remove and replace all the way around. Front elevation. The wall is forty by nine.";
    assert_eq!(
        left_out(around, "siding").as_deref(),
        Some("without the other sides, where it isn't measured")
    );
    let slope = "Front slope is forty along the eave and seventeen up the rafter.";
    let roof = format!("Shingles on the whole roof, remove and replace. {slope}");
    assert_eq!(
        left_out(&roof, "shingles").as_deref(),
        Some("without the other sides, where it isn't measured")
    );
    let both = format!("{roof} Back slope is forty along the eave and seventeen up the rafter.");
    assert_eq!(
        (left_out(&both, "shingles"), decimal(figure(&taken_off(&both), "shingles").value)),
        (None, 13.6)
    );
}
