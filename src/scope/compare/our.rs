//! Our lines: those that stand, numbered as the scope's own page has them, and what each is compared by.

use super::facts::{Facts, Thing};
use super::model::OurLine;
use crate::language::rules::Grammar;
use crate::model::{Draft, Exact, Flag, Line, Quantity, wording};
use crate::scope::arrange::{Arranged, Numbered};

/// A line of ours and what it is compared by.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Our {
    /// The line as it is told.
    pub line: OurLine,
    /// Its facts.
    pub facts: Facts,
    /// The bounds of its quantity, in the plainest unit of its measure.
    pub bounds: Option<(Exact, Exact)>,
    /// Its number was hedged.
    pub rough: bool,
    /// No side had been named for it.
    pub no_side_named: bool,
}

/// The lines that stand, and apart from them the conditional ones.
pub(super) fn ours(draft: &Draft, grammar: &Grammar) -> (Vec<Our>, Vec<Our>) {
    let arranged = Arranged::new(draft);
    let stand = arranged.places.iter().flat_map(|place| &place.lines).map(|line| our(line, grammar));
    let only_if = arranged.only_if.iter().map(|line| our(line, grammar));
    (stand.collect(), only_if.collect())
}

fn our(numbered: &Numbered, grammar: &Grammar) -> Our {
    let line = numbered.line;
    let plainly = |of: fn(Quantity) -> Exact| line.quantity.map(|quantity| of(quantity) * line.unit.plain());
    Our {
        line: told(numbered),
        facts: Facts {
            structure: Some(line.structure.clone()),
            side: line.side,
            sides: Vec::new(),
            thing: thing(line, grammar),
            work: line.work,
            size: line.size.clone(),
            measure: Some(line.unit.kind()),
            odd_unit: false,
            amount: plainly(Quantity::value),
        },
        bounds: plainly(Quantity::low).zip(plainly(Quantity::high)),
        rough: line.rough,
        no_side_named: line.flags.contains(&Flag::NoSide),
    }
}

/// The thing; one of other rules than these goes by its name.
fn thing(line: &Line, grammar: &Grammar) -> Thing {
    let known = line.item.as_deref().and_then(|id| grammar.item_named(id));
    known.map_or_else(|| Thing::named(&wording::item_of(line)), Thing::Item)
}

fn told(numbered: &Numbered) -> OurLine {
    let line = numbered.line.clone();
    OurLine {
        number: numbered.number,
        item: wording::item_of(&line),
        time: line.start.map(|start| wording::time_in(numbered.clips, start)),
        photos: Vec::new(),
        needs_look: line.needs_look(),
        id: line.id,
        structure: line.structure,
        side: line.side,
        work: line.work,
        quantity: line.quantity.map(Quantity::value),
        unit: line.unit,
        size: line.size,
        quote: line.quote,
        start: line.start,
    }
}
