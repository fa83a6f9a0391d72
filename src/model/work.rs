//! What is to be done, and what a quantity counts.

use serde::{Deserialize, Serialize};

/// Physical work on a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Work {
    /// Take a sound thing off, keep it, put it back.
    DetachReset,
    /// Take off, throw away, put new.
    RemoveReplace,
    /// Off and gone.
    Remove,
    /// New where none was.
    Install,
    /// Mend in place.
    Repair,
    /// Wash.
    Clean,
    /// Paint.
    Paint,
    /// Stain.
    Stain,
    /// Cover while others work.
    Protect,
}

/// What a quantity counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Pieces.
    Each,
    /// Running feet.
    Foot,
    /// Square feet.
    SquareFoot,
    /// A hundred square feet of roof or wall.
    Square,
    /// Two that belong together.
    Pair,
    /// A set.
    Set,
    /// A roll.
    Roll,
    /// A sheet.
    Sheet,
    /// A bundle.
    Bundle,
    /// A box or carton.
    Box,
    /// Inches.
    Inch,
    /// Yards.
    Yard,
}
