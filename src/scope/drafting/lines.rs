//! Lines: one for one thing, one place, one work.

use super::judge::RuleLine;
use super::source::{Source, join_near};
use super::{confidence, doubts, readings};
use crate::language::discourse::{self, Evidence, Field, Span, Thing, WorkSaid};
use crate::language::rules::Grammar;
use crate::model::{Area, Exact, Line, Quantity, Reading, Unit, Why};
use rustc_hash::FxHashMap;
use std::collections::BTreeSet;

/// A bare number up to this counts pieces of what is also measured: "downspouts, two"; a greater one measures.
const MOST_PIECES: i32 = 8;

/// The lines of these things.
pub(super) fn lines<'t>(source: &Source, things: impl Iterator<Item = &'t Thing>) -> Vec<RuleLine> {
    let of = |thing: &Thing| {
        let at = source.place(thing.name)[1] as usize;
        of_thing(source, thing).into_iter().map(move |line| RuleLine { line, at }).collect::<Vec<_>>()
    };
    things.flat_map(of).collect()
}

/// A line for each work said of a thing; one without work where none was said.
fn of_thing(source: &Source, thing: &Thing) -> Vec<Line> {
    if thing.works.is_empty() {
        return vec![line(source, thing, None)];
    }
    thing.works.iter().map(|work| line(source, thing, Some(work))).collect()
}

fn line(source: &Source, thing: &Thing, work: Option<&WorkSaid>) -> Line {
    let item = thing.item.map(|item| &source.grammar.items[usize::from(item)]);
    let span = words_of(thing, work);
    let (quote, start, end) = source.quoted(span);
    let mut line = Line {
        id: format!("w{}", source.place(thing.name)[0]),
        structure: thing.place.structure.clone(),
        side: thing.place.side,
        area: item.map_or(Area::Wall, |item| item.area),
        item: item.map(|item| item.id.clone()),
        said: source.named(thing.name),
        work: work.map(|work| work.work),
        quantity: quantity(thing, work),
        unit: unit_of(thing, source.grammar),
        rough: thing.quantity.is_some_and(|said| said.rough),
        size: thing.size.clone(),
        detail: detail(source, thing),
        only_if: work.is_some_and(|work| work.only_if),
        confidence: 0.0,
        flags: Vec::new(),
        quote,
        words: Some(source.place(span)),
        start,
        end,
        other_reading: None,
        readings: Vec::new(),
        why: thing.evidence.iter().filter(|e| shows(e, work)).map(|e| why(source, e)).collect(),
    };
    line.flags = doubts::flags(source, thing, work, span, &line);
    line.readings = readings(source, thing, work, &line);
    let unmarked = source.tokens.list[thing.name.first].doubt.is_some();
    line.confidence = confidence::of(&line, unmarked, source.tokens.from_sound);
    line
}

/// The words of a line: the thing with its number, and the work if it stands near.
fn words_of(thing: &Thing, work: Option<&WorkSaid>) -> Span {
    let how_much = thing.evidence.iter().filter(|e| matches!(e.field, Field::Quantity | Field::Size));
    let span = how_much.fold(thing.name, |span, evidence| join_near(span, evidence.span));
    work.map_or(span, |work| join_near(span, work.span))
}

/// The number that a work falls on.
fn quantity(thing: &Thing, work: Option<&WorkSaid>) -> Option<Quantity> {
    match work.and_then(|work| work.of) {
        Some(of) => Some(Quantity::of(of)),
        None => thing.quantity.map(|said| Quantity::between(said.low, said.high)),
    }
}

/// What the quantity of a thing counts: the unit that was said, else the item's own. A small number of what is measured, said
/// without a unit, counts pieces.
pub(in crate::scope) fn unit_of(thing: &Thing, grammar: &Grammar) -> Unit {
    let item = thing.item.map(|item| &grammar.items[usize::from(item)]);
    let own = item.map_or(Unit::Each, |item| item.unit);
    let told = |said: &discourse::Quantity| !said.implied || said.low > Exact::ONE;
    let few =
        |said: &discourse::Quantity| said.unit.is_none() && told(said) && said.high <= MOST_PIECES.into();
    let bare_count = thing.quantity.as_ref().is_some_and(few);
    match thing.quantity.and_then(|said| said.unit) {
        Some(unit) => unit,
        None if bare_count && item.is_some_and(|i| !i.counted() && i.takes(Unit::Each)) => Unit::Each,
        None => own,
    }
}

/// Material and style words.
fn detail(source: &Source, thing: &Thing) -> Option<String> {
    let words: BTreeSet<usize> = thing.detail.iter().copied().collect();
    let said: Vec<String> = words.iter().map(|token| source.tokens.said(*token).to_lowercase()).collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// What else the number may be.
fn readings(source: &Source, thing: &Thing, work: Option<&WorkSaid>, line: &Line) -> Vec<Reading> {
    let whole = work.is_none_or(|work| work.of.is_none());
    let unsure = |said: &discourse::Quantity| whole && !said.implied && doubts::number_unclear(source, thing);
    let alike = thing.quantity.filter(unsure);
    let alike = alike.and_then(|said| readings::sounds_alike(line, &said, &source.grammar.numbers));
    let before = thing.replaced.filter(|_| whole);
    let before = before.and_then(|said| readings::before_correction(line, &said));
    before.into_iter().chain(alike).collect()
}

/// Whether evidence belongs to the line of this work.
fn shows(evidence: &Evidence, work: Option<&WorkSaid>) -> bool {
    evidence.field != Field::Work || work.is_some_and(|work| work.span == evidence.span)
}

fn why(source: &Source, evidence: &Evidence) -> Why {
    let words = source.quoted(evidence.span).0;
    Why { field: evidence.field.name().into(), rule: evidence.origin.told(source.grammar).into(), words }
}

/// Lines that come from the same word get a letter each.
pub(super) fn tell_apart(lines: &mut [Line]) {
    let mut seen: FxHashMap<String, u8> = FxHashMap::default();
    for line in lines {
        let count = seen.entry(line.id.clone()).or_default();
        *count += 1;
        if *count > 1 {
            line.id.push(char::from(b'a' + (*count - 1).min(25)));
        }
    }
}
