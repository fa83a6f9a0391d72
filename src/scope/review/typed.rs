//! What a person types into a field, read by the rules that read what is said.

use super::refusal::Refusal;
use crate::language::numbers::spelled_out;
use crate::language::rules::{Grammar, Meaning};
use crate::language::tokens::Tokens;
use crate::language::{phrases, pieces};
use crate::model::{Length, Quantity, Size, Unit};
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
        return Err(refused("a quantity can't be less than zero".to_owned()));
    }
    let tokens = tokens(&spelled_out(text), grammar);
    let amounts = phrases::amounts(&tokens, grammar);
    let [amount] = amounts.as_slice() else {
        let why = if amounts.is_empty() { "isn't a number" } else { "has more than one number in it" };
        return Err(refused(format!("“{}” {why}: type it like 12, 6' 6\", 12-14 ft", shortened(text))));
    };
    let hedges = pieces::as_written(&spelled_out(text), grammar).mentions;
    let is_rough = |at: usize| {
        hedges.iter().any(|m| m.first <= at && at < m.end && m.meaning(grammar) == Some(Meaning::Rough))
    };
    let beside: Vec<usize> =
        (0..tokens.list.len()).filter(|at| !(amount.first..amount.end).contains(at)).collect();
    if let Some(other) = beside.iter().find(|at| !is_rough(**at)) {
        let other = tokens.said(*other);
        return Err(refused(format!("“{}” isn't part of a number or unit", shortened(other))));
    }
    if amount.by.is_some() {
        return Err(refused(format!("“{}” is a size, not a quantity: type it under Size", shortened(text))));
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
    let by_name = || phrases::item_named_by(&tokens(text, grammar), grammar);
    grammar.item_named(&text.to_lowercase().replace(' ', "-")).or_else(by_name)
}

fn tokens(text: &str, grammar: &Grammar) -> Tokens {
    Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary)
}

/// A text without the spaces around it, if a field may hold it.
pub(super) fn checked<'a>(field: &'static str, text: &'a str) -> Result<&'a str, Refusal> {
    let text = text.trim();
    let refused = |message: &str| Refusal::NotUnderstood { field, message: message.to_owned() };
    if text.chars().count() > LONGEST {
        return Err(refused("this is too long for a field: use 2,000 characters at most"));
    }
    if text.chars().any(|c| c.is_control()) {
        return Err(refused("a field holds a single line of plain text"));
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
