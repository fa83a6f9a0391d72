//! A takeoff as the review page gets it: the faces that it starts from, and its figures in plain words.

use super::face::{Face, Told, faces};
use super::figure::{Figure, Lacking};
use super::formula::{Input, Measure, Origin, told};
use super::takeoff;
use crate::language::rules::Grammar;
use crate::model::wording::{self, capital};
use crate::model::{Draft, Exact, Measured, Shape, Side};
use serde::Serialize;
use std::collections::BTreeMap;

/// A takeoff in plain words.
#[derive(Debug, Serialize)]
pub struct TakeoffView {
    /// The number of the last event that it knows of.
    version: u64,
    openings: String,
    #[serde(rename = "dimensions")]
    faces: Vec<FaceView>,
    figures: Vec<FigureView>,
    lacking: Vec<LackingView>,
}

/// A face and what is known of it.
#[derive(Debug, Serialize)]
struct FaceView {
    id: String,
    /// The number of the event that changed it last; 0 where it stands as it was said.
    version: u64,
    structure: String,
    side: Side,
    shape: Shape,
    number: usize,
    place: String,
    name: &'static str,
    width: Option<MeasureView>,
    height: Option<MeasureView>,
    #[serde(rename = "slope")]
    rise: Option<MeasureView>,
}

/// A measure, and where it comes from.
#[derive(Debug, Serialize)]
struct MeasureView {
    value: f64,
    told: String,
    #[serde(flatten)]
    origin: Origin,
}

/// A figure.
#[derive(Debug, Serialize)]
struct FigureView {
    key: String,
    heading: &'static str,
    structure: String,
    place: String,
    name: String,
    told: String,
    formula: String,
    rule: Option<String>,
    inputs: Vec<InputView>,
}

/// What a figure is computed from.
#[derive(Debug, Serialize)]
struct InputView {
    name: String,
    #[serde(flatten)]
    measure: MeasureView,
}

/// A tape to run.
#[derive(Debug, Serialize)]
struct LackingView {
    place: String,
    #[serde(flatten)]
    lacking: Lacking,
}

impl TakeoffView {
    /// That of a draft as it stands after an event; `touched` tells the last event on each face that somebody measured.
    pub fn of(draft: &Draft, grammar: &Grammar, version: u64, touched: &BTreeMap<String, u64>) -> Self {
        let takeoff = takeoff(draft, grammar);
        Self {
            version,
            openings: takeoff.openings,
            faces: faces(draft, grammar).into_iter().map(|face| FaceView::of(face, touched)).collect(),
            figures: takeoff.figures.iter().map(FigureView::of).collect(),
            lacking: takeoff.lacking.into_iter().map(LackingView::of).collect(),
        }
    }
}

impl FaceView {
    fn of(face: Face, touched: &BTreeMap<String, u64>) -> Self {
        let id = Measured::of(&face.structure, face.side, face.shape, face.number).id();
        let measure = |measured: Option<Told>, unit| {
            measured.map(|Told { value, origin }| MeasureView::of(value, unit, origin))
        };
        Self {
            version: touched.get(&id).copied().unwrap_or_default(),
            id,
            place: place(&face.structure, face.side),
            structure: face.structure,
            side: face.side,
            shape: face.shape,
            number: face.number,
            name: wording::shape(face.shape),
            width: measure(face.width, Measure::Foot),
            height: measure(face.height, Measure::Foot),
            rise: measure(face.rise, Measure::InTwelve),
        }
    }
}

impl MeasureView {
    fn of(value: Exact, unit: Measure, origin: Origin) -> Self {
        Self { value: value.decimal(), told: told(value, unit), origin }
    }
}

impl FigureView {
    fn of(figure: &Figure) -> Self {
        let input = |input: &Input| {
            let Input { name, value, unit, origin } = input.clone();
            InputView { name, measure: MeasureView::of(value, unit, origin) }
        };
        Self {
            key: figure.key.clone(),
            heading: figure.part.heading(),
            structure: figure.structure.clone(),
            place: place(&figure.structure, figure.side),
            name: figure.name.clone(),
            told: told(figure.value, figure.unit),
            formula: figure.formula.text(),
            rule: figure.rule.clone(),
            inputs: figure.formula.inputs().into_iter().map(input).collect(),
        }
    }
}

impl LackingView {
    fn of(lacking: Lacking) -> Self {
        Self { place: place(&lacking.structure, lacking.side), lacking }
    }
}

/// Where something is; the whole structure where it is on no one side.
fn place(structure: &str, side: Side) -> String {
    match side {
        Side::None => capital(structure),
        side => capital(&wording::whereabouts(structure, side)),
    }
}
