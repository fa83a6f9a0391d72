//! How much a row holds: what its cells for quantity and unit say.

use crate::language::rules::Grammar;
use crate::language::tokens::Tokens;
use crate::model::{Exact, Unit};
use crate::scope::review::typed;
use crate::speech::Transcript;

/// What a row says of how much.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Amount {
    /// How much, in `unit`; none where no one number is told.
    pub quantity: Option<Exact>,
    /// The unit; none where none is told, or none that is known.
    pub unit: Option<Unit>,
    /// A unit that isn't known, as it is written.
    pub odd_unit: Option<String>,
    /// The cells as they are written.
    pub written: String,
}

/// More digits than any quantity of work has.
const MOST_DIGITS: usize = 12;

/// Reads the cells for quantity and unit.
pub(super) fn amount(quantity: &str, unit: &str, grammar: &Grammar) -> Amount {
    let written = [quantity, unit].into_iter().filter(|cell| !cell.is_empty()).collect::<Vec<_>>().join(" ");
    let (number, behind) = number_first(quantity);
    let spelled = if unit.is_empty() { behind } else { unit };
    let mut amount = Amount { written, ..Amount::default() };
    let mut times = 1;
    if !spelled.is_empty() {
        match unit_of(spelled, grammar) {
            Some((unit, of_it)) => (amount.unit, times) = (Some(unit), of_it),
            None => amount.odd_unit = Some(spelled.to_owned()),
        }
    }
    let known = amount.odd_unit.is_none() || !unit.is_empty();
    // "32 LF" with a column for the unit too: what stands behind the number must say the same, or it isn't understood.
    let agrees = behind.is_empty() || unit.is_empty() || unit_of(behind, grammar).map(|u| u.0) == amount.unit;
    amount.quantity = number.filter(|_| known && agrees).map(|number| number * times);
    if amount.quantity.is_none() && !quantity.is_empty() {
        typed_as_spoken(quantity, unit.is_empty(), &mut amount, grammar);
    }
    amount
}

/// `6' 6"`, "twelve and a half feet": read as a person types it.
fn typed_as_spoken(text: &str, alone: bool, amount: &mut Amount, grammar: &Grammar) {
    let Ok(typed) = typed::quantity(text, grammar) else { return };
    if typed.quantity.is_range() || !alone && typed.unit.is_some() && typed.unit != amount.unit {
        return;
    }
    amount.quantity = Some(typed.quantity.value());
    if alone {
        amount.unit = typed.unit;
        amount.odd_unit = None;
    }
}

/// The unit that a cell spells, and how many of it one of them is.
fn unit_of(cell: &str, grammar: &Grammar) -> Option<(Unit, u32)> {
    if let Some(listed) = grammar.lists.unit(cell) {
        return Some((listed.unit, listed.times));
    }
    let cell = cell.replace('.', "");
    let tokens = Tokens::new(&Transcript::from_plain(&cell), &grammar.vocabulary);
    let (unit, end) = grammar.unit_at(&tokens.list, 0, true)?;
    unit.filter(|_| end == tokens.list.len()).map(|unit| (unit, 1))
}

/// The number that a cell begins with, and the words behind it.
fn number_first(cell: &str) -> (Option<Exact>, &str) {
    let end = cell.find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ',')).unwrap_or(cell.len());
    let (digits, behind) = cell.split_at(end);
    (number(digits.trim_end_matches(',')), behind.trim())
}

/// A number in figures, with marks between thousands and before decimals as they are written here or elsewhere.
fn number(text: &str) -> Option<Exact> {
    let (whole, parts) = split(text)?;
    let whole: String = whole.chars().filter(char::is_ascii_digit).collect();
    let digits = format!("{whole}{parts}");
    if digits.is_empty() || digits.len() > MOST_DIGITS {
        return None;
    }
    Some(Exact::new(digits.parse::<i128>().ok()?, 10_i128.pow(parts.len() as u32)))
}

/// What stands before and behind the mark of decimals.
fn split(text: &str) -> Option<(&str, &str)> {
    let marks: Vec<(usize, char)> = text.char_indices().filter(|(_, c)| matches!(c, '.' | ',')).collect();
    let Some(&(last, mark)) = marks.last() else { return Some((text, "")) };
    let behind = &text[last + 1..];
    let of_thousands = |mark: char| {
        let groups: Vec<&str> = text.split(mark).collect();
        let first = groups[0];
        !first.is_empty()
            && first.len() <= 3
            && !first.starts_with('0')
            && groups[1..].iter().all(|g| g.len() == 3)
    };
    let one_kind = marks.iter().all(|(_, m)| *m == mark);
    match (one_kind, marks.len()) {
        // 1,250 is a thousand and more; 1.250 is little more than one, as a spreadsheet writes it.
        (true, 1) if mark == ',' && of_thousands(',') => Some((text, "")),
        (true, 1) => Some((&text[..last], behind)),
        (true, _) => of_thousands(mark).then_some((text, "")),
        (false, _) => Some((&text[..last], behind)),
    }
}

/// Whether two amounts are one: lists round, so a hundredth is no difference.
pub(super) fn same(a: Exact, b: Exact) -> bool {
    (a - b).abs() <= Exact::new(1, 100)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(quantity: &str, unit: &str) -> (Option<f64>, Option<Unit>, Option<String>) {
        let amount = amount(quantity, unit, &Grammar::built_in().unwrap());
        (amount.quantity.map(Exact::decimal), amount.unit, amount.odd_unit)
    }

    #[test]
    fn numbers_are_read_as_they_are_written_here_or_elsewhere() {
        let written = [
            ("32", 32.0),
            ("1,250", 1250.0),
            ("1,250.50", 1250.5),
            ("1.250,50", 1250.5),
            ("12,5", 12.5),
            ("12.125", 12.125),
            ("1,250,000", 1_250_000.0),
            (".5", 0.5),
        ];
        for (text, value) in written {
            assert_eq!(read(text, "LF"), (Some(value), Some(Unit::Foot), None), "{text}");
        }
    }

    #[test]
    fn units_are_read_from_their_own_cell_or_behind_the_number() {
        assert_eq!(read("3", "SQ"), (Some(3.0), Some(Unit::Square), None));
        assert_eq!(read("2", "sq. yd."), (Some(18.0), Some(Unit::SquareFoot), None));
        assert_eq!(read("32 LF", ""), (Some(32.0), Some(Unit::Foot), None));
        assert_eq!(read("32 LF", "Lin. Ft."), (Some(32.0), Some(Unit::Foot), None));
        assert_eq!(read("32 LF", "EA"), (None, Some(Unit::Each), None));
        assert_eq!(read("6' 6\"", ""), (Some(6.5), Some(Unit::Foot), None));
        assert_eq!(read("2", "pair"), (Some(2.0), Some(Unit::Pair), None));
        assert_eq!(read("4", ""), (Some(4.0), None, None));
    }

    #[test]
    fn what_isnt_one_number_is_none() {
        assert_eq!(read("$12.00", "EA"), (None, Some(Unit::Each), None));
        assert_eq!(read("10-12", "LF").0, None);
        assert_eq!(read("-4", "EA").0, None);
        assert_eq!(read("see note", "EA").0, None);
        assert_eq!(read("1234567890123", "EA").0, None);
        assert_eq!(read("3", "days"), (Some(3.0), None, Some("days".into())));
    }

    #[test]
    fn rounded_thirds_are_the_same_and_tenths_are_not() {
        let third = Exact::new(25, 3);
        assert!(same(third, Exact::new(8333, 1000)) && same(Exact::new(833, 100), third));
        assert!(!same(Exact::new(83, 10), third));
    }
}
