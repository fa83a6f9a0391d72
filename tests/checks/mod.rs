//! Questions about a whole house: which walks bring them up, and which nearly do.

mod noise;

use eavesdraft::checks::{self, Kind, Question};
use eavesdraft::draft::{self, Draft};
use eavesdraft::grammar::Grammar;
use eavesdraft::words::Transcript;
use std::sync::LazyLock;

pub static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());

/// A walk as the program drafts it.
pub fn drafted(walk: &str) -> Draft {
    draft::draft(&Transcript::from_plain(walk), &GRAMMAR)
}

/// The questions that a walk brings up.
pub fn asked(walk: &str) -> Vec<Question> {
    checks::of_draft(&drafted(walk), &GRAMMAR)
}
