//! What holds for whatever is said.

use super::{GRAMMAR, asked, drafted};
use eavesdraft::scope::questions;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// Sentences that bring questions up, alone or together.
const SENTENCES: [&str; 14] = [
    "Front elevation.",
    "Right side.",
    "Rear elevation.",
    "Left side.",
    "Two outside corner posts, replace.",
    "Siding, three square, replace.",
    "Gutter, forty foot, replace.",
    "Downspout, ten foot, replace.",
    "One chimney cap, replace.",
    "Three shutters, detach and reset.",
    "Wood fence, seven hundred foot, replace.",
    "Gutter so far, 90.",
    "If it's dented, two outside corner posts, replace.",
    "Two lights, detach and reset.",
];

fn walks() -> impl Strategy<Value = String> {
    let sentences = prop::collection::vec(prop::sample::select(&SENTENCES[..]), 0..24);
    sentences.prop_map(|sentences| sentences.join(" "))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Asking changes no line, asking again asks the same, and no two questions are taken for each other.
    #[test]
    fn asking_is_steady_and_changes_nothing(walk in walks()) {
        let draft = drafted(&walk);
        let before = draft.clone();
        let questions = questions::of_draft(&draft, &GRAMMAR);
        prop_assert_eq!(&before, &draft);
        prop_assert_eq!(&questions, &asked(&walk));
        let ids: BTreeSet<&str> = questions.iter().map(|question| question.id.as_str()).collect();
        prop_assert_eq!(ids.len(), questions.len());
        for question in &questions {
            prop_assert!(question.lines.iter().all(|id| draft.lines.iter().any(|line| line.id == *id)));
            prop_assert!(question.readings.is_empty() != question.missing.is_empty());
        }
    }

    /// What is conditional is in no count: no question is about it, and without it the same is asked.
    #[test]
    fn conditional_lines_are_no_part_of_any_question(walk in walks()) {
        let draft = drafted(&walk);
        let only_if: BTreeSet<&str> =
            draft.lines.iter().filter(|line| line.only_if).map(|line| line.id.as_str()).collect();
        for question in questions::of_draft(&draft, &GRAMMAR) {
            prop_assert!(question.lines.iter().all(|id| !only_if.contains(id.as_str())), "{question:?}");
        }
    }
}
