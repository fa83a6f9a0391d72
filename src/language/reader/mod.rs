//! A learned reader: it relates the pieces of a narration.

mod input;

pub use input::{Input, NamedStructure, NamedThing, ToldAmount};
