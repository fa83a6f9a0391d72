//! What a person types into a field, read by the rules that read what is said.

use super::refusal::Refusal;
use crate::language::numbers::spelled_out;
use crate::language::rules::{Grammar, Match, Meaning, Target};
use crate::language::tokens::Tokens;
use crate::language::{mentions, phrases};
use crate::model::{Flag, Length, Line, Quantity, Size, Unit};
use crate::scope::review::deed::Fields;
use crate::speech::Transcript;

/// A number with its unit, or a range of numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typed {
    /// The number, or the range.
    pub quantity: Quantity,
    /// The unit, where one was typed.
    pub unit: Option<Unit>,
    /// Typed with a hedge.
    pub rough: bool,
}

/// The longest that a field may be, in letters.
const LONGEST: usize = 2_000;

/// Reads a quantity: `12`, `6' 6"`, `about 30 ft`, `12-14`.
///
/// # Errors
/// What can't be understood as one number.
pub fn quantity(text: &str, grammar: &Grammar) -> Result<Typed, Refusal> {
    let refused = |message: String| Refusal::NotUnderstood { field: "quantity", message };
    let text = checked("quantity", text)?;
    if text.starts_with(['-', '−', '–']) {
        return Err(refused("a quantity is zero or more".to_owned()));
    }
    let tokens = tokens(&spelled_out(text), grammar);
    let amounts = phrases::amounts(&tokens, grammar);
    let [amount] = amounts.as_slice() else {
        let why = if amounts.is_empty() { "is no number" } else { "holds more than one number" };
        return Err(refused(format!("“{}” {why}: type it as 12, 6' 6\", 12-14 ft", shortened(text))));
    };
    let hedges = mentions::find(&tokens, grammar);
    let is_rough = |at: usize| {
        hedges.iter().any(|m| m.first <= at && at < m.end && m.meaning(grammar) == Some(Meaning::Rough))
    };
    let beside: Vec<usize> =
        (0..tokens.list.len()).filter(|at| !(amount.first..amount.end).contains(at)).collect();
    if let Some(other) = beside.iter().find(|at| !is_rough(**at)) {
        let other = tokens.said(*other);
        return Err(refused(format!("“{}” is no part of a number or unit", shortened(other))));
    }
    if amount.by.is_some() {
        return Err(refused(format!("“{}” is a size, not how much: type it as the size", shortened(text))));
    }
    Ok(Typed {
        quantity: Quantity::between(amount.low, amount.high),
        unit: amount.unit,
        rough: amount.low != amount.high || !beside.is_empty(),
    })
}

/// Reads a size: `9 ft x 7 ft`, `3"`, "nine by seven feet". Lengths that stand among other words are put into figures
/// there; of several sizes, or of a range, no length is taken.
pub fn size(text: &str, grammar: &Grammar) -> Size {
    let written = Size::read(text);
    if written.words().is_none() {
        return written;
    }
    let tokens = tokens(&spelled_out(text), grammar);
    let amounts = phrases::amounts(&tokens, grammar);
    let [amount] = amounts.as_slice() else { return written };
    if amount.low != amount.high {
        return written;
    }
    let length = |value, unit| Length { value, unit };
    let by = amount.by.map(|by| length(by, amount.by_unit.or(amount.unit)));
    let lengths = std::iter::once(length(amount.low, amount.unit.or(amount.by_unit))).chain(by);
    let (first, last) = (tokens.list[amount.first].text, tokens.list[amount.end - 1].text);
    let (before, behind) = (&tokens.text[..first.start], &tokens.text[last.end..]);
    Size::read(&format!("{before}{}{behind}", Size::of(lengths)))
}

/// The item of the catalogue that a name or an id means.
pub fn item(text: &str, grammar: &Grammar) -> Option<u16> {
    let text = text.trim();
    let by_name = || {
        let tokens = tokens(text, grammar);
        let mut found: Vec<Match> = Vec::new();
        grammar.matches_at(&tokens.list, 0, &mut found);
        found.into_iter().find_map(|m| match m.target {
            Target::Item { item, .. } if m.end == tokens.list.len() => Some(item),
            _ => None,
        })
    };
    grammar.item_named(&text.to_lowercase().replace(' ', "-")).or_else(by_name)
}

