//! A finding: the lines of a group, what they come to, and what is said of it.

use super::group::{Group, Pairing, their_lines};
use super::model::{Certainty, Finding, Outcome};
use super::sums::Sums;
use crate::model::wording::{self, sentence};

/// What is said of a group besides its lines.
pub(super) struct Verdict {
    pub outcome: Outcome,
    pub certainty: Certainty,
    pub because: Vec<String>,
    pub question: Option<String>,
}

/// A finding about a group, with both sums where they can be told.
pub(super) fn finding(pairing: &Pairing, group: &Group, verdict: Verdict) -> Finding {
    let sums = Sums::of(pairing, group);
    let decided = verdict.outcome != Outcome::Unclear;
    let ours = group.ours.iter().map(|o| pairing.ours[*o].line.clone()).collect();
    Finding {
        outcome: verdict.outcome,
        certainty: verdict.certainty,
        ours,
        theirs: their_lines(pairing, &group.theirs)
            .into_iter()
            .map(|l| pairing.theirs[l].line.clone())
            .collect(),
        our_quantity: sums.as_ref().map(|sums| sums.told(sums.ours)),
        their_quantity: sums.as_ref().map(|sums| sums.told(sums.theirs)),
        // Of what isn't decided nothing is told that looks as if it were.
        difference: sums.as_ref().filter(|_| decided).map(|sums| sums.told(sums.theirs - sums.ours)),
        unit: sums.as_ref().map(|sums| sums.unit),
        because: verdict.because.iter().map(|why| sentence(why)).collect(),
        question: verdict.question.as_deref().map(wording::capital),
    }
}
