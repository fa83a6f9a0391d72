//! How words sound: takes words as they are written, gives phones, and tells how alike two runs of phones are.

mod align;
mod letters;
mod phone;
mod pronounce;

pub use align::{likeness, most_alike, own_score};
pub use phone::Phone;
pub use pronounce::Pronouncer;
