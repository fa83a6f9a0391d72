//! What is known of a house's size: its measured faces, its openings, and the lines that stand.

use super::exact::{Exact, of_decimal, whole};
use super::formula::{Formula, Input, Measure, Origin, face};
use crate::draft::{Dimension, Draft, Line, Shape, Side, Unit, Work};
use crate::grammar::{Grammar, Item, Opening};
use crate::mentions;
use crate::span::Moment;
use crate::tokens::Tokens;
use crate::words::Transcript;
use std::collections::BTreeMap;

/// What a takeoff is computed from.
pub struct House<'a> {
    /// The measured faces, those told in two breaths put together.
    pub faces: Vec<Face>,
    /// The openings with their sizes.
    pub openings: Vec<OpeningSize>,
    /// The lines that stand, without the conditional ones.
    pub lines: Vec<&'a Line>,
    /// The rules.
    pub grammar: &'a Grammar,
}

/// A measured face.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// On which structure.
    pub structure: String,
    /// On which side.
    pub side: Side,
    /// Wall, gable or roof slope.
    pub shape: Shape,
    /// How wide, and where that was said.
    pub width: Option<Told>,
    /// How high; of a roof slope, how far up the rafter.
    pub height: Option<Told>,
}

/// A length and the words that told it.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// In feet.
    pub feet: Exact,
    /// The words.
    pub quote: String,
    /// When they begin.
    pub start: Option<Moment>,
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

impl Face {
    /// A width or a height as a formula.
    pub fn length(&self, told: &Told, what: &str) -> Formula {
        let shape = crate::documents::wording::shape(self.shape);
        told.formula(format!("{}, {what}", face(&self.structure, self.side, shape)))
    }

    /// Width and height as formulas, where both are known.
    pub fn measures(&self) -> Option<[Formula; 2]> {
        let (width, height) = (self.width.as_ref()?, self.height.as_ref()?);
        Some([self.length(width, "width"), self.length(height, "height")])
    }
}

impl Told {
    fn of(feet: Option<f64>, dimension: &Dimension) -> Option<Self> {
        let (quote, start) = (dimension.quote.clone(), dimension.start);
        feet.map(|feet| Self { feet: of_decimal(feet), quote, start })
    }

    /// As the input of a formula.
    pub fn formula(&self, name: String) -> Formula {
        let origin = Origin::Said { quote: self.quote.clone(), start: self.start };
        Formula::Of(Input { name, value: self.feet, unit: Measure::Foot, origin })
    }
}

impl<'a> House<'a> {
    /// What a draft tells of it.
    pub fn of(draft: &'a Draft, grammar: &'a Grammar) -> Self {
        let lines: Vec<&Line> = draft.lines.iter().filter(|line| !line.only_if).collect();
        let openings = openings(&draft.dimensions, &lines, grammar);
        Self { faces: faces(&draft.dimensions), openings, lines, grammar }
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
        structures.sort_by_key(|structure| *structure != crate::draft::HOUSE);
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

/// The faces, a width and a height of the same one put together where each was said apart.
fn faces(dimensions: &[Dimension]) -> Vec<Face> {
    let mut faces: Vec<Face> = Vec::new();
    for dimension in dimensions.iter().filter(|dimension| dimension.shape != Shape::Opening) {
        let new = Face {
            structure: dimension.structure.clone(),
            side: dimension.side,
            shape: dimension.shape,
            width: Told::of(dimension.width_ft, dimension),
            height: Told::of(dimension.height_ft, dimension),
        };
        let completes = |face: &&mut Face| {
            (&face.structure, face.side, face.shape) == (&new.structure, new.side, new.shape)
                && !(face.width.is_some() && new.width.is_some())
                && !(face.height.is_some() && new.height.is_some())
        };
        match faces.iter_mut().find(completes) {
            Some(face) => {
                face.width = face.width.take().or(new.width);
                face.height = face.height.take().or(new.height);
            }
            None => faces.push(new),
        }
    }
    around(&mut faces);
    faces
}

/// "The walls are nine foot all around" is the height of every wall of the structure that has none of its own.
fn around(faces: &mut Vec<Face>) {
    let is_around =
        |face: &Face| face.side == Side::None && face.shape == Shape::Wall && face.width.is_none();
    let all: Vec<Face> = faces.iter().filter(|face| is_around(face)).cloned().collect();
    for height in all {
        let mut served = false;
        for face in
            faces.iter_mut().filter(|face| face.shape == Shape::Wall && face.structure == height.structure)
        {
            if face.height.is_none() && face.side != Side::None {
                face.height.clone_from(&height.height);
                served = true;
            }
        }
        if served {
            faces.retain(|face| *face != height);
        }
    }
}

fn openings(dimensions: &[Dimension], lines: &[&Line], grammar: &Grammar) -> Vec<OpeningSize> {
    let mut openings = openings_of_lines(lines, grammar);
    for dimension in dimensions.iter().filter(|dimension| dimension.shape == Shape::Opening) {
        let (Some(width), Some(height)) = (dimension.width_ft, dimension.height_ft) else { continue };
        let size = [of_decimal(width), of_decimal(height)];
        let known = openings
            .iter()
            .any(|o| o.structure == dimension.structure && o.side == dimension.side && o.size == Some(size));
        if !known {
            openings.push(OpeningSize {
                structure: dimension.structure.clone(),
                side: dimension.side,
                kind: Opening::Window,
                name: "opening".to_owned(),
                count: whole(1),
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
    let count = of_decimal(line.quantity.filter(|_| line.unit == Unit::Each)?);
    Some(OpeningSize {
        structure: line.structure.clone(),
        side: line.side,
        kind,
        name: crate::documents::wording::item_of(line),
        count,
        size: line.size.as_deref().and_then(|size| size_of(size, grammar)),
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

/// A size as it is written on a line, in feet by feet: `9 ft x 7 ft`, `30 in x 48 in`. None where it is one length, or
/// its unit isn't told.
pub fn size_of(size: &str, grammar: &Grammar) -> Option<[Exact; 2]> {
    let (first, second) = lengths_of(size, grammar)?;
    Some([first, second?])
}

/// The one or the two lengths of a size, in feet.
pub fn lengths_of(size: &str, grammar: &Grammar) -> Option<(Exact, Option<Exact>)> {
    let tokens = Tokens::new(&Transcript::from_plain(size), &grammar.vocabulary);
    let amounts = mentions::amounts(&tokens, grammar);
    let [amount] = amounts.as_slice() else { return None };
    let feet = |value: crate::numbers::Exact, unit: Option<Unit>| {
        let value = Exact::new((*value.numer()).into(), (*value.denom()).into());
        match unit? {
            Unit::Foot => Some(value),
            Unit::Inch => Some(value / super::exact::INCHES),
            _ => None,
        }
    };
    let first = feet(amount.low, amount.unit.or(amount.by_unit))?;
    match amount.by {
        Some(by) => Some((first, Some(feet(by, amount.by_unit.or(amount.unit))?))),
        None => Some((first, None)),
    }
}
