//! What a line of their list means: its things, its works, where it is and how large, read by the rules that read what
//! is said.

use super::amount::{Amount, amount};
use super::facts::{Facts, Thing};
use super::model::TheirLine;
use super::named::Named;
use super::place::{Place, place_in};
use super::rows::Listed;
use super::said::Said;
use crate::language::rules::Grammar;
use crate::model::{Exact, Side, Unit, Work};
use crate::scope::review::typed;

/// A line of their list and what it means.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Their {
    /// The line as it is told.
    pub line: TheirLine,
    /// Its facts; of several things or works those of the first.
    pub facts: Facts,
    /// The things it names.
    pub things: Vec<Thing>,
    /// The place it names, where that is none of the four sides.
    pub odd_place: Option<String>,
    /// A unit that isn't known.
    pub odd_unit: Option<String>,
    /// Its place names a point of the compass, and nobody told which side faces north.
    pub by_compass: bool,
    /// The row above it whose place is taken to hold for it, too.
    pub placed_by: Option<usize>,
    /// What is doubtful about the reading, in sentences.
    pub doubts: Vec<String>,
}

/// Reads a line; `north` is the side of the house that faces north, where that is told.
pub(super) fn their(listed: &Listed, north: Option<Side>, grammar: &Grammar) -> Their {
    let words = grammar.lists.written_out(&listed.text);
    let said = Said::new(&words, grammar);
    let (cell, in_text) = (work_cell(&listed.work, grammar), said.works(grammar));
    let works = if cell.is_empty() { in_text } else { cell };
    let mut read = Named::by(&words, &said, grammar);
    let mut amount = amount(&listed.quantity, &listed.unit, grammar);
    if listed.quantity.is_empty() && listed.unit.is_empty() {
        read.amount.iter().for_each(|in_words| amount.clone_from(in_words));
    }
    let (place, placed_by) = place_of(listed, &read, &said, grammar);
    let place = place.turned(north);
    read.doubts.extend(placed_by.map(|row| format!("it names no place; that of row {row} is taken to hold")));
    let size = if listed.size.is_empty() { read.size.clone() } else { Some(listed.size.clone()) };
    let base = |a: &Amount| Some(a.quantity? * a.unit.map_or(Exact::ONE, Unit::plain));
    let facts = Facts {
        structure: place.structure.clone(),
        side: place.side,
        sides: place.several(),
        thing: read.things[0].clone(),
        work: works.first().copied().filter(|_| works.len() == 1),
        size: size.as_deref().map(|size| typed::size(&grammar.lists.written_out(size), grammar)),
        measure: amount.unit.map(Unit::kind),
        odd_unit: amount.odd_unit.is_some(),
        amount: base(&amount),
    };
    Their {
        line: TheirLine {
            row: listed.row,
            text: listed.text.clone(),
            structure: place.structure,
            side: place.side,
            sides: facts.sides.clone(),
            items: read.things.iter().map(|thing| thing.words(grammar)).collect(),
            works,
            quantity: amount.quantity,
            unit: amount.unit,
            size,
            amount: amount.written,
        },
        facts,
        things: read.things,
        by_compass: place.unread.is_some() && !place.points.is_empty(),
        odd_place: place.unread,
        placed_by,
        odd_unit: amount.odd_unit,
        doubts: read.doubts,
    }
}

/// Its own cell tells first, then its own words, then the row above whose place holds for it, then the heading above.
/// With that row, where it is what tells.
fn place_of(listed: &Listed, read: &Named, said: &Said, grammar: &Grammar) -> (Place, Option<usize>) {
    if let Some(own) = &listed.own_place {
        return (own.clone().under(&listed.under), None);
    }
    let in_words = place_in(said, grammar).unwrap_or(Place::UNTOLD);
    let side =
        if in_words.side == Side::None && in_words.unread.is_none() { read.side } else { in_words.side };
    let own = Place { side, ..in_words };
    match &listed.above {
        Some((row, place)) if own == Place::UNTOLD => (place.clone().under(&listed.under), Some(*row)),
        _ => (own.under(&listed.under), None),
    }
}

fn work_cell(cell: &str, grammar: &Grammar) -> Vec<Work> {
    if cell.is_empty() {
        return Vec::new();
    }
    Said::new(&grammar.lists.written_out(cell), grammar).works(grammar)
}
