//! Filing: where documents go, and putting them there whole or not at all.
//!
//! Takes bytes and the name they belong under. It never writes over an input, over a file of someone else's, or
//! over what it has just written for another input, and it says so before any slow work begins.

mod error;
mod names;
mod ours;
mod register;
mod save;

pub use error::FilingError;
pub use names::{Place, stem};
pub use register::Register;
pub use save::{Paper, Saved, save};
