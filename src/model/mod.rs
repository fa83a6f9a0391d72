//! The vocabulary that every room shares: what a draft and its lines are made of, moments and digests, and the same
//! values in plain words. Knows nothing of how a draft comes about.

mod clip;
mod dimension;
mod draft;
mod exact;
mod flag;
mod line;
mod place;
mod quantity;
mod size;
pub(crate) mod stored;
mod work;

pub mod digest;
pub mod span;
pub mod unit;
pub mod wording;

pub use clip::{Clip, ClipMoment, clip_moment};
pub use dimension::{Dimension, Measured, Shape, Slope, Typed};
pub use draft::{Caution, Cleared, Draft, FollowUp, FollowUpKind, SaidTotal};
pub use exact::Exact;
pub use flag::Flag;
pub use line::{Line, Reading, Why};
pub use place::{Area, HOUSE, Side};
pub use quantity::Quantity;
pub use size::{Length, Size};
pub use unit::{Unit, UnitKind};
pub use work::Work;
