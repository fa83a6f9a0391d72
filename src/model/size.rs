//! How large each is: a length, or several in the order they were told, width before height. A size is a value; its text
//! is only how it is stored and typed.

use super::{Exact, Unit};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;

mod written;

/// How large a thing is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Size {
    /// Its lengths; none where they can't be told from the words.
    lengths: Vec<Length>,
    /// As it was typed, where it is more than lengths: `5 in K-style`.
    words: Option<String>,
}

/// One length of a size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Length {
    /// How long.
    pub value: Exact,
    /// In feet, inches or yards; none where that wasn't told.
    pub unit: Option<Unit>,
}

impl Size {
    /// One of nothing but lengths.
    pub fn of(lengths: impl IntoIterator<Item = Length>) -> Self {
        Self { lengths: lengths.into_iter().map(Length::plainly).collect(), words: None }
    }

    /// One as it is written in figures: `9 ft x 7 ft`, `16' x 7'`, `3"`, `5 in K-style`. What is more than lengths is kept as
    /// it stands; where several sizes stand in it, no length is taken.
    pub fn read(text: &str) -> Self {
        let found = written::lengths(text);
        match found {
            written::Found::All(lengths) => Self::of(lengths),
            written::Found::Among(lengths) => {
                Self { words: Some(text.trim().to_owned()), ..Self::of(lengths) }
            }
        }
    }

    /// Its lengths, in order.
    pub fn lengths(&self) -> &[Length] {
        &self.lengths
    }

    /// What it says, where that is more than lengths.
    pub fn words(&self) -> Option<&str> {
        self.words.as_deref()
    }

    /// The one length that it is, in feet; none where it is several, or its unit isn't told.
    pub fn feet(&self) -> Option<Exact> {
        match self.lengths.as_slice() {
            [one] => one.feet(),
            _ => None,
        }
    }

    /// Width and height in feet; none where it isn't two lengths, or their units aren't told.
    pub fn width_and_height(&self) -> Option<[Exact; 2]> {
        match self.lengths.as_slice() {
            [width, height] => Some([width.feet()?, height.feet()?]),
            _ => None,
        }
    }

    /// Whether two sizes are one, however they are written. Without a unit, figures are held to be in the other's.
    pub fn is_like(&self, other: &Self) -> bool {
        if self.lengths.is_empty() || other.lengths.is_empty() {
            return self.to_string().eq_ignore_ascii_case(&other.to_string());
        }
        let mut pairs = self.lengths.iter().zip(&other.lengths);
        self.lengths.len() == other.lengths.len() && pairs.all(|(one, two)| one.is_like(two))
    }
}

impl Length {
    /// In feet; none where its unit isn't told.
    pub fn feet(self) -> Option<Exact> {
        Some(self.value * self.unit?.in_unit(Unit::Foot)?)
    }

    /// Less than a foot is told in inches.
    fn plainly(self) -> Self {
        match self.unit {
            Some(Unit::Foot) if self.value > Exact::ZERO && self.value < Exact::ONE => {
                Self { value: self.value * Unit::Foot.plain() / Unit::Inch.plain(), unit: Some(Unit::Inch) }
            }
            _ => self,
        }
    }

    fn is_like(&self, other: &Self) -> bool {
        match (self.feet(), other.feet()) {
            (Some(one), Some(two)) => one == two,
            _ => self.value == other.value,
        }
    }
}

/// As drafts have it: `9 ft x 7 ft`, `19 ft 6 in`, `1.5 in`.
impl fmt::Display for Size {
    fn fmt(&self, to: &mut fmt::Formatter) -> fmt::Result {
        if let Some(words) = &self.words {
            return to.write_str(words);
        }
        for (at, length) in self.lengths.iter().enumerate() {
            write!(to, "{}{length}", if at == 0 { "" } else { " x " })?;
        }
        Ok(())
    }
}

