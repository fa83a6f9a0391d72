//! What is doubtful about a line: its flags.

use super::confidence;
use super::source::Source;
use crate::language::discourse::{Field, Span, Thing, WorkSaid};
use crate::language::rules::Item;
use crate::model::{Flag, Line, Quantity, Unit};
use std::collections::BTreeSet;

/// So few square feet without their unit are likelier squares (common practice, no source).
const FEW_SQUARE_FEET: i32 = 10;

/// The chances in percent of a line's gaps to be read wrongly, summed, from which on it is looked at.
const RUN_TOGETHER: u32 = 130;

/// A number of whose words the recogniser is less sure than this is offered with what sounds like it.
const UNSURE_NUMBER: f32 = 0.7;

/// Why a reviewer should look at a line, sorted; `span` are its words.
pub(super) fn flags(
    source: &Source,
    thing: &Thing,
    work: Option<&WorkSaid>,
    span: Span,
    line: &Line,
) -> Vec<Flag> {
    let item = thing.item.map(|item| &source.grammar.items[usize::from(item)]);
    let is = |of: &dyn Fn(&Item) -> bool| item.is_some_and(of);
    let doubts = [
        (Flag::RoughNumber, line.rough || line.quantity.is_some_and(Quantity::is_range)),
        (Flag::NoNumber, line.quantity.is_none() && !is(&|item| item.as_one)),
        (Flag::NoWork, line.work.is_none()),
        (Flag::NoSide, !thing.place.named),
        (Flag::OnlyIf, line.only_if),
        (Flag::NotInCatalogue, item.is_none()),
        (Flag::OddUnit, is(&|item| !item.takes(line.unit) && line.unit != item.unit)),
        (Flag::OddSize, is(&|item| is_unusual(thing, item, line))),
        (Flag::UnclearAudio, unclear(source, thing) || run_together(source, span)),
        (Flag::SoundsLike, work.is_some_and(|work| source.by_sound(work.span))),
    ];
    let mut flags: BTreeSet<Flag> = thing.flags.clone();
    flags.extend(doubts.into_iter().filter(|(_, doubtful)| *doubtful).map(|(flag, _)| flag));
    flags.into_iter().collect()
}

/// Whether the recogniser may have taken the number for one that sounds like it.
pub(super) fn number_unclear(source: &Source, thing: &Thing) -> bool {
    number_of(thing).any(|span| source.less_sure(span, UNSURE_NUMBER))
}

/// Whether the recogniser was unsure of the words that name the thing or its number.
fn unclear(source: &Source, thing: &Thing) -> bool {
    let mut words = std::iter::once(thing.name).chain(number_of(thing));
    words.any(|span| source.less_sure(span, confidence::UNCLEAR))
}

/// The words that gave the number.
fn number_of(thing: &Thing) -> impl Iterator<Item = Span> {
    thing.evidence.iter().filter(|evidence| evidence.field == Field::Quantity).map(|evidence| evidence.span)
}

/// Whether the words of a line, written down without marks, could as well be cut elsewhere.
fn run_together(source: &Source, span: Span) -> bool {
    let gaps = source.tokens.list.iter().take(span.end + 1).skip(span.first);
    gaps.filter_map(|token| token.doubt).map(u32::from).sum::<u32>() >= RUN_TOGETHER
}

/// More than is usual of it, a part of what comes in pieces ("splash block, broke in half"), or so few square feet, with
/// no unit said, that squares may have been meant.
fn is_unusual(thing: &Thing, item: &Item, line: &Line) -> bool {
    let Some(quantity) = line.quantity.filter(|_| line.unit == item.unit) else { return false };
    let unsaid = thing.quantity.is_some_and(|said| said.unit.is_none() && !said.implied);
    let pieces = matches!(line.unit, Unit::Each | Unit::Pair | Unit::Set);
    let part = pieces && !quantity.low().is_integer();
    part || item.most.is_some_and(|most| quantity.value() > most.into())
        || unsaid && item.unit == Unit::SquareFoot && quantity.value() <= FEW_SQUARE_FEET.into()
}
