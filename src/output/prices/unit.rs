//! Units as price lists write them.

use crate::language::rules::Grammar;
use crate::model::Unit;
use crate::scope::review::typed;

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
