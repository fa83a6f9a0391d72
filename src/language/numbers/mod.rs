//! Takes tokens, gives numbers and amounts: exact, no floats. Knows units and sizes; knows nothing of what
//! is counted.

mod adder;
mod amount;
mod fraction;
mod length;
mod slope;
mod spoken;
mod written;

pub use amount::{Amount, Amounts, NumbersFound};
pub use slope::SlopeSaid;
pub use spoken::{Number, Speaker};
pub use written::spelled_out;

pub use crate::model::Exact;
