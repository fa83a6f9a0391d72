//! Other readings of a line, for a reviewer to choose from: what the other hearing gave, the number before a
//! correction, the number that sounds like the one that was heard.

use crate::language::discourse::Quantity;
use crate::language::rules::NumberWords;
use crate::model::{Exact, Line, Reading};
use std::borrow::Cow;

/// What another line, drafted from the same words, says otherwise; none where it says the same.
pub(super) fn of_other_hearing(line: &Line, other: &Line) -> Option<Reading> {
    let counts = (other.low, other.high, other.unit) != (line.low, line.high, line.unit);
    let counted = other.quantity.filter(|_| counts);
    let reading = Reading {
        structure: (other.structure != line.structure).then(|| other.structure.clone()),
        side: (other.side != line.side).then_some(other.side),
        item: other.item.clone().filter(|_| other.item != line.item),
        work: other.work.filter(|_| other.work != line.work),
        quantity: counted,
        low: counted.and(other.low),
        high: counted.and(other.high),
        unit: counted.map(|_| other.unit),
        size: other.size.clone().filter(|_| other.size != line.size),
        because: Cow::Borrowed("heard so the other time"),
    };
    reading.differs().then_some(reading)
}

/// The number that the narrator put another in place of.
pub(super) fn before_correction(line: &Line, said: &Quantity) -> Option<Reading> {
    let (low, high) = (said.low.decimal(), said.high.decimal());
    let unit = said.unit.unwrap_or(line.unit);
    let other = (Some(low), Some(high), unit) != (line.low, line.high, line.unit);
    other.then(|| Reading {
        quantity: Some(((said.low + said.high) / 2).decimal()),
        low: Some(low),
        high: Some(high),
        unit: Some(unit),
        ..Reading::because("said first, then corrected")
    })
}

/// A number that sounds like the one that was heard.
pub(super) fn sounds_alike(line: &Line, heard: &Quantity, words: &NumberWords) -> Option<Reading> {
    let whole = (heard.low == heard.high && heard.low.is_integer())
        .then(|| i64::try_from(heard.low.to_integer()).ok())
        .flatten()?;
    let rival = Exact::from_integer(words.rival(whole)?).decimal();
    Some(Reading {
        quantity: Some(rival),
        low: Some(rival),
        high: Some(rival),
        unit: Some(line.unit),
        ..Reading::because("sounds much like the number that was heard")
    })
}
