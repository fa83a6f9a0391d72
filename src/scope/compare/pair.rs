//! Which of their lines belong to which of ours.
//!
//! It goes from the plain to the doubtful: first what agrees in everything, then what leaves one thing open (their line
//! names no side, say), then what leaves several open. What belongs together at one step is settled as a group before the
//! next step looks at what is left, so every finding can say what was left open. What contradicts each other in one
//! respect is never paired: it is asked about.

use super::ask::{self, Several};
use super::facts::Respect;
use super::group::{Left, Pairing};
use super::model::Finding;
use super::{alone, settle};

/// What may be left open at each step; the last allows all at once. Sizes are left out so often that from the second step
/// on they may always be.
const STEPS: [&[Respect]; 8] = [
    &[],
    &[Respect::Size],
    &[Respect::Side, Respect::Size],
    &[Respect::Thing, Respect::Size],
    &[Respect::Work, Respect::Size],
    &[Respect::Unit, Respect::Size],
    &[Respect::Structure, Respect::Side, Respect::Size],
    &[Respect::Size, Respect::Side, Respect::Thing, Respect::Work, Respect::Unit, Respect::Structure],
];

/// Everything found, in the order a document tells it.
pub(super) fn findings(pairing: &Pairing) -> Vec<Finding> {
    let mut left =
        Left { ours: (0..pairing.ours.len()).collect(), theirs: (0..pairing.entries.len()).collect() };
    let mut found = Vec::new();
    for allowed in STEPS {
        let whole = |o: usize, t: usize| !pairing.entries[t].is_several() && pairing.belongs(o, t, allowed);
        for group in pairing.groups(&left, &whole) {
            let group = settle::trimmed(pairing, group);
            left.take(&group);
            found.extend(settle::findings(pairing, &group));
        }
    }
    found.extend(ask::several(pairing, &mut left, Several::Agreeing));
    found.extend(ask::near(pairing, &mut left));
    found.extend(ask::several(pairing, &mut left, Several::Any));
    found.extend(left.ours.iter().map(|o| alone::missing(pairing, *o)));
    found.extend(left.theirs.iter().map(|t| alone::only_there(pairing, *t)));
    found.sort_by_key(|f| (f.outcome, f.ours.first().map(|o| o.number), f.theirs.first().map(|t| t.row)));
    found
}
