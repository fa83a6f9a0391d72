//! The seam: takes the pieces of a narration in the order they were said, gives an [`Account`] of what was understood:
//! which things stand where, how much of each, what is to be done with them, what was cleared, what is still to do. How
//! that is found out nobody outside knows; today a `tracker` follows the talk with a place, things in focus, and
//! conditions that open and close. It notes doubt and never makes up what wasn't said.

#![allow(
    clippy::cognitive_complexity,
    clippy::too_many_lines,
    reason = "what relates the pieces to each other is to be rebuilt behind this seam"
)]

mod account;
mod amounts;
mod binding;
mod clear;
mod corefer;
mod corrections;
mod counts;
mod details;
mod dimensions;
mod entity;
mod follow;
mod further;
mod headings;
mod objects;
mod place;
mod pointing;
mod refer;
mod said_totals;
mod sides;
mod single;
mod sizes;
mod status;
mod things;
mod totals;
mod tracker;
mod unused;
mod waiting;
mod works;

pub use sizes::size_of;

pub use account::{
    Account, ClearedThing, DimensionSaid, Evidence, Field, FollowUpSaid, Origin, Place, Quantity, RoofSlope,
    Span, Status, Thing, TotalSaid, Unused, WorkSaid,
};

use super::pieces::Pieces;
use super::rules::Grammar;

/// Follows the talk from its first mention to its last.
pub fn observe(pieces: &Pieces, grammar: &Grammar) -> Account {
    let mut tracker = tracker::Tracker::new(&pieces.tokens, &pieces.mentions, grammar);
    for at in 0..pieces.mentions.len() {
        tracker.observe(at);
    }
    tracker.finish()
}
