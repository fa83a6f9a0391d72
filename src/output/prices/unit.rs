//! Units of a price list, and what one is of another, exactly.

use crate::language::rules::Grammar;
use crate::model::Unit;
use crate::scope::review::typed;
use crate::scope::takeoff::Exact;
use crate::scope::takeoff::exact::{INCHES, SQUARE, whole};

/// What a unit measures, and how much of the smallest of its kind it is. Rolls, sheets and the like are of no common size.
#[derive(PartialEq)]
enum Kind {
    Length,
    Area,
    Count,
    Own(Unit),
}

fn kind(unit: Unit) -> (Kind, Exact) {
    match unit {
        Unit::Inch => (Kind::Length, Exact::new(1, INCHES)),
        Unit::Foot => (Kind::Length, whole(1)),
        Unit::Yard => (Kind::Length, whole(3)),
        Unit::SquareFoot => (Kind::Area, whole(1)),
        Unit::Square => (Kind::Area, whole(SQUARE)),
        Unit::Each => (Kind::Count, whole(1)),
        Unit::Pair => (Kind::Count, whole(2)),
        own => (Kind::Own(own), whole(1)),
    }
}

/// How many of `to` one of `from` is; none where they measure different things.
pub(super) fn factor(from: Unit, to: Unit) -> Option<Exact> {
    let ((from, size), (to, other)) = (kind(from), kind(to));
    (from == to).then(|| size / other)
}

/// Short forms that price lists use and nobody says.
const SHORT: [(&str, Unit); 9] = [
    ("each", Unit::Each),
    ("ea", Unit::Each),
    ("pc", Unit::Each),
    ("in", Unit::Inch),
    ("lf", Unit::Foot),
    ("sf", Unit::SquareFoot),
    ("sq", Unit::Square),
    ("pr", Unit::Pair),
    ("box", Unit::Box),
];

/// The unit that is written so.
pub(super) fn read(text: &str, grammar: &Grammar) -> Option<Unit> {
    let text = text.trim().trim_end_matches('.').to_lowercase();
    let short = SHORT.iter().find(|(short, _)| *short == text).map(|(_, unit)| *unit);
    short.or_else(|| typed::quantity(&format!("2 {text}"), grammar).ok()?.unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_of_a_kind_turn_into_each_other_exactly() {
        let cases = [
            (Unit::Square, Unit::SquareFoot, Some(whole(100))),
            (Unit::SquareFoot, Unit::Square, Some(Exact::new(1, 100))),
            (Unit::Yard, Unit::Foot, Some(whole(3))),
            (Unit::Inch, Unit::Yard, Some(Exact::new(1, 36))),
            (Unit::Pair, Unit::Each, Some(whole(2))),
            (Unit::Roll, Unit::Roll, Some(whole(1))),
            (Unit::Roll, Unit::Sheet, None),
            (Unit::Foot, Unit::SquareFoot, None),
            (Unit::Set, Unit::Each, None),
        ];
        for (from, to, expected) in cases {
            assert_eq!(factor(from, to), expected, "{from:?} to {to:?}");
        }
    }

    #[test]
    fn units_are_read_as_offices_write_them() {
        let grammar = Grammar::built_in().unwrap();
        let cases = [
            ("ft", Unit::Foot),
            ("LF", Unit::Foot),
            ("linear feet", Unit::Foot),
            ("sq ft", Unit::SquareFoot),
            ("SQ", Unit::Square),
            ("squares", Unit::Square),
            ("EA", Unit::Each),
            ("pair", Unit::Pair),
            ("yards", Unit::Yard),
            ("in.", Unit::Inch),
            ("set", Unit::Set),
            ("rolls", Unit::Roll),
            ("bundle", Unit::Bundle),
            ("sheet", Unit::Sheet),
        ];
        for (text, unit) in cases {
            assert_eq!(read(text, &grammar), Some(unit), "{text}");
        }
        assert_eq!(read("furlong", &grammar), None);
        assert_eq!(read("", &grammar), None);
    }
}