fn tokens(text: &str, grammar: &Grammar) -> Tokens {
    Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary)
}

/// Puts typed fields into a line, and takes away the doubts that they settle.
pub(super) fn put(line: &mut Line, fields: &Fields, grammar: &Grammar) -> Result<(), Refusal> {
    if let Some(text) = &fields.item {
        put_item(line, checked("item", text)?, fields.unit.is_none(), grammar)?;
    }
    if let Some(text) = &fields.quantity {
        let text = checked("quantity", text)?;
        let typed = if text.is_empty() { None } else { Some(quantity(text, grammar)?) };
        line.unit = typed.and_then(|typed| typed.unit).unwrap_or(line.unit);
        set_quantity(line, typed.map(|typed| typed.quantity), typed.is_some_and(|typed| typed.rough));
    }
    if let Some(unit) = fields.unit {
        line.unit = unit;
        settle(line, &[Flag::OddUnit, Flag::OddSize]);
    }
    if let Some(work) = fields.work {
        line.work = Some(work);
        settle(line, &[Flag::NoWork]);
    }
    if let Some(text) = &fields.structure {
        let text = checked("structure", text)?;
        line.structure = if text.is_empty() { crate::model::HOUSE.to_owned() } else { text.to_lowercase() };
        settle(line, &[Flag::NoSide]);
    }
    if let Some(side) = fields.side {
        line.side = side;
        settle(line, &[Flag::NoSide]);
    }
    if let Some(text) = &fields.size {
        line.size =
            Some(checked("size", text)?).filter(|text| !text.is_empty()).map(|text| size(text, grammar));
        settle(line, &[Flag::OddSize]);
    }
    if let Some(text) = &fields.detail {
        line.detail = Some(checked("detail", text)?.to_owned()).filter(|text| !text.is_empty());
    }
    Ok(())
}

/// Puts another thing into a line; `own_unit` where no unit was typed beside it, so that it may have its own.
fn put_item(line: &mut Line, text: &str, own_unit: bool, grammar: &Grammar) -> Result<(), Refusal> {
    let known = item(text, grammar).map(|n| &grammar.items[usize::from(n)]);
    match known {
        Some(item) => {
            line.area = item.area;
            let fits = item.takes(line.unit) || item.unit == line.unit;
            if own_unit && line.quantity.is_none() && !fits {
                line.unit = item.unit;
            }
        }
        None if text.is_empty() => {
            return Err(Refusal::NotUnderstood { field: "item", message: "a line needs an item".into() });
        }
        None => text.clone_into(&mut line.said),
    }
    line.item = known.map(|item| item.id.clone());
    settle(line, &[Flag::SoundsLike, Flag::NotInCatalogue, Flag::OddUnit, Flag::OddSize]);
    Ok(())
}

/// Sets how much there is, or takes it away, with what that settles.
pub(super) fn set_quantity(line: &mut Line, quantity: Option<Quantity>, rough: bool) {
    (line.quantity, line.rough) = (quantity, rough);
    if quantity.is_some() {
        settle(line, &[Flag::NoNumber, Flag::OddSize, Flag::OddUnit]);
    }
    line.flags.retain(|flag| *flag != Flag::RoughNumber);
    if rough {
        line.flags.push(Flag::RoughNumber);
        line.flags.sort();
    }
}

/// Takes away doubts that a person has settled; whoever changed a line has listened to it.
pub(super) fn settle(line: &mut Line, settled: &[Flag]) {
    let looked_at = [Flag::UnclearAudio, Flag::ChangedMind, Flag::MaybeRepeat];
    line.flags.retain(|flag| !settled.contains(flag) && !looked_at.contains(flag));
}

pub(super) fn checked<'a>(field: &'static str, text: &'a str) -> Result<&'a str, Refusal> {
    let text = text.trim();
    let refused = |message: &str| Refusal::NotUnderstood { field, message: message.to_owned() };
    if text.chars().count() > LONGEST {
        return Err(refused("this is too long for a field: 2,000 letters at most"));
    }
    if text.chars().any(|c| c.is_control()) {
        return Err(refused("a field is one line without control characters"));
    }
    Ok(text)
}

/// Enough of a text to know it by.
pub(super) fn shortened(text: &str) -> String {
    let mut short: String = text.chars().take(40).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short
}
