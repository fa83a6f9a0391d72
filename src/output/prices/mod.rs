//! Prices: the office's own list, put to the sums of a scope. No price comes with the program, and none is guessed: what
//! has no price is told, and counts for nothing.
//!
//! Money is decimal, never binary. Each line is rounded to the cent once, half a cent up.

mod list;
mod percent;
mod priced;
mod section;
mod unit;

pub use list::{Price, PriceList};
pub use percent::Percent;
pub use priced::{Applied, Missing, Priced, PricedLine, priced};
pub use section::section;
