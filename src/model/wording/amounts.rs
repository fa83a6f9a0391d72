//! Numbers, lengths and amounts as the trade writes them: `38' 4"`, `10 to 12 ft`, `2 pairs`.

use crate::model::unit::SIXTEENTHS;
use crate::model::{Dimension, Exact, Length, Line, Quantity, Shape, Size, Slope, Unit};

/// A length in feet: `38' 4"`, `26'`, `3 1/8"`; in decimals where it is on no mark of a tape: `8.3 ft`.
pub fn length(feet: Exact) -> String {
    tape(feet).unwrap_or_else(|| format!("{} ft", feet.text()))
}

/// A length in inches: `54"`, `1 1/2"`.
pub fn inches(inches: Exact) -> String {
    let marks = inches * 16;
    match marks.is_integer() && marks > Exact::ZERO {
        true => inches_of(marks.to_integer()).unwrap_or_default(),
        false => format!("{} in", inches.text()),
    }
}

/// A length in feet with the marks of a tape; none where it is on no sixteenth of an inch.
fn tape(feet: Exact) -> Option<String> {
    let marks = feet * SIXTEENTHS;
    if !marks.is_integer() || feet < Exact::ZERO {
        return None;
    }
    let (feet, marks) = (marks.to_integer() / SIXTEENTHS, marks.to_integer() % SIXTEENTHS);
    Some(match (feet, inches_of(marks)) {
        (feet, None) => format!("{feet}'"),
        (0, Some(inches)) => inches,
        (feet, Some(inches)) => format!("{feet}' {inches}"),
    })
}

/// So many sixteenths of an inch; none where there are none.
fn inches_of(sixteenths: i128) -> Option<String> {
    let part = Exact::new(sixteenths % 16, 16);
    match (sixteenths / 16, sixteenths % 16) {
        (0, 0) => None,
        (whole, 0) => Some(format!("{whole}\"")),
        (0, _) => Some(format!("{part}\"")),
        (whole, _) => Some(format!("{whole} {part}\"")),
    }
}

/// How large each is: `9' x 7'`, `3"`; what is more than lengths as it was typed.
pub fn size(size: &Size) -> String {
    let told = |length: &Length| match length.unit {
        Some(Unit::Foot) => self::length(length.value),
        Some(Unit::Inch) => inches(length.value),
        Some(unit) => format!("{} {}", length.value.text(), unit_word(unit, false)),
        None => length.value.text(),
    };
    match size.words() {
        Some(words) => words.to_owned(),
        None => size.lengths().iter().map(told).collect::<Vec<_>>().join(" x "),
    }
}

/// The size of a line; empty where none was told.
pub fn size_of(line: &Line) -> String {
    line.size.as_ref().map(size).unwrap_or_default()
}

/// How much a line has, as a column of its own beside the unit: `about 38`, `10 to 12`, `38' 4"`. None where no number was
/// said.
pub fn quantity(line: &Line) -> Option<String> {
    Some(hedged(number(line.quantity?, line.unit), line.rough))
}

/// How much a line has, with its unit: `about 38 ft`, `2 pairs`, `38' 4"`. None where no number was said.
pub fn amount(line: &Line) -> Option<String> {
    Some(hedged(much(line.quantity?, line.unit), line.rough))
}

fn hedged(amount: String, rough: bool) -> String {
    if rough { format!("about {amount}") } else { amount }
}

/// So much of a unit: `38 ft`, `10 to 12 ft`, `38' 4"`, `1 pair`.
pub fn much(quantity: Quantity, unit: Unit) -> String {
    format!("{} {}", number(quantity, unit), unit_beside(quantity, unit)).trim_end().to_owned()
}

/// The number of it alone. Whole feet need no marks.
pub fn number(quantity: Quantity, unit: Unit) -> String {
    in_marks(quantity, unit).unwrap_or_else(|| ends(quantity, Exact::text).join(" to "))
}

/// The unit that stands beside the number; nothing where the number has the marks of feet and inches.
pub fn unit_beside(quantity: Quantity, unit: Unit) -> &'static str {
    match in_marks(quantity, unit) {
        Some(_) => "",
        None => unit_word(unit, quantity == Quantity::of(1)),
    }
}

