//! Lengths, areas and counts as they are said, against published tables.
//!
//! 12 inches to the foot, 3 feet to the yard: NIST Handbook 44, Appendix C (units of length; from memory), and the
//! exact foot of 0.3048 m and inch of 25.4 mm (NIST SP 811, Appendix B.8; from memory). A square is 100 square feet:
//! Handbook 44, 2026 edition, Appendix C, section 4, "Units of Area".

use eavesdraft::language::rules::Grammar;
use eavesdraft::model::Unit;
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;

/// Quantity, unit and size of the only line.
#[track_caller]
fn only_line(grammar: &Grammar, words: &str) -> (Option<f64>, Unit, Option<String>) {
    let draft = drafting::by_rules(&Transcript::from_plain(words), grammar);
    assert_eq!(draft.lines.len(), 1, "{words}: {:#?}", draft.lines);
    let line = &draft.lines[0];
    (
        line.quantity.map(|quantity| quantity.value().decimal()),
        line.unit,
        line.size.as_ref().map(ToString::to_string),
    )
}

#[test]
fn feet_and_inches_join_however_they_are_said() {
    let grammar = Grammar::built_in().unwrap();
    let exact_foot = 0.3048 / 0.0254;
    for (said, inches) in [
        ("six foot six of", 78.0),
        ("6' 6\" of", 78.0),
        ("6'6\" of", 78.0),
        ("6 foot 6 inches of", 78.0),
        ("eight foot four and a half inches of", 100.5),
        ("forty one feet six inches of", 498.0),
        ("a foot and a half of", 18.0),
        ("one ten feet of", 1320.0),
        ("6 feet and 6 inches of", 78.0),
        ("a hundred and three quarters feet of", 1209.0),
        ("2.5 hundred feet of", 3000.0),
    ] {
        let (quantity, unit, _) = only_line(&grammar, &format!("Front elevation. {said} gutter, replace."));
        assert_eq!(unit, Unit::Foot, "{said}");
        let feet: f64 = inches / exact_foot;
        assert!((quantity.unwrap() - feet).abs() < 0.001, "{said}: {quantity:?}, not {feet}");
    }
}

#[test]
fn squares_and_other_trade_units_stay_as_they_are_said() {
    let grammar = Grammar::built_in().unwrap();
    for (said, quantity, unit) in [
        ("a square and a half of siding", 1.5, Unit::Square),
        ("three hundred and twenty square feet of siding", 320.0, Unit::SquareFoot),
        ("half a square of siding", 0.5, Unit::Square),
        (".5 squares of siding", 0.5, Unit::Square),
        ("two thirds of a square of siding", 0.667, Unit::Square),
        ("a third of a square of siding", 0.333, Unit::Square),
        ("two point seventy five squares of siding", 2.75, Unit::Square),
        ("two and a third squares of siding", 2.333, Unit::Square),
        ("10-12 feet of gutter", 11.0, Unit::Foot),
        ("two pair of shutters", 2.0, Unit::Pair),
        ("four rolls of ice and water", 4.0, Unit::Roll),
        ("two sheets of plywood", 2.0, Unit::Sheet),
        ("six bundles of shingles", 6.0, Unit::Bundle),
        ("a dozen outlets", 12.0, Unit::Each),
    ] {
        let found = only_line(&grammar, &format!("Front elevation. {said}, replace."));
        assert_eq!((found.0, found.1), (Some(quantity), unit), "{said}");
    }
}

#[test]
fn a_size_is_no_quantity() {
    let grammar = Grammar::built_in().unwrap();
    for (said, quantity, size) in [
        ("two three inch pipe jacks", 2.0, "3 in"),
        ("a nine by seven garage door", 1.0, "9 ft x 7 ft"),
        ("a 16x7 garage door", 1.0, "16 ft x 7 ft"),
        ("fifty feet of six foot cedar fence", 50.0, "6 ft"),
        ("one ten foot gate", 1.0, "10 ft"),
        ("forty feet of five inch gutter", 40.0, "5 in"),
    ] {
        let found = only_line(&grammar, &format!("Front elevation. {said}, replace."));
        assert_eq!((found.0, found.2.as_deref()), (Some(quantity), Some(size)), "{said}");
    }
}

#[test]
fn years_prices_ages_people_and_times_are_no_quantities() {
    let grammar = Grammar::built_in().unwrap();
    for said in [
        "It's 2026 now.",
        "That tool's 12 bucks.",
        "The house is 40 years old.",
        "There's 3 guys on the crew.",
        "It's 95 degrees.",
        "Four in the afternoon.",
        "It's a two million dollar house.",
        "That's a 30k roof.",
        "It's a 22 kilowatt generator.",
        "We're up on the 2nd floor.",
        "It's the 21st today.",
        "It's the twenty first today.",
        "There's like a million dings on it.",
        "It's five acres.",
        "It was built in nineteen eighty four.",
    ] {
        let found = only_line(&grammar, &format!("Front elevation. {said} Gutter, replace."));
        assert_eq!(found.0, None, "{said}");
    }
}

#[test]
fn a_number_taken_back_in_the_same_breath_gives_way_to_the_next() {
    let grammar = Grammar::built_in().unwrap();
    for (said, quantity) in [
        ("twelve no thirteen window screens, replace", 13.0),
        ("forty feet, sorry, fifty feet of gutter, replace", 50.0),
        ("three box vents, make that four, replace", 4.0),
    ] {
        let found = only_line(&grammar, &format!("Front elevation. {said}."));
        assert_eq!(found.0, Some(quantity), "{said}");
    }
}

#[test]
fn a_unit_the_draft_lacks_leaves_the_number_open_rather_than_wrong() {
    let grammar = Grammar::built_in().unwrap();
    for said in [
        "twenty square yards of",
        "50 square meters of",
        "two cubic yards of",
        "300mm of",
        "twenty metres of",
        "twenty meters of",
    ] {
        let found = only_line(&grammar, &format!("Front elevation. {said} siding, replace."));
        assert_eq!(found.0, None, "{said}");
    }
}
