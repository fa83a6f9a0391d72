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

use num_rational::Ratio;

/// An exact number.
pub type Exact = Ratio<i64>;

/// As a decimal for output.
pub fn decimal(exact: Exact) -> f64 {
    let value = *exact.numer() as f64 / *exact.denom() as f64;
    (value * 1000.0).round() / 1000.0
}
