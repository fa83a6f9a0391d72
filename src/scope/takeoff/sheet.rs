//! The sheet that figures are written on, of one structure.

use super::face::{Face, steepness};
use super::figure::{Figure, Lacking, Part};
use super::formula::{Formula, Input, Measure, Origin, face};
use super::geometry::rise_of;
use super::house::MeasuredHouse;
use crate::model::{Exact, Shape, Side};

/// The sides of a structure.
pub(super) const SIDES: [Side; 4] = [Side::Front, Side::Right, Side::Rear, Side::Left];

/// The figures of one structure, as they are found.
pub(super) struct Sheet<'a> {
    /// What they are computed from.
    pub house: &'a MeasuredHouse<'a>,
    /// The structure.
    pub structure: &'a str,
    /// The figures.
    pub figures: Vec<Figure>,
    /// What is lacking.
    pub lacking: Vec<Lacking>,
    /// What a covering lies on, where all of it is measured: side, shape and the key of its area.
    pub covered: Vec<(Side, Shape, String)>,
    /// The heights of gables that follow from the slope of the roof, by side and number.
    gables: Vec<((Side, usize), Formula)>,
}

/// A figure before it is computed.
pub(super) struct Row {
    /// See [`Figure::part`].
    pub part: Part,
    /// See [`Figure::side`].
    pub side: Side,
    /// See [`Figure::name`].
    pub name: String,
    /// See [`Figure::unit`].
    pub unit: Measure,
    /// See [`Figure::rule`].
    pub rule: Option<String>,
}

impl Row {
    /// One that is geometry alone.
    pub fn new(part: Part, side: Side, name: impl Into<String>, unit: Measure) -> Self {
        Self { part, side, name: name.into(), unit, rule: None }
    }

    /// With the rule that it goes by.
    pub fn by(self, rule: String) -> Self {
        Self { rule: Some(rule), ..self }
    }
}

impl<'a> Sheet<'a> {
    /// An empty one.
    pub fn new(house: &'a MeasuredHouse<'a>, structure: &'a str) -> Self {
        Self {
            house,
            structure,
            figures: Vec::new(),
            lacking: Vec::new(),
            covered: Vec::new(),
            gables: Vec::new(),
        }
    }

    /// Computes a figure and writes it down; none where it comes to nothing.
    pub fn put(&mut self, row: Row, formula: Formula) -> Option<Formula> {
        let value = formula.value().filter(|value| *value > Exact::ZERO)?;
        let Row { part, side, name, unit, rule } = row;
        let place = face(self.structure, side, &name).replace(' ', "-");
        let alike = self.figures.iter().filter(|figure| figure.key.starts_with(&place)).count();
        let key = if alike == 0 { place } else { format!("{place}-{}", alike + 1) };
        let structure = self.structure.to_owned();
        let figure = Figure { key, name, part, structure, side, formula, value, unit, rule };
        let input = figure.as_input();
        self.figures.push(figure);
        Some(input)
    }

    /// Notes what would have to be measured, once.
    pub fn lacks(&mut self, side: Side, measure: impl Into<String>, purpose: &str) {
        let (structure, measure) = (self.structure.to_owned(), measure.into());
        let lacking = Lacking { structure, side, measure, purpose: purpose.to_owned() };
        if !self.lacking.iter().any(|known| (known.side, &known.measure) == (side, &lacking.measure)) {
            self.lacking.push(lacking);
        }
    }

    /// Notes that a figure is all that a covering lies on there.
    pub fn covers(&mut self, side: Side, shape: Shape, area: &Formula) {
        if let Formula::Figure(figure) = area {
            self.covered.push((side, shape, figure.key.clone()));
        }
    }

    /// Width and height of a gable: a height that wasn't measured follows from the width and the slope of the roof.
    pub fn gable(&mut self, gable: &Face) -> Option<[Formula; 2]> {
        if let Some(measures) = gable.measures() {
            return Some(measures);
        }
        let width = gable.length(gable.width.as_ref()?, "width");
        let at = (gable.side, gable.number);
        if let Some((_, height)) = self.gables.iter().find(|(known, _)| *known == at) {
            return Some([width, height.clone()]);
        }
        let (_, roof) = steepness(&self.house.faces, self.structure)?;
        let row = Row::new(Part::Walls, gable.side, "height of the gable", Measure::Foot)
            .by("half the width at the slope of the roof".to_owned());
        let height = self.put(row, rise_of(width.clone(), roof.slope()?))?;
        self.gables.push((at, height.clone()));
        Some([width, height])
    }

    /// A usual number as an input, and the sentence that tells it with its source; none where the rules don't have it.
    pub fn usual(&self, name: &str, unit: Measure) -> Option<(Formula, String)> {
        let usual = self.house.grammar.usual.get(name)?;
        let origin = Origin::Rule { source: usual.source.clone() };
        let input = Input { name: usual.says.clone(), value: usual.value, unit, origin };
        Some((Formula::Of(input), format!("{}: {}", usual.says, usual.source)))
    }

    /// The pieces of a stock length that a length takes.
    pub fn pieces(&mut self, part: Part, what: &str, length: Formula, stock: &str) {
        if let Some((piece, rule)) = self.usual(stock, Measure::Foot) {
            let row = Row::new(part, Side::None, format!("{what}, pieces"), Measure::Each).by(rule);
            self.put(row, length.over(piece).up());
        }
    }
}
