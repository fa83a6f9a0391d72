//! Lengths and slopes as a person types them: `26' 4"`, `6/12`.

use crate::language::numbers::{Amount, spelled_out};
use crate::language::phrases;
use crate::language::rules::Grammar;
use crate::language::tokens::Tokens;
use crate::model::{Exact, Unit};
use crate::speech::Transcript;

/// The feet of one length as a person types it: `26`, `26' 4"`, `316 in`. None where it is no length, or a range.
pub fn length_of(typed: &str, grammar: &Grammar) -> Option<Exact> {
    if typed.trim_start().starts_with(['-', '−', '–']) {
        return None;
    }
    let (amount, alone) = amount_in(typed, grammar)?;
    let one = alone && amount.by.is_none() && !amount.of_them && amount.low == amount.high;
    feet(amount.low, amount.unit.or(Some(Unit::Foot))).filter(|feet| one && *feet > Exact::ZERO)
}

/// The inches of rise in twelve of run as a person types them: `6`, `6/12`, `6 in 12`. None where it tells no slope.
pub fn rise_of(typed: &str, grammar: &Grammar) -> Option<Exact> {
    let typed = typed.trim();
    // A number alone is read as the pitch it can only mean here.
    let said = if typed.contains("pitch") { typed.to_owned() } else { format!("{typed} pitch") };
    let tokens = Tokens::new(&Transcript::from_plain(&said), &grammar.vocabulary);
    let slopes = phrases::slopes(&tokens, grammar);
    let [rise] = slopes.as_slice() else { return None };
    (rise.first == 0 && rise.end == tokens.list.len()).then_some(rise.inches)
}

/// The one amount of a text, and whether it is all of it.
fn amount_in(text: &str, grammar: &Grammar) -> Option<(Amount, bool)> {
    let tokens = Tokens::new(&Transcript::from_plain(&spelled_out(text)), &grammar.vocabulary);
    let amounts = phrases::amounts(&tokens, grammar);
    let [amount] = amounts.as_slice() else { return None };
    Some((*amount, amount.first == 0 && amount.end == tokens.list.len()))
}

fn feet(value: Exact, unit: Option<Unit>) -> Option<Exact> {
    Some(value * unit?.in_unit(Unit::Foot)?)
}
