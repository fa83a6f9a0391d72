//! What stands beside the lines: what was cleared, named in passing or not used, what is still to do, what was measured,
//! totals that were said, and the cautions that the work calls for.

use super::source::Source;
use crate::language::discourse::{
    Account, ClearedThing, DimensionSaid, FollowUpSaid, Place, RoofSlope, Span, TotalSaid,
};
use crate::model::{Area, Caution, Cleared, Dimension, FollowUp, Line, SaidTotal, Slope};
use std::collections::BTreeSet;

/// Things of the catalogue that were looked at and cleared, each once a place.
pub(super) fn no_work(source: &Source, account: &Account) -> Vec<Cleared> {
    let mut all: Vec<Cleared> = Vec::new();
    for ClearedThing { item, place, span } in account.cleared.iter().filter(|cleared| cleared.item.is_some())
    {
        let cleared = words_at(source, *item, *span, place);
        let same = |known: &Cleared| {
            (&known.item, known.side, &known.structure) == (&cleared.item, cleared.side, &cleared.structure)
        };
        if !all.iter().any(same) {
            all.push(cleared);
        }
    }
    all
}

/// Words where they were said, about a thing or about none that could be told.
pub(super) fn words_at(source: &Source, item: Option<u16>, span: Span, place: &Place) -> Cleared {
    let (quote, start, end) = source.quoted(span);
    let (structure, side) = (place.structure.clone(), place.side);
    Cleared { structure, side, item: item.map(|item| source.id(item)), quote, start, end }
}

/// The words of a line that came to nothing.
pub(super) fn of_line(line: &Line) -> Cleared {
    Cleared {
        structure: line.structure.clone(),
        side: line.side,
        item: line.item.clone(),
        quote: line.quote.clone(),
        start: line.start,
        end: line.end,
    }
}

/// The words of something still to do that came to nothing.
pub(super) fn of_follow_up(todo: &FollowUp) -> Cleared {
    let FollowUp { structure, side, item, quote, start, end, .. } = todo.clone();
    Cleared { structure, side, item, quote, start, end }
}

/// What is still to do.
pub(super) fn follow_up(source: &Source, todo: &FollowUpSaid) -> FollowUp {
    let Cleared { structure, side, item, quote, start, end } =
        words_at(source, todo.item, todo.span, &todo.place);
    FollowUp { kind: todo.kind, structure, side, item, quote, start, end }
}

/// A total that was said.
pub(super) fn total(source: &Source, total: &TotalSaid) -> SaidTotal {
    let (_, start, end) = source.quoted(total.span);
    SaidTotal {
        item: source.id(total.item),
        quantity: total.amount.low,
        unit: total.amount.unit,
        quote: source.named(total.span),
        words: source.place(total.span),
        start,
        end,
    }
}

/// What was measured.
pub(super) fn dimension(source: &Source, said: &DimensionSaid) -> Dimension {
    let (quote, start, end) = source.quoted(said.span);
    let (structure, side, shape) = (said.place.structure.clone(), said.place.side, said.shape);
    Dimension { structure, side, shape, width_ft: said.width, height_ft: said.height, quote, start, end }
}

/// How steep the roof was said to be.
pub(super) fn slope(source: &Source, slope: &RoofSlope) -> Slope {
    let (quote, start, end) = source.quoted(slope.span);
    let (structure, side) = (slope.place.structure.clone(), slope.place.side);
    Slope { structure, side, rise: slope.rise, quote, start, end }
}

/// The cautions that the lines call for, in the order of the rules file.
pub(super) fn cautions(source: &Source, account: &Account, lines: &[Line]) -> Vec<Caution> {
    let named_here = account.things.iter().filter_map(|thing| thing.item).map(usize::from);
    // A line may hold an item that only the reader recognised.
    let of_line =
        |line: &Line| source.grammar.items.iter().position(|item| Some(&item.id) == line.item.as_ref());
    let items = named_here.chain(lines.iter().filter_map(of_line));
    let named: BTreeSet<&str> =
        items.flat_map(|i| &source.grammar.items[i].cautions).map(String::as_str).collect();
    let on_roof = lines.iter().any(|line| line.area == Area::Roof);
    let shown = source.grammar.cautions.iter().filter(|c| {
        named.contains(c.caution.name.as_str()) || (c.always && !lines.is_empty()) || (c.roof && on_roof)
    });
    shown.map(|c| c.caution.clone()).collect()
}
