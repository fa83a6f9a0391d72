//! When a picture was taken or a recording begun, as its clock showed it.

use exif::{DateTime as ExifTime, Exif, In, Tag, Value};
use jiff::civil::DateTime;
use jiff::fmt::temporal::Pieces;
use jiff::tz::Offset;
use std::fmt;
use std::str::FromStr;

/// Where a time was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// In the picture's EXIF data.
    Exif,
    /// In the file's name.
    Name,
    /// Somebody typed it.
    Typed,
}

/// What a clock on the wall showed, and how far that is from UTC where it is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    /// What the clock showed.
    pub shown: DateTime,
    /// East of UTC, in seconds.
    pub offset: Option<i32>,
    /// Where it was read.
    pub source: Source,
}

impl Stamp {
    /// What the clock showed, in milliseconds; for differences only.
    pub(super) fn shown_ms(&self) -> i64 {
        Offset::UTC.to_timestamp(self.shown).map_or(0, |timestamp| timestamp.as_millisecond())
    }

    /// The same moment on a clock that is so far from UTC, in milliseconds; where either is not told, both clocks are
    /// taken to hang on one wall.
    pub(super) fn on_clock_of(&self, other: &Self) -> i64 {
        match (self.offset, other.offset) {
            (Some(own), Some(theirs)) => self.shown_ms() + i64::from(theirs - own) * 1000,
            _ => self.shown_ms(),
        }
    }

    /// The time in a picture's EXIF data.
    pub(super) fn of_exif(exif: &Exif) -> Option<Self> {
        let sets = [
            (Tag::DateTimeOriginal, Tag::SubSecTimeOriginal, Tag::OffsetTimeOriginal),
            (Tag::DateTimeDigitized, Tag::SubSecTimeDigitized, Tag::OffsetTimeDigitized),
        ];
        sets.into_iter().find_map(|(time, parts, offset)| {
            let mut read = ExifTime::from_ascii(ascii(exif, time)?).ok()?;
            // What isn't there, or is nonsense, leaves whole seconds and no offset.
            let _ = ascii(exif, parts).map(|text| read.parse_subsec(text));
            let _ = ascii(exif, offset).map(|text| read.parse_offset(text));
            let [month, day, hour, minute, second] =
                [read.month, read.day, read.hour, read.minute, read.second].map(|part| part as i8);
            let nanoseconds = read.nanosecond.unwrap_or(0) as i32;
            let year = i16::try_from(read.year).ok()?;
            let shown = DateTime::new(year, month, day, hour, minute, second, nanoseconds).ok()?;
            Some(Self {
                shown,
                offset: read.offset.map(|minutes| i32::from(minutes) * 60),
                source: Source::Exif,
            })
        })
    }

    /// The time in a file's name: `20261127_101530`, `2026-11-27 10.15.30`, `IMG_20261127_101530123`.
    pub fn of_name(name: &str) -> Option<Self> {
        let letters: Vec<char> = name.chars().collect();
        let begins =
            |at: &usize| letters[*at].is_ascii_digit() && (*at == 0 || !letters[at - 1].is_ascii_digit());
        let shown = (0..letters.len()).filter(begins).find_map(|at| named(&letters[at..]))?;
        Some(Self { shown, offset: None, source: Source::Name })
    }
}

fn ascii(exif: &Exif, tag: Tag) -> Option<&[u8]> {
    match &exif.get_field(tag, In::PRIMARY)?.value {
        Value::Ascii(texts) => texts.first().map(Vec::as_slice),
        _ => None,
    }
}

/// The time that letters begin with: a year, and five numbers of two digits with at most one sign before each.
fn named(letters: &[char]) -> Option<DateTime> {
    let mut at = 0;
    let mut number = |digits: usize| -> Option<i32> {
        at += usize::from(at > 0 && !letters.get(at)?.is_ascii_digit());
        let text: String = letters.get(at..at + digits)?.iter().collect();
        at += digits;
        text.bytes().all(|byte| byte.is_ascii_digit()).then(|| text.parse().ok())?
    };
    let year = number(4).filter(|year| (1990..2100).contains(year))?;
    let mut two = || number(2).map(|number| number as i8);
    let (month, day, hour, minute, second) = (two()?, two()?, two()?, two()?, two()?);
    let more: String = letters[at..].iter().take_while(|letter| letter.is_ascii_digit()).collect();
    let thousandths = match more.len() {
        0 => 0,
        3 => more.parse::<i32>().ok()?,
        _ => return None,
    };
    DateTime::new(year as i16, month, day, hour, minute, second, thousandths * 1_000_000).ok()
}

impl FromStr for Stamp {
    type Err = String;

    /// As RFC 3339 writes it: `2026-11-27T10:15:30-06:00`.
    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = || format!("“{text}” is no time: write it as 2026-11-27T10:15:30-06:00");
        let pieces = Pieces::parse(text).map_err(|_| wrong())?;
        let (time, offset) =
            (pieces.time().ok_or_else(wrong)?, pieces.to_numeric_offset().ok_or_else(wrong)?);
        let shown = pieces.date().to_datetime(time);
        Ok(Self { shown, offset: Some(offset.seconds()), source: Source::Typed })
    }
}

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.shown)?;
        match self.offset {
            None => Ok(()),
            Some(offset) => {
                let (sign, minutes) = (if offset < 0 { '-' } else { '+' }, offset.abs() / 60);
                write!(f, "{sign}{:02}:{:02}", minutes / 60, minutes % 60)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_with_a_time_are_read_and_others_are_not() {
        let shown = |name: &str| Stamp::of_name(name).map(|stamp| stamp.shown.to_string());
        let time = Some("2026-11-27T10:15:30".to_owned());
        for name in [
            "20261127_101530.jpg",
            "IMG_20261127_101530.jpg",
            "2026-11-27 10.15.30.png",
            "photo-2026-11-27-10-15-30.heic",
            "20261127101530.m4a",
            "7 20261127T101530.jpg",
        ] {
            assert_eq!(shown(name), time, "{name}");
        }
        assert_eq!(shown("X_20261127_101530123.jpg").as_deref(), Some("2026-11-27T10:15:30.123"));
        for name in [
            "IMG-20261127-WA0003.jpg",
            "IMG_0412.jpg",
            "20261327_101530.jpg",
            "20261127_256000.jpg",
            "2026.jpg",
        ] {
            assert_eq!(shown(name), None, "{name}");
        }
    }

    #[test]
    fn a_typed_time_has_its_offset() {
        let stamp: Stamp = "2026-11-27T10:15:30-06:00".parse().unwrap();
        assert_eq!((stamp.offset, stamp.to_string().as_str()), (Some(-21_600), "2026-11-27T10:15:30-06:00"));
        let utc: Stamp = "2026-11-27T16:15:30Z".parse().unwrap();
        assert_eq!(utc.on_clock_of(&stamp), stamp.shown_ms());
        for bad in ["2026-11-27", "2026-11-27T10:15:30", "noon", ""] {
            assert!(bad.parse::<Stamp>().is_err(), "{bad}");
        }
    }
}
