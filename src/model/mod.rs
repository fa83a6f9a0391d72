//! The vocabulary that every room shares: what a draft and its lines are made of, moments and digests, and the same
//! values in plain words. Knows nothing of how a draft comes about.

mod clip;
mod dimension;
mod draft;
mod flag;
mod line;
mod place;
mod work;

pub mod digest;
pub mod span;
pub mod wording;

pub use clip::{Clip, ClipMoment, clip_moment};
pub use dimension::{Dimension, Measured, Shape, Slope, Typed};
pub use draft::{Caution, Cleared, Draft, FollowUp, FollowUpKind, SaidTotal};
pub use flag::Flag;
pub use line::{Line, Reading, Why};
pub use place::{Area, HOUSE, Side};
pub use work::{Unit, Work};
