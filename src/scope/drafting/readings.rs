//! Other readings of a line, for a reviewer to choose from: what the other hearing gave, the number before a
//! correction, the number that sounds like the one that was heard.

use crate::language::discourse;
use crate::language::rules::NumberWords;
use crate::model::{Line, Quantity, Reading};
use std::borrow::Cow;

/// What another line, drafted from the same words, says otherwise; none where it says the same.
pub(super) fn of_other_hearing(line: &Line, other: &Line) -> Option<Reading> {
    let counts = (other.quantity, other.unit) != (line.quantity, line.unit);
    let counted = other.quantity.filter(|_| counts);
    let reading = Reading {
        structure: (other.structure != line.structure).then(|| other.structure.clone()),
        side: (other.side != line.side).then_some(other.side),
        item: other.item.clone().filter(|_| other.item != line.item),
        work: other.work.filter(|_| other.work != line.work),
        quantity: counted,
        unit: counted.map(|_| other.unit),
        size: other.size.clone().filter(|_| other.size != line.size),
        because: Cow::Borrowed("heard on a second listen"),
    };
    reading.differs().then_some(reading)
}

/// The number that the narrator put another in place of.
pub(super) fn before_correction(line: &Line, said: &discourse::Quantity) -> Option<Reading> {
    let quantity = Some(Quantity::between(said.low, said.high));
    let unit = said.unit.unwrap_or(line.unit);
    let other = (quantity, unit) != (line.quantity, line.unit);
    other.then(|| Reading { quantity, unit: Some(unit), ..Reading::because("said first, then corrected") })
}

/// A number that sounds like the one that was heard.
pub(super) fn sounds_alike(line: &Line, heard: &discourse::Quantity, words: &NumberWords) -> Option<Reading> {
    let whole = heard.low == heard.high && heard.low.is_integer();
    let whole = i64::try_from(heard.low.to_integer()).ok().filter(|_| whole)?;
    Some(Reading {
        quantity: Some(Quantity::of(words.rival(whole)?)),
        unit: Some(line.unit),
        ..Reading::because("sounds much like the number that was heard")
    })
}