/// What a line's quantity counts, as a column beside [`quantity`].
pub fn unit(line: &Line) -> &'static str {
    line.quantity.map_or_else(|| unit_word(line.unit, false), |quantity| unit_beside(quantity, line.unit))
}

/// Feet and inches with their marks; none of whole feet, and of what is on no mark of a tape.
fn in_marks(quantity: Quantity, unit: Unit) -> Option<String> {
    let whole = quantity.low().is_integer() && quantity.high().is_integer();
    if unit != Unit::Foot || whole {
        return None;
    }
    ends(quantity, tape).into_iter().collect::<Option<Vec<String>>>().map(|ends| ends.join(" to "))
}

/// The number, or both ends of a range.
fn ends<T>(quantity: Quantity, told: fn(Exact) -> T) -> Vec<T> {
    match quantity.is_range() {
        true => vec![told(quantity.low()), told(quantity.high())],
        false => vec![told(quantity.value())],
    }
}

/// A unit, of one or of more.
pub fn unit_word(unit: Unit, one: bool) -> &'static str {
    unit.word(one)
}

/// What was measured of a face: `wall, width 40', height not said`.
pub fn measured(dimension: &Dimension) -> String {
    let told = |known: Option<Exact>| known.map_or_else(|| "not said".to_owned(), length);
    let (width, height) = (told(dimension.width_ft), told(dimension.height_ft));
    format!("{}, width {width}, height {height}", super::shape(dimension.shape))
}

/// How steep a roof was said to be: `roof slope, 6 in 12`.
pub fn slope(slope: &Slope) -> String {
    format!("{}, {} in 12", super::shape(Shape::RoofSlope), slope.rise.text())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_read_as_the_trade_writes_them() {
        let lengths = [
            (Exact::from_integer(26), "26'"),
            (Exact::new(25, 3), "8' 4\""),
            (Exact::new(13, 2), "6' 6\""),
            (Exact::new(1, 4), "3\""),
            (Exact::new(9 * 192 + 3 * 16 + 2, 192), "9' 3 1/8\""),
            (Exact::new(1, 192), "1/16\""),
            (Exact::new(83, 10), "8.3 ft"),
            (Exact::ZERO, "0'"),
        ];
        for (feet, shown) in lengths {
            assert_eq!(length(feet), shown);
        }
        assert_eq!(inches(Exact::new(3, 2)), "1 1/2\"");
        assert_eq!((inches(54.into()), inches(Exact::new(3, 10))), ("54\"".to_owned(), "0.3 in".to_owned()));
    }

    #[test]
    fn sizes_read_as_the_trade_writes_them() {
        for (written, shown) in [
            ("9 ft x 7 ft", "9' x 7'"),
            ("14 ft x 11 ft 6 in", "14' x 11' 6\""),
            ("1.5 in", "1 1/2\""),
            ("28 in x 54 in", "28\" x 54\""),
            ("16 x 7", "16 x 7"),
            ("5 in K-style", "5 in K-style"),
        ] {
            assert_eq!(size(&Size::read(written)), shown);
        }
    }

    #[test]
    fn amounts_have_their_unit_once() {
        let range = |low: Exact, high: Exact| Quantity::between(low, high);
        let half = Exact::new(1, 2);
        let amounts = [
            (Quantity::of(38), Unit::Foot, "38 ft"),
            (Quantity::of(Exact::new(115, 3)), Unit::Foot, "38' 4\""),
            (Quantity::of(Exact::new(83, 10)), Unit::Foot, "8.3 ft"),
            (range(10.into(), 12.into()), Unit::Foot, "10 to 12 ft"),
            (range(10.into(), half + 12), Unit::Foot, "10' to 12' 6\""),
            (range(Exact::new(83, 10), 9.into()), Unit::Foot, "8.3 to 9 ft"),
            (Quantity::of(half + 2), Unit::Square, "2.5 squares"),
            (Quantity::of(1), Unit::Pair, "1 pair"),
            (range(1.into(), 2.into()), Unit::Pair, "1 to 2 pairs"),
            (Quantity::of(30), Unit::Inch, "30 in"),
        ];
        for (quantity, unit, shown) in amounts {
            assert_eq!(much(quantity, unit), shown);
        }
    }
}
