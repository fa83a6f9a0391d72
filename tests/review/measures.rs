//! Measurements typed in the review: kept with who typed them, taken back, and read as they are said.

use super::{GRAMMAR, Table};
use eavesdraft::model::{Quantity, Shape, Side};
use eavesdraft::scope::review::view::ViewContext;
use eavesdraft::scope::review::{Command, DimensionName, Measurements, Refusal, scope_and_strays};
use eavesdraft::scope::takeoff::{Origin, takeoff};

const SAID: &str = "Front elevation. The wall is forty by nine. Siding, remove and replace.";

fn face(side: Side, shape: Shape) -> DimensionName {
    DimensionName { structure: "house".to_owned(), side, shape, number: 1 }
}

pub fn measure(side: Side, shape: Shape, [width, height, slope]: [Option<&str>; 3]) -> Command {
    let [width, height, slope] = [width, height, slope].map(|text| text.map(str::to_owned));
    Command::SetDimension {
        dimension: face(side, shape),
        measurements: Measurements { width, height, slope },
    }
}

fn walls(table: &Table) -> Vec<f64> {
    let now = table.scope.draft(&table.draft);
    let figures = takeoff(&now, &GRAMMAR).figures;
    figures.iter().filter(|figure| figure.name == "wall").map(|figure| figure.value.decimal()).collect()
}

#[test]
fn a_measure_is_told_undone_done_again_and_kept_through_a_new_draft() {
    let mut table = Table::new(SAID);
    assert_eq!(walls(&table), [360.0]);
    let told = table
        .does("Ann", measure(Side::Front, Shape::Wall, [Some("42' 6\""), None, None]))
        .unwrap()
        .summary
        .clone();
    assert_eq!((told.as_str(), walls(&table)), ("house, front, wall: width 42' 6\"", vec![382.5]));
    table.does("Ben", measure(Side::Right, Shape::Wall, [Some("26"), Some("9"), None])).unwrap();
    assert_eq!(walls(&table), [382.5, 234.0]);
    table.does("Ann", Command::Undo {}).unwrap();
    assert_eq!(walls(&table), [360.0, 234.0]);
    table.does("Ann", Command::Redo {}).unwrap();
    let (again, strays) = scope_and_strays(&table.draft, &table.events);
    assert_eq!((again.measured.clone(), strays), (table.scope.measured.clone(), vec![]));
    let now = again.draft(&table.draft);
    let wall = takeoff(&now, &GRAMMAR).figures.remove(0);
    let origins: Vec<bool> = wall
        .formula
        .inputs()
        .iter()
        .map(|input| matches!(&input.origin, Origin::Typed { who } if who == "Ann"))
        .collect();
    assert_eq!(origins, [true, false], "the width was typed, the height was said");
}

#[test]
fn a_later_measure_of_somebody_else_keeps_an_undo_from_wiping_it() {
    let mut table = Table::new(SAID);
    table.does("Ann", measure(Side::Front, Shape::Wall, [Some("41"), None, None])).unwrap();
    table.does("Ben", measure(Side::Front, Shape::Wall, [None, Some("10"), None])).unwrap();
    assert_eq!(walls(&table), [410.0]);
    let refused = table.does("Ann", Command::Undo {}).unwrap_err();
    assert_eq!(refused.to_string(), "somebody has changed this measurement since");
    assert_eq!(walls(&table), [410.0]);
}

