//! What was said twice counts once.

use super::lines::Drafted;
use crate::model::{Dimension, FollowUp, Line, Why};
use rustc_hash::FxHashMap;

/// What is told within so many words of another is told of the same sight.
const SIGHT: usize = 80;

/// The lines, each once: of two near each other that agree in everything the surer one stays, and tells the words of the
/// other. A speaker who does have the same number of the same thing twice on one side says so ("two more"). Farther
/// apart both stay: they may be of two floors, or of two buildings that nobody named.
pub(super) fn lines(all: Vec<Drafted>) -> Vec<Drafted> {
    let mut kept: Vec<Drafted> = Vec::new();
    let mut places: FxHashMap<String, usize> = FxHashMap::default();
    for mut one in all {
        let known = places.get(&what(&one.line)).map(|at| &mut kept[*at]);
        let Some(known) = known.filter(|known| known.at.abs_diff(one.at) <= SIGHT) else {
            places.insert(what(&one.line), kept.len());
            kept.push(one);
            continue;
        };
        if one.all > known.all {
            std::mem::swap(known, &mut one);
        }
        let again =
            Why { field: "quantity".to_owned(), rule: "said again".to_owned(), words: one.line.quote };
        known.line.why.push(again);
    }
    kept
}

/// All that makes a line the same as another. Things without a name in the catalogue are the same where they are called
/// the same.
fn what(line: &Line) -> String {
    let name = line.item.clone().unwrap_or_else(|| line.said.to_lowercase());
    let place = (&line.structure, line.side);
    format!("{name} {place:?} {:?}", (line.work, line.quantity, line.unit, &line.size, line.only_if))
}

/// What is still to do, each once; then what asks for the same again. Where it isn't told of which thing, two may well be
/// two.
pub(super) fn follow_ups(all: Vec<FollowUp>) -> (Vec<FollowUp>, Vec<FollowUp>) {
    let (mut kept, mut again): (Vec<FollowUp>, Vec<FollowUp>) = (Vec::new(), Vec::new());
    for todo in all {
        let key = |other: &FollowUp| (other.kind, other.side, other.structure.clone(), other.item.clone());
        let known = todo.item.is_some() && kept.iter().any(|other| key(other) == key(&todo));
        if known { again.push(todo) } else { kept.push(todo) }
    }
    (kept, again)
}

/// What was measured, each once.
pub(super) fn dimensions(all: impl Iterator<Item = Dimension>) -> Vec<Dimension> {
    let mut kept: Vec<Dimension> = Vec::new();
    for found in all {
        let same = |known: &Dimension| {
            (known.shape, known.side, &known.structure) == (found.shape, found.side, &found.structure)
                && (known.width_ft, known.height_ft) == (found.width_ft, found.height_ft)
        };
        if !kept.iter().any(same) {
            kept.push(found);
        }
    }
    kept
}
