//! Where on the property a thing is.

use serde::{Deserialize, Serialize};

/// The structure every thing belongs to unless the narrator names another.
pub const HOUSE: &str = "house";

/// A side of a structure, left and right as seen from the street.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// The street side.
    Front,
    /// Right as seen from the street.
    Right,
    /// The back.
    Rear,
    /// Left as seen from the street.
    Left,
    /// No one side: all around, the whole roof, or none named yet.
    None,
}

/// Which part of the property a thing belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Area {
    /// Walls, openings, what hangs on them, and the roof's edge.
    Wall,
    /// The roof and what comes through it.
    Roof,
    /// Yard, fences, decks, what stands on the ground.
    Grounds,
}
