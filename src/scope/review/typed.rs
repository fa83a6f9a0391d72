//! What a person types into a field, read by the rules that read what is said.

use super::refusal::Refusal;
use crate::language::numbers::{decimal, spelled_out};
use crate::language::rules::{Grammar, Meaning};
use crate::language::tokens::Tokens;
use crate::language::{phrases, pieces};
use crate::model::Unit;
use crate::speech::Transcript;

/// A number with its unit, or a range of numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typed {
    /// The lower bound.
    pub low: f64,
    /// The upper bound.
    pub high: f64,
    /// The middle.
    pub quantity: f64,
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
        low: decimal(amount.low),
        high: decimal(amount.high),
        quantity: decimal(amount.value()),
        unit: amount.unit,
        rough: amount.low != amount.high || !beside.is_empty(),
    })
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
