//! Sentences about lines and rows.

use crate::model::{Exact, Quantity, Unit, wording};

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

/// `120 ft`, `1 pair`; the number alone where no unit is told.
pub(super) fn amount(quantity: Exact, unit: Option<Unit>) -> String {
    unit.map_or_else(|| quantity.text(), |unit| wording::much(Quantity::of(quantity), unit))
}

/// What there is more or less of, with its sign: `+8 ft`, `−1' 8"`.
pub(super) fn difference(difference: Exact, unit: Option<Unit>) -> String {
    let sign = if difference < Exact::ZERO { "−" } else { "+" };
    match difference.text().as_str() {
        "0" => "none".to_owned(),
        _ => format!("{sign}{}", amount(difference.abs(), unit)),
    }
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
        assert_eq!(amount(Exact::ONE, Some(Unit::Pair)), "1 pair");
        assert_eq!(amount(Exact::new(5, 2), None), "2.5");
        let foot = |n: i32, d: i32| difference(Exact::new(n, d), Some(Unit::Foot));
        assert_eq!([foot(8, 1), foot(-5, 3), foot(0, 1)], ["+8 ft", "−1' 8\"", "none"]);
    }
}
