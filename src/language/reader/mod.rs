//! A learned reader: it relates the pieces of a narration.

mod input;
mod reading;

pub use input::{Input, NamedStructure, NamedThing, ToldAmount};
pub use reading::{Anchor, Number, PARTS, Part, Reading, SIDES, UNITS, WORKS};
