//! The catalogue: what a narrator can point at on the outside of a house.

use super::schema::LengthBefore;
use super::usual::Opening;
use crate::language::vocabulary::WordId;
use crate::model::{Area, Unit};

/// A thing of the catalogue.
#[derive(Debug, Clone)]
pub struct Item {
    /// Its stable name in every output.
    pub id: String,
    /// The unit a line of it is counted in unless another is said.
    pub unit: Unit,
    /// Other units that make sense.
    pub also: Vec<Unit>,
    /// Where it belongs.
    pub area: Area,
    /// Several count as one where no number is said.
    pub as_one: bool,
    /// What a length right before its name measures.
    pub length_before: LengthBefore,
    /// A size of it without a unit is told in inches.
    pub in_inches: bool,
    /// Often named only to tell where something else is.
    pub landmark: bool,
    /// More of it on one line than this, in its own unit, is unusual.
    pub most: Option<u32>,
    /// The face that it covers as a whole: what is measured of it may be the face.
    pub covers: Option<crate::model::Shape>,
    /// It is a hole in the wall, like a window or like a door.
    pub opening: Option<Opening>,
    /// Its element in UNIFORMAT II (NISTIR 6389), level 3: a neutral key, such as `B2020`.
    pub element: Option<String>,
    /// The id of the plainer item it is a kind of.
    pub kind_of: Option<String>,
    /// Words for what it is made of that tell it from its like.
    pub stuff: Vec<WordId>,
    /// Cautions by name.
    pub cautions: Vec<String>,
    /// The last words of its names: `vent` of a gable vent.
    pub heads: Vec<WordId>,
}

impl Item {
    /// Whether the unit suits it.
    pub fn takes(&self, unit: Unit) -> bool {
        unit == self.unit || self.also.contains(&unit)
    }

    /// Whether it is counted in pieces rather than measured.
    pub fn counted(&self) -> bool {
        matches!(self.unit, Unit::Each | Unit::Pair | Unit::Set)
    }
}

/// "The wrap on that window": the word and the item it belongs to name another item.
#[derive(Debug, Clone)]
pub struct Part {
    /// The word: wrap.
    pub word: WordId,
    /// The item it is a part of, by its place.
    pub of: u16,
    /// The item that is meant, by its place.
    pub item: u16,
}
