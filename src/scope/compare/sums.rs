//! What lines that belong together come to, ours and theirs.

use super::amount::same;
use super::group::{Group, Pairing};
use super::model::Outcome;
use crate::model::{Exact, Unit, UnitKind};
use std::collections::BTreeSet;

/// What both sides of a group come to.
pub(super) struct Sums {
    /// Ours, and the bounds that ranges give it, in the plainest unit.
    pub ours: Exact,
    bounds: (Exact, Exact),
    /// Theirs, in the plainest unit.
    pub theirs: Exact,
    /// The unit in which both are told.
    pub unit: Unit,
}

impl Sums {
    /// None where a number is missing, or the units measure different things.
    pub fn of(pairing: &Pairing, group: &Group) -> Option<Self> {
        let unit = unit_of(pairing, &group.ours)?;
        let mut sums =
            Self { ours: Exact::ZERO, bounds: (Exact::ZERO, Exact::ZERO), theirs: Exact::ZERO, unit };
        for our in group.ours.iter().map(|o| &pairing.ours[*o]) {
            let amount = our.facts.amount?;
            let (low, high) = our.bounds.unwrap_or((amount, amount));
            sums.ours += amount;
            sums.bounds = (sums.bounds.0 + low, sums.bounds.1 + high);
        }
        for theirs in &group.theirs {
            sums.theirs += their_amount(pairing, *theirs, unit)?;
        }
        Some(sums)
    }

    /// Whether theirs is as much as ours, or within the range that was said.
    pub fn agree(&self) -> bool {
        let (low, high) = self.bounds;
        same(self.ours, self.theirs) || low <= self.theirs && self.theirs <= high
    }

    /// What the sums alone say.
    pub fn outcome(&self) -> Outcome {
        match () {
            () if self.agree() => Outcome::Same,
            () if self.theirs < self.ours => Outcome::ShortThere,
            () => Outcome::MoreThere,
        }
    }

    /// As it is told, in the common unit.
    pub fn told(&self, plainly: Exact) -> Exact {
        plainly / self.unit.plain()
    }
}

/// The unit that all our lines are in, else the plainest of what they measure; none where they measure different things.
fn unit_of(pairing: &Pairing, ours: &[usize]) -> Option<Unit> {
    let units: BTreeSet<Unit> = ours.iter().map(|o| pairing.ours[*o].line.unit).collect();
    let measures: BTreeSet<UnitKind> = units.iter().map(|unit| unit.kind()).collect();
    let (Some(first), 1) = (units.first(), measures.len()) else { return None };
    Some(if units.len() == 1 { *first } else { first.kind().plainest() })
}

/// How much an entry holds; without a unit it is read in ours.
pub(super) fn their_amount(pairing: &Pairing, theirs: usize, unit: Unit) -> Option<Exact> {
    let facts = &pairing.entries[theirs].facts;
    let amount = facts.amount?;
    match facts.measure {
        Some(kind) => (kind == unit.kind()).then_some(amount),
        None => (!facts.odd_unit).then(|| amount * unit.plain()),
    }
}
