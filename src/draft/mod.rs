//! The draft scope: lines with their doubts, and what stands beside them.
//!
//! Takes what was understood of the narration and gives a [`Draft`]. Pure; it can't fail.

mod assemble;
mod flag;
mod model;

pub use assemble::draft;
pub use flag::Flag;
pub use model::*;
