//! The faces of a house as they were measured: those told in two breaths put together, and what a person typed in the
//! review in the place of what was said.

use super::formula::{Formula, Input, Measure, Origin, face};
use super::typed;
use crate::language::rules::Grammar;
use crate::model::{Dimension, Draft, Exact, Measured, Shape, Side, Slope, Typed};

/// A measured face.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// On which structure.
    pub structure: String,
    /// On which side.
    pub side: Side,
    /// Wall, gable, roof slope.
    pub shape: Shape,
    /// Which of this shape on this side, from 1.
    pub number: usize,
    /// How wide, in feet; of a roof slope along the eave, of a hip or valley the run.
    pub width: Option<Told>,
    /// How high, in feet; of a roof slope, how far up the rafter.
    pub height: Option<Told>,
    /// How steep, in inches of rise in twelve of run; of a roof slope only.
    pub rise: Option<Told>,
}

/// A measure, and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// In feet; a slope in inches.
    pub value: Exact,
    /// The words, or who typed it.
    pub origin: Origin,
}

impl Face {
    fn of(structure: &str, side: Side, shape: Shape) -> Self {
        let structure = structure.to_owned();
        Self { structure, side, shape, number: 1, width: None, height: None, rise: None }
    }

    /// A width or a height as a formula.
    pub fn length(&self, told: &Told, what: &str) -> Formula {
        told.formula(self.named(what), Measure::Foot)
    }

    /// Width and height as formulas, where both are known.
    pub fn measures(&self) -> Option<[Formula; 2]> {
        let (width, height) = (self.width.as_ref()?, self.height.as_ref()?);
        Some([self.length(width, "width"), self.length(height, "height")])
    }

    /// How steep it is, as a formula.
    pub fn slope(&self) -> Option<Formula> {
        Some(self.rise.as_ref()?.formula(self.named("rise in twelve"), Measure::InTwelve))
    }

    fn named(&self, what: &str) -> String {
        let shape = crate::model::wording::shape(self.shape);
        format!("{}, {what}", face(&self.structure, self.side, shape))
    }

    fn is_at(&self, structure: &str, side: Side, shape: Shape) -> bool {
        (self.structure.as_str(), self.side, self.shape) == (structure, side, shape)
    }
}

impl Told {
    fn said(value: Exact, quote: &str, start: Option<crate::model::span::Moment>) -> Self {
        Self { value, origin: Origin::Said { quote: quote.to_owned(), start } }
    }

    /// As the input of a formula.
    pub fn formula(&self, name: String, unit: Measure) -> Formula {
        Formula::Of(Input { name, value: self.value, unit, origin: self.origin.clone() })
    }
}

/// The faces of a draft as they were said and typed, each with what is known of it alone.
pub fn faces(draft: &Draft, grammar: &Grammar) -> Vec<Face> {
    let mut faces = said(&draft.dimensions);
    draft.slopes.iter().for_each(|slope| steepen(&mut faces, slope));
    for n in 0..faces.len() {
        let Face { structure, side, shape, .. } = faces[n].clone();
        faces[n].number = faces[..=n].iter().filter(|face| face.is_at(&structure, side, shape)).count();
    }
    draft.measured.iter().for_each(|measured| overlay(&mut faces, measured, grammar));
    faces.retain(|face| face.width.is_some() || face.height.is_some() || face.rise.is_some());
    faces
}

/// What was said, a width and a height of the same face put together where each was said apart.
fn said(dimensions: &[Dimension]) -> Vec<Face> {
    let mut faces: Vec<Face> = Vec::new();
    for dimension in dimensions.iter().filter(|dimension| dimension.shape != Shape::Opening) {
        let told = |feet: Exact| Told::said(feet, &dimension.quote, dimension.start);
        let new = Face {
            width: dimension.width_ft.map(told),
            height: dimension.height_ft.map(told),
            ..Face::of(&dimension.structure, dimension.side, dimension.shape)
        };
        let completes = |face: &&mut Face| {
            face.is_at(&new.structure, new.side, new.shape)
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
    faces
}

/// A slope that was said is that of the faces of the roof on its side, or a face of which no more is known. A roof may have
/// several: the porch's is another than the house's.
fn steepen(faces: &mut Vec<Face>, slope: &Slope) {
    let rise = Told::said(slope.rise, &slope.quote, slope.start);
    let there =
        |face: &&mut Face| face.is_at(&slope.structure, slope.side, Shape::RoofSlope) && face.rise.is_none();
    let mut any = false;
    for face in faces.iter_mut().filter(there) {
        face.rise = Some(rise.clone());
        any = true;
    }
    if !any {
        faces.push(Face { rise: Some(rise), ..Face::of(&slope.structure, slope.side, Shape::RoofSlope) });
    }
}

/// What a person typed stands over what was said.
fn overlay(faces: &mut Vec<Face>, measured: &Measured, grammar: &Grammar) {
    let Measured { structure, side, shape, number, .. } = measured;
    let same = |face: &Face| face.is_at(structure, *side, *shape) && face.number == *number;
    let at = faces.iter().position(same).unwrap_or_else(|| {
        faces.push(Face { number: *number, ..Face::of(structure, *side, *shape) });
        faces.len() - 1
    });
    let face = &mut faces[at];
    put(&mut face.width, measured.width.as_ref(), |text| typed::length_of(text, grammar));
    put(&mut face.height, measured.height.as_ref(), |text| typed::length_of(text, grammar));
    put(&mut face.rise, measured.rise.as_ref(), |text| typed::rise_of(text, grammar));
}

fn put(told: &mut Option<Told>, typed: Option<&Typed>, read: impl Fn(&str) -> Option<Exact>) {
    if let Some(typed) = typed {
        let origin = Origin::Typed { who: typed.who.clone() };
        *told = read(&typed.text).map(|value| Told { value, origin });
    }
}

/// What was said of all walls, or of the whole roof, holds for each of which nothing else is known.
pub(super) fn spread(faces: &mut Vec<Face>) {
    heights(faces);
    rises(faces);
}

/// "The walls are nine foot all around" is the height of every wall of the structure that has none of its own.
fn heights(faces: &mut Vec<Face>) {
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

/// A slope of the roof, a hip or a valley whose steepness wasn't told lies as steep as the roof of its structure.
fn rises(faces: &mut [Face]) {
    for n in 0..faces.len() {
        if matches!(faces[n].shape, Shape::RoofSlope | Shape::HipOrValley) && faces[n].rise.is_none() {
            faces[n].rise = steepness(faces, &faces[n].structure).map(|(told, _)| told);
        }
    }
}

/// How steep the roof of a structure is, and the face that it was told of: the whole roof, or any slope where all that
/// were told lie alike. None where two were told that don't.
pub(super) fn steepness(faces: &[Face], structure: &str) -> Option<(Told, Face)> {
    let told =
        |face: &&Face| face.structure == structure && face.shape == Shape::RoofSlope && face.rise.is_some();
    let all: Vec<&Face> = faces.iter().filter(told).collect();
    let value = |face: &Face| face.rise.as_ref().map(|rise| rise.value);
    let whole: Vec<&Face> = all.iter().copied().filter(|face| face.side == Side::None).collect();
    let meant = if whole.is_empty() { &all } else { &whole };
    let face = meant.first().filter(|first| meant.iter().all(|face| value(face) == value(first)))?;
    Some((face.rise.clone()?, (**face).clone()))
}
