//! What is known of a house's size: its measured faces, its openings, and the lines that stand.

use super::face::{self, Face};
use crate::language::rules::{Grammar, Item, Opening};
use crate::model::span::Moment;
use crate::model::{Dimension, Draft, Exact, Line, Shape, Side, Size, Unit, Work};
use std::collections::BTreeMap;

/// What a takeoff is computed from.
pub struct MeasuredHouse<'a> {
    /// The measured faces.
    pub faces: Vec<Face>,
    /// The openings with their sizes.
    pub openings: Vec<OpeningSize>,
    /// The lines that stand, without the conditional ones.
    pub lines: Vec<&'a Line>,
    /// The rules.
    pub grammar: &'a Grammar,
}

/// Openings of one size on one side.
#[derive(Debug, Clone, PartialEq)]
pub struct OpeningSize {
    /// On which structure.
    pub structure: String,
    /// On which side.
    pub side: Side,
    /// Whether a channel runs around all of it, or a door's three sides.
    pub kind: Opening,
    /// What it is called.
    pub name: String,
    /// How many.
    pub count: Exact,
    /// How wide and how high, in feet; none where that wasn't said.
    pub size: Option<[Exact; 2]>,
    /// The words.
    pub quote: String,
    /// When they begin.
    pub start: Option<Moment>,
}

impl<'a> MeasuredHouse<'a> {
    /// What a draft tells of it.
    pub fn of(draft: &'a Draft, grammar: &'a Grammar) -> Self {
        let lines: Vec<&Line> = draft.lines.iter().filter(|line| !line.only_if).collect();
        let openings = openings(&draft.dimensions, &lines, grammar);
        let mut faces = face::faces(draft, grammar);
        face::spread(&mut faces);
        Self { faces, openings, lines, grammar }
    }

    /// The structures, the house first, in the order in which they are named.
    pub fn structures(&self) -> Vec<&str> {
        let mut structures = Vec::new();
        let named = self.faces.iter().map(|face| &face.structure);
        for structure in named.chain(self.lines.iter().map(|line| &line.structure)) {
            if !structures.contains(&structure.as_str()) {
                structures.push(structure.as_str());
            }
        }
        structures.sort_by_key(|structure| *structure != crate::model::HOUSE);
        structures
    }

    /// The faces of a shape on a structure.
    pub fn faces_of(&self, structure: &str, shape: Shape) -> impl Iterator<Item = &Face> {
        self.faces.iter().filter(move |face| face.structure == structure && face.shape == shape)
    }

    /// The item of a line.
    pub fn item(&self, line: &Line) -> Option<&'a Item> {
        let place = self.grammar.item_named(line.item.as_deref()?)?;
        Some(&self.grammar.items[usize::from(place)])
    }

    /// The lines of an item on a structure that put new material on.
    pub fn renewed(&self, structure: &str, item: &str) -> impl Iterator<Item = &'a Line> {
        let new = |line: &&Line| matches!(line.work, Some(Work::RemoveReplace | Work::Install));
        self.lines
            .iter()
            .copied()
            .filter(move |line| line.structure == structure && line.item.as_deref() == Some(item))
            .filter(new)
    }
}

fn openings(dimensions: &[Dimension], lines: &[&Line], grammar: &Grammar) -> Vec<OpeningSize> {
    let mut openings = openings_of_lines(lines, grammar);
    for dimension in dimensions.iter().filter(|dimension| dimension.shape == Shape::Opening) {
        let (Some(width), Some(height)) = (dimension.width_ft, dimension.height_ft) else { continue };
        let size = [width, height];
        let known = openings
            .iter()
            .any(|o| o.structure == dimension.structure && o.side == dimension.side && o.size == Some(size));
        if !known {
            openings.push(OpeningSize {
                structure: dimension.structure.clone(),
                side: dimension.side,
                kind: Opening::Window,
                name: "opening".to_owned(),
                count: Exact::ONE,
                size: Some(size),
                quote: dimension.quote.clone(),
                start: dimension.start,
            });
        }
    }
    openings
}

/// How many openings are worked on, by work.
type ByWork = BTreeMap<Option<Work>, Exact>;

/// The openings that lines are about. Two works on the same windows are two lines and the same openings; two lines of one
/// work are more of them.
fn openings_of_lines(lines: &[&Line], grammar: &Grammar) -> Vec<OpeningSize> {
    let mut openings: Vec<(OpeningSize, ByWork)> = Vec::new();
    for line in lines {
        let Some(new) = opening(line, grammar) else { continue };
        let at = openings.iter().position(|(known, _)| known.is_like(&new)).unwrap_or_else(|| {
            openings.push((new.clone(), ByWork::new()));
            openings.len() - 1
        });
        *openings[at].1.entry(line.work).or_default() += new.count;
    }
    let counted = |(opening, works): (OpeningSize, ByWork)| OpeningSize {
        count: works.into_values().max().unwrap_or_default(),
        ..opening
    };
    openings.into_iter().map(counted).collect()
}

/// The openings of one line; none where it is about none, or tells no number.
fn opening(line: &Line, grammar: &Grammar) -> Option<OpeningSize> {
    let place = grammar.item_named(line.item.as_deref()?)?;
    let kind = grammar.items[usize::from(place)].opening?;
    let count = line.quantity.filter(|_| line.unit == Unit::Each)?.value();
    Some(OpeningSize {
        structure: line.structure.clone(),
        side: line.side,
        kind,
        name: crate::model::wording::item_of(line),
        count,
        size: line.size.as_ref().and_then(Size::width_and_height),
        quote: line.quote.clone(),
        start: line.start,
    })
}

impl OpeningSize {
    fn is_like(&self, other: &Self) -> bool {
        (&self.structure, self.side, &self.name, self.size)
            == (&other.structure, other.side, &other.name, other.size)
    }
}
