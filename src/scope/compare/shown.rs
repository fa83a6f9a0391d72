//! A finding in the words of a document, the same on every kind of paper.

use super::model::{Finding, OurLine, TheirLine};
use super::words;
use crate::model::wording::{self, unit_word};
use crate::model::{Exact, HOUSE, Side};
use std::collections::BTreeSet;

/// A finding as documents show it: each field in words, empty where there is nothing to show.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Shown {
    /// The numbers of our lines.
    pub our_lines: String,
    /// The rows of theirs.
    pub their_rows: String,
    /// What ours come to, as a spreadsheet reads it: a number of the unit.
    pub our_quantity: String,
    /// What theirs come to, the same way.
    pub their_quantity: String,
    /// Theirs less ours, the same way, with its sign.
    pub difference: String,
    /// The unit.
    pub unit: String,
    /// What ours come to, as a person reads it: `38' 4"`.
    pub ours: String,
    /// What theirs come to, the same way.
    pub theirs: String,
    /// Theirs less ours, the same way; `none` where there is none, empty where it isn't decided.
    pub more: String,
    /// The things, each once.
    pub item: String,
    /// The works, each once.
    pub work: String,
    /// The places, each once.
    pub side: String,
    /// The sizes, each once.
    pub size: String,
    /// Their words.
    pub their_words: String,
}

impl Shown {
    /// A finding in words.
    pub fn of(finding: &Finding) -> Self {
        let Finding { ours, theirs, .. } = finding;
        let amount = |quantity: Option<Exact>| quantity.map(Exact::text).unwrap_or_default();
        let told = |quantity: Option<Exact>| {
            quantity.map(|quantity| words::amount(quantity, finding.unit)).unwrap_or_default()
        };
        // Where both can't be told in one unit, each is told as it stands.
        let apart = finding.difference.is_none();
        let ours_apart = || each(ours.iter().map(our_amount));
        let theirs_apart = || each(theirs.iter().map(|their| their.amount.clone()));
        Self {
            our_lines: each(ours.iter().map(|our| our.number.to_string())),
            their_rows: each(theirs.iter().map(|their| their.row.to_string())),
            our_quantity: if apart { ours_apart() } else { amount(finding.our_quantity) },
            their_quantity: if apart { theirs_apart() } else { amount(finding.their_quantity) },
            ours: if apart { ours_apart() } else { told(finding.our_quantity) },
            theirs: if apart { theirs_apart() } else { told(finding.their_quantity) },
            more: finding.difference.map(|more| words::difference(more, finding.unit)).unwrap_or_default(),
            difference: finding.difference.map(signed).unwrap_or_default(),
            unit: finding
                .unit
                .filter(|_| !apart)
                .map(|unit| unit_word(unit, false).to_owned())
                .unwrap_or_default(),
            item: if ours.is_empty() {
                each(theirs.iter().flat_map(|t| t.items.clone()))
            } else {
                each(ours.iter().map(|o| o.item.clone()))
            },
            work: works(finding),
            side: if ours.is_empty() {
                each(theirs.iter().map(their_place))
            } else {
                each(ours.iter().map(our_place))
            },
            size: if ours.is_empty() {
                each(theirs.iter().filter_map(|t| t.size.clone()))
            } else {
                each(ours.iter().filter_map(|o| o.size.as_ref()).map(wording::size))
            },
            their_words: each(theirs.iter().map(|their| their.text.clone())),
        }
    }

    /// A line of ours alone.
    pub fn of_ours(line: &OurLine) -> Self {
        Self {
            our_lines: line.number.to_string(),
            our_quantity: line.quantity.map(Exact::text).unwrap_or_default(),
            ours: our_amount(line),
            unit: unit_word(line.unit, false).to_owned(),
            item: line.item.clone(),
            work: wording::work(line.work).to_owned(),
            side: our_place(line),
            size: line.size.as_ref().map(wording::size).unwrap_or_default(),
            ..Self::default()
        }
    }
}

/// Different values, each once, in order.
fn each(values: impl Iterator<Item = String>) -> String {
    let mut seen = BTreeSet::new();
    let once: Vec<String> = values.filter(|value| !value.is_empty() && seen.insert(value.clone())).collect();
    once.join(", ")
}

fn works(finding: &Finding) -> String {
    let theirs = finding.theirs.iter().flat_map(|their| their.works.iter().map(|work| Some(*work)));
    let all: Vec<String> = match finding.ours.is_empty() {
        true => theirs.map(|work| wording::work(work).to_owned()).collect(),
        false => finding.ours.iter().map(|our| wording::work(our.work).to_owned()).collect(),
    };
    each(all.into_iter())
}

/// How much a line of ours has, as a person reads it; empty where no number was said.
fn our_amount(line: &OurLine) -> String {
    line.quantity.map(|quantity| words::amount(quantity, Some(line.unit))).unwrap_or_default()
}

/// The side, and the building where it isn't the house.
fn our_place(line: &OurLine) -> String {
    place(Some(&line.structure), line.side)
}

/// The same of theirs, with all sides that it names.
pub(super) fn their_place(line: &TheirLine) -> String {
    let several: Vec<&str> = line.sides.iter().map(|side| wording::side(*side)).collect();
    match (line.structure.as_deref(), several.is_empty()) {
        (structure, true) => place(structure, line.side),
        (Some(structure), false) if structure != HOUSE => format!("{structure}, {}", several.join(" and ")),
        (_, false) => several.join(" and "),
    }
}

fn place(structure: Option<&str>, side: Side) -> String {
    match structure {
        Some(structure) if structure != HOUSE => wording::whereabouts(structure, side),
        _ => wording::side(side).to_owned(),
    }
}

/// A number with its sign; a real minus would be no number to a spreadsheet.
fn signed(difference: Exact) -> String {
    let text = difference.text();
    if difference > Exact::ZERO && text != "0" { format!("+{text}") } else { text }
}
