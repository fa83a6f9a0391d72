//! Puts what a person typed into the fields of a line, and takes away the flags that this answers.

use super::command::Fields;
use super::refusal::Refusal;
use super::typed::{checked, item, quantity, size};
use crate::language::rules::{Grammar, Item};
use crate::model::{Flag, HOUSE, Line, Quantity, Unit};

/// Puts typed fields into a line.
pub(super) fn put(line: &mut Line, fields: &Fields, grammar: &Grammar) -> Result<(), Refusal> {
    if let Some(text) = &fields.item {
        put_item(line, text, fields.unit, grammar)?;
    }
    if let Some(text) = &fields.quantity {
        put_quantity(line, text, grammar)?;
    }
    if let Some(unit) = fields.unit {
        line.unit = unit;
        resolve(line, &[Flag::OddUnit, Flag::OddSize]);
    }
    if let Some(work) = fields.work {
        line.work = Some(work);
        resolve(line, &[Flag::NoWork]);
    }
    put_place(line, fields)?;
    put_description(line, fields, grammar)
}

fn put_item(line: &mut Line, text: &str, unit: Option<Unit>, grammar: &Grammar) -> Result<(), Refusal> {
    let text = checked("item", text)?;
    let known = item(text, grammar).map(|n| &grammar.items[usize::from(n)]);
    match known {
        Some(item) => take_over(line, item, unit),
        None if text.is_empty() => {
            return Err(Refusal::NotUnderstood { field: "item", message: "a line needs an item".into() });
        }
        None => text.clone_into(&mut line.said),
    }
    line.item = known.map(|item| item.id.clone());
    resolve(line, &[Flag::SoundsLike, Flag::NotInCatalogue, Flag::OddUnit, Flag::OddSize]);
    Ok(())
}

/// The area of an item of the catalogue, and its unit where the line's own doesn't suit it.
fn take_over(line: &mut Line, item: &Item, unit: Option<Unit>) {
    line.area = item.area;
    let fits = item.takes(line.unit) || item.unit == line.unit;
    if unit.is_none() && line.quantity.is_none() && !fits {
        line.unit = item.unit;
    }
}

fn put_quantity(line: &mut Line, text: &str, grammar: &Grammar) -> Result<(), Refusal> {
    let text = checked("quantity", text)?;
    let typed = if text.is_empty() { None } else { Some(quantity(text, grammar)?) };
    line.unit = typed.and_then(|typed| typed.unit).unwrap_or(line.unit);
    set_quantity(line, typed.map(|typed| typed.quantity), typed.is_some_and(|typed| typed.rough));
    Ok(())
}

/// Sets how much there is, or takes it away, with the flags that this answers.
pub(super) fn set_quantity(line: &mut Line, quantity: Option<Quantity>, rough: bool) {
    (line.quantity, line.rough) = (quantity, rough);
    if quantity.is_some() {
        resolve(line, &[Flag::NoNumber, Flag::OddSize, Flag::OddUnit]);
    }
    line.flags.retain(|flag| *flag != Flag::RoughNumber);
    if rough {
        line.flags.push(Flag::RoughNumber);
        line.flags.sort();
    }
}

fn put_place(line: &mut Line, fields: &Fields) -> Result<(), Refusal> {
    if let Some(text) = &fields.structure {
        let text = checked("structure", text)?;
        line.structure = if text.is_empty() { HOUSE.to_owned() } else { text.to_lowercase() };
        resolve(line, &[Flag::NoSide]);
    }
    if let Some(side) = fields.side {
        line.side = side;
        resolve(line, &[Flag::NoSide]);
    }
    Ok(())
}

fn put_description(line: &mut Line, fields: &Fields, grammar: &Grammar) -> Result<(), Refusal> {
    if let Some(text) = &fields.size {
        let text = checked("size", text)?;
        line.size = (!text.is_empty()).then(|| size(text, grammar));
        resolve(line, &[Flag::OddSize]);
    }
    if let Some(text) = &fields.detail {
        line.detail = Some(checked("detail", text)?.to_owned()).filter(|text| !text.is_empty());
    }
    Ok(())
}

/// Takes away flags that a person has answered; whoever changed a line has listened to it.
pub(super) fn resolve(line: &mut Line, answered: &[Flag]) {
    let listened = [Flag::UnclearAudio, Flag::ChangedMind, Flag::MaybeRepeat, Flag::Unsure];
    line.flags.retain(|flag| !answered.contains(flag) && !listened.contains(flag));
}
