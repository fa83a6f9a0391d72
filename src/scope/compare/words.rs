//! Sentences about lines and rows.

use crate::model::wording::{number, unit_word};
use crate::model::{Exact, Unit};

/// `row 7`, `rows 4, 5 and 9`.
pub(super) fn rows(numbers: &[usize]) -> String {
    counted("row", "rows", numbers)
}

/// `our line 3`, `our lines 3 and 5`.
pub(super) fn our_lines(numbers: &[usize]) -> String {
    counted("our line", "our lines", numbers)
}

fn counted(one: &str, more: &str, numbers: &[usize]) -> String {
    let noun = if numbers.len() == 1 { one } else { more };
    format!("{noun} {}", list(&numbers.iter().map(usize::to_string).collect::<Vec<_>>()))
}

/// `a`, `a and b`, `a, b and c`.
pub(super) fn list(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}

/// `120 ft`, `1 pair`.
pub(crate) fn amount(quantity: f64, unit: Option<Unit>) -> String {
    let unit = unit.map(|unit| format!(" {}", unit_word(unit, quantity == 1.0))).unwrap_or_default();
    number(quantity) + &unit
}

/// The same, of an exact quantity.
pub(super) fn exact_amount(quantity: Exact, unit: Unit) -> String {
    amount(quantity.decimal(), Some(unit))
}

/// `is` or `are`, and the like.
pub(super) fn by_count<'a>(count: usize, one: &'a str, more: &'a str) -> &'a str {
    if count == 1 { one } else { more }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn several_are_told_as_a_person_tells_them() {
        assert_eq!(rows(&[7]), "row 7");
        assert_eq!(our_lines(&[3, 5, 9]), "our lines 3, 5 and 9");
        assert_eq!(amount(1.0, Some(Unit::Pair)), "1 pair");
        assert_eq!(amount(2.5, Some(Unit::Square)), "2.5 squares");
    }
}
