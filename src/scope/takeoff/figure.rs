//! Figures: what a takeoff comes to, each with its formula; and what is lacking for more.

use super::formula::{Figured, Formula, Input, Measure};
use crate::model::{Exact, Side, stored};
use serde::ser::SerializeStruct;
use serde::{Deserialize, Serialize, Serializer};

/// A figure of the takeoff.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is known by among the figures: `house/front/wall`.
    pub key: String,
    /// What it is: `front wall`.
    pub name: String,
    /// What kind of figures it stands with.
    pub part: Part,
    /// On which structure.
    pub structure: String,
    /// On which side; none for the whole structure.
    pub side: Side,
    /// How it is computed.
    pub formula: Formula,
    /// What it comes to.
    pub value: Exact,
    /// What it counts.
    pub unit: Measure,
    /// By which rule, and where that is published or that it is common practice; none where it is geometry alone.
    pub rule: Option<String>,
}

/// What kind of figures stand together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// Wall and gable areas, openings, siding.
    Walls,
    /// Starter, channel, corners.
    Trim,
    /// Eaves, rakes, soffit, fascia.
    Eaves,
    /// Slopes, shingles.
    Roof,
    /// Gutters and downspouts.
    Water,
    /// Fences.
    Fences,
}

/// All parts in the order of a document.
pub const PARTS: [Part; 6] = [Part::Walls, Part::Trim, Part::Eaves, Part::Roof, Part::Water, Part::Fences];

impl Part {
    /// As a heading.
    pub fn heading(self) -> &'static str {
        match self {
            Self::Walls => "Walls",
            Self::Trim => "Trim",
            Self::Eaves => "Eaves and rakes",
            Self::Roof => "Roof",
            Self::Water => "Gutters and downspouts",
            Self::Fences => "Fences",
        }
    }
}

/// What a figure would take that nobody said: a tape to run.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lacking {
    /// On which structure.
    pub structure: String,
    /// On which side.
    pub side: Side,
    /// What has to be measured: `height of the front wall`.
    pub measure: String,
    /// What for: `siding`.
    pub purpose: String,
}

impl Figure {
    /// As the input of another figure.
    pub fn as_input(&self) -> Formula {
        let Self { key, name, value, unit, .. } = self.clone();
        Formula::Figure(Box::new(Figured { key, name, value, unit }))
    }
}

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        /// The exact value as a decimal.
        #[derive(Serialize)]
        struct Decimal(#[serde(serialize_with = "stored::decimal")] Exact);

        let mut figure = to.serialize_struct("Figure", 10)?;
        figure.serialize_field("key", &self.key)?;
        figure.serialize_field("name", &self.name)?;
        figure.serialize_field("part", &self.part)?;
        figure.serialize_field("structure", &self.structure)?;
        figure.serialize_field("side", &self.side)?;
        figure.serialize_field("value", &Decimal(self.value))?;
        figure.serialize_field("unit", &self.unit)?;
        figure.serialize_field("formula", &self.formula.text())?;
        figure.serialize_field::<Vec<&Input>>("inputs", &self.formula.inputs())?;
        figure.serialize_field("rule", &self.rule)?;
        figure.end()
    }
}