impl fmt::Display for Length {
    fn fmt(&self, to: &mut fmt::Formatter) -> fmt::Result {
        let whole = self.value.trunc();
        match self.unit {
            None => figure(self.value, to),
            Some(Unit::Foot) if whole != self.value => {
                write!(to, "{whole} ft ")?;
                figure((self.value - whole) / Unit::Inch.plain(), to)?;
                to.write_str(" in")
            }
            Some(unit) => {
                figure(self.value, to)?;
                write!(to, " {}", unit.word(false))
            }
        }
    }
}

/// A number as a decimal with three places at most; as a fraction where that isn't the very number.
fn figure(number: Exact, to: &mut fmt::Formatter) -> fmt::Result {
    let whole = number.trunc();
    match ((number * 1000).is_integer(), whole == Exact::ZERO) {
        (true, _) => write!(to, "{}", number.decimal()),
        (false, true) => write!(to, "{number}"),
        (false, false) => write!(to, "{whole} {}", number - whole),
    }
}

impl Serialize for Size {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Size {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from).map(|text| Self::read(&text))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(value: impl Into<Exact>, unit: Unit) -> Length {
        Length { value: value.into(), unit: Some(unit) }
    }

    #[test]
    fn a_size_is_read_as_drafts_and_people_write_it() {
        let half = Exact::new(1, 2);
        let written = [
            ("9 ft x 7 ft", "9 ft x 7 ft", vec![length(9, Unit::Foot), length(7, Unit::Foot)]),
            ("16' x 7'", "16 ft x 7 ft", vec![length(16, Unit::Foot), length(7, Unit::Foot)]),
            ("16'x7'6\"", "16 ft x 7 ft 6 in", vec![length(16, Unit::Foot), length(half + 7, Unit::Foot)]),
            ("3\"", "3 in", vec![length(3, Unit::Inch)]),
            ("1 1/2 inches", "1.5 in", vec![length(half + 1, Unit::Inch)]),
            ("1/16 in", "1/16 in", vec![length(Exact::new(1, 16), Unit::Inch)]),
            ("30 by 48 in.", "30 in x 48 in", vec![length(30, Unit::Inch), length(48, Unit::Inch)]),
            ("0.5 ft", "6 in", vec![length(6, Unit::Inch)]),
            (
                "14 ft x 11 ft 6 in",
                "14 ft x 11 ft 6 in",
                vec![length(14, Unit::Foot), length(half + 11, Unit::Foot)],
            ),
            ("6 ft tall", "6 ft tall", vec![length(6, Unit::Foot)]),
            ("about 6'", "about 6'", vec![length(6, Unit::Foot)]),
            ("26 gauge", "26 gauge", vec![Length { value: 26.into(), unit: None }]),
            ("5 in and 6 in", "5 in and 6 in", vec![]),
            ("6-8 ft", "6-8 ft", vec![]),
            ("large", "large", vec![]),
        ];
        for (text, shown, lengths) in written {
            let size = Size::read(text);
            assert_eq!((size.to_string(), size.lengths()), (shown.to_owned(), lengths.as_slice()), "{text}");
            assert_eq!(Size::read(shown), size, "{text}");
        }
    }

    #[test]
    fn every_sixteenth_comes_back_from_its_text() {
        for marks in 1..400 {
            for unit in [Unit::Inch, Unit::Foot, Unit::Yard] {
                let size =
                    Size::of([length(Exact::new(marks, 16), unit), length(Exact::new(marks, 12), unit)]);
                assert_eq!(Size::read(&size.to_string()), size);
            }
        }
    }

    #[test]
    fn sizes_are_one_however_they_are_written() {
        let same =
            [("3 in", "3\""), ("16 ft x 7 ft", "16' x 7'"), ("16 ft x 7 ft", "16x7"), ("1 ft", "12 in")];
        for (a, b) in same {
            assert!(Size::read(a).is_like(&Size::read(b)), "{a} is {b}");
        }
        for (a, b) in [("3 in", "4 in"), ("16 ft x 7 ft", "9x7"), ("3 in", "3 in x 4 in"), ("large", "3 in")]
        {
            assert!(!Size::read(a).is_like(&Size::read(b)), "{a} isn't {b}");
        }
    }
}
