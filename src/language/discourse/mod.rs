//! Takes the mentions of a narration in the order they were said, gives an [`Account`]: which things stand
//! where, how much of each, what is to be done with them, what was cleared, what is still to do. Follows the
//! talk as a listener does, with a place, things in focus, and conditions that open and close. Never judges
//! doubt beyond noting it, and never makes up what wasn't said.

mod account;
mod amounts;
mod binding;
mod clear;
mod corefer;
mod corrections;
mod counts;
mod details;
mod faces;
mod follow;
mod further;
mod headings;
mod listener;
mod objects;
mod place;
mod pointing;
mod refer;
mod said_sums;
mod sides;
mod single;
mod sizes;
mod things;
mod totals;
mod unplaced;
mod waiting;
mod works;

pub use account::{
    Account, ClearedThing, Entity, Evidence, Face, Place, Quantity, SaidSum, Span, Steepness, Todo, WorkSaid,
};

use crate::language::mentions::Mention;
use crate::language::rules::Grammar;
use crate::language::tokens::Tokens;

/// Follows a narration from its first mention to its last.
pub fn follow(tokens: &Tokens, mentions: &[Mention], grammar: &Grammar) -> Account {
    let mut listener = listener::Listener::new(tokens, mentions, grammar);
    for at in 0..mentions.len() {
        listener.hear(at);
    }
    listener.finish()
}