#[test]
fn what_is_no_measure_is_refused_with_the_field_and_how_to_type_it() {
    let mut table = Table::new(SAID);
    let mut refused =
        |shape, typed: [Option<&str>; 3]| match table.does("Ann", measure(Side::Front, shape, typed)) {
            Err(Refusal::NotUnderstood { field, message }) => (field, message),
            other => panic!("{other:?}"),
        };
    let long = "isn't a length: type it like 26, 26' 4\", 316 in";
    for typed in ["wide", "-3", "0", "12-14", "9 x 7", "3 squares", "10 of them", "26 27"] {
        assert_eq!(
            refused(Shape::Wall, [Some(typed), None, None]),
            ("width", format!("“{typed}” {long}")),
            "{typed}"
        );
    }
    assert_eq!(refused(Shape::RoofSlope, [None, None, Some("99")]).0, "slope");
    assert_eq!(
        refused(Shape::Gable, [None, None, Some("6")]).1,
        "a gable has no slope: type it for the roof slope"
    );
    assert_eq!(refused(Shape::HipOrValley, [None, Some("6"), None]).0, "height");
    let opening =
        table.does("Ann", measure(Side::Front, Shape::Opening, [Some("3"), Some("5"), None])).unwrap_err();
    assert_eq!(opening, Refusal::Invalid("type an opening as the size of its line".into()));
    assert_eq!(walls(&table), [360.0]);
}

#[test]
fn lengths_and_slopes_are_read_however_they_are_typed() {
    let mut table = Table::new(SAID);
    for (typed, feet) in
        [("26' 4\"", 26.333), ("316 in", 26.333), ("26 ft 4 in", 26.333), ("26.5", 26.5), ("26 1/2", 26.5)]
    {
        table.does("Ann", measure(Side::Front, Shape::Wall, [Some(typed), Some("3"), None])).unwrap();
        assert!((walls(&table)[0] - feet * 3.0).abs() < 0.002, "{typed}: {:?}", walls(&table));
    }
    for typed in ["6", "6/12", "6 in 12", "6 pitch", "six twelve", "6-12"] {
        table.does("Ann", measure(Side::None, Shape::RoofSlope, [None, None, Some(typed)])).unwrap();
        let figures = takeoff(&table.scope.draft(&table.draft), &GRAMMAR).figures;
        let rafter = figures.iter().find(|figure| figure.name == "rafter for one foot of run").unwrap();
        assert!(rafter.formula.text().contains("6 in 12"), "{typed}: {}", rafter.formula.text());
    }
}

#[test]
fn a_covering_without_a_number_is_offered_what_was_measured() {
    let mut table = Table::new(
        "Front elevation. Siding, remove and replace. One nine by seven garage door, replace. Mailbox.",
    );
    let offered = |table: &Table| {
        let views = ViewContext {
            draft: &table.draft,
            scope: &table.scope,
            events: &table.events,
            grammar: &GRAMMAR,
        };
        let line = serde_json::to_value(views.line(table.entry("siding"))).unwrap();
        line["choices"].as_array().unwrap().clone()
    };
    assert_eq!(offered(&table), Vec::<serde_json::Value>::new());
    table.does("Ann", measure(Side::Front, Shape::Wall, [Some("40"), Some("9"), None])).unwrap();
    let choice = offered(&table).remove(0);
    assert_eq!(
        (choice["label"].as_str(), choice["hint"].as_str()),
        (Some("297 sq ft"), Some("the takeoff has net wall area: 360 sq ft − 63 sq ft"))
    );
    table.does("Ann", serde_json::from_value(choice["command"].clone()).unwrap()).unwrap();
    assert_eq!(table.entry("siding").line.quantity, Some(Quantity::of(297)));
    let unsized_windows = Table::new(
        "Front. The wall is forty by nine. Two windows, detach and reset. Siding, remove and replace.",
    );
    assert_eq!(
        offered(&unsized_windows).remove(0)["hint"],
        "the takeoff has wall: 40' × 9'; openings without a size are not deducted"
    );
}

#[test]
fn of_two_who_measure_the_same_face_the_later_one_looks_again() {
    let mut table = Table::new(SAID);
    let before = table.versions();
    table.does("Ann", measure(Side::Front, Shape::Wall, [Some("41"), None, None])).unwrap();
    let mine = measure(Side::Front, Shape::Wall, [Some("43"), None, None]);
    let refused = table.does_having_seen("Ben", before, mine.clone()).unwrap_err();
    let changed = Refusal::DimensionChanged { id: "house/front/wall/1".to_owned() };
    assert_eq!((refused, walls(&table)), (changed, vec![369.0]));
    table.does("Ben", mine).unwrap();
    assert_eq!(walls(&table), [387.0]);
}
