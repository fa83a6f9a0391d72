//! Questions about a whole house: which walks bring them up, and which nearly do.

mod corners;
mod needs;
mod noise;
mod numbers;
mod place;
mod properties;
mod rules;
mod totals;
mod twice;

use eavesdraft::language::rules::Grammar;
use eavesdraft::model::Draft;
use eavesdraft::scope::drafting;
use eavesdraft::scope::questions::{self, Kind, Question};
use eavesdraft::speech::Transcript;
use std::sync::LazyLock;

static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());

/// A walk as the program drafts it.
fn drafted(walk: &str) -> Draft {
    drafting::by_rules(&Transcript::from_plain(walk), &GRAMMAR)
}

/// The questions that a walk brings up.
fn asked(walk: &str) -> Vec<Question> {
    questions::of_draft(&drafted(walk), &GRAMMAR)
}

/// Those of one kind.
fn asked_of(kind: Kind, walk: &str) -> Vec<Question> {
    asked(walk).into_iter().filter(|question| question.kind == kind).collect()
}

/// Each walk brings up one question of a kind, in these words; with the labels of its readings where there are any.
fn hits(kind: Kind, walks: &[(&str, &str, &[&str])]) {
    for (walk, asks, labels) in walks {
        let questions = asked_of(kind, walk);
        let found: Vec<&str> = questions.iter().map(|question| question.asks.as_str()).collect();
        assert_eq!(found, [*asks], "{walk}\n{:#?}", drafted(walk).lines);
        let found: Vec<&str> = questions[0].readings.iter().map(|reading| reading.label.as_str()).collect();
        assert_eq!(found, *labels, "{walk}");
    }
}

/// None of the walks brings up a question of a kind, though each nearly does: it has lines of these items.
fn near_misses(kind: Kind, item: &str, walks: &[&str]) {
    for walk in walks {
        let draft = drafted(walk);
        assert!(draft.lines.iter().any(|line| line.item.as_deref() == Some(item)), "{walk}: {draft:#?}");
        assert_eq!(asked_of(kind, walk), [], "{walk}");
    }
}
