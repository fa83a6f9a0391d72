//! Breaths guessed in words that were written down without marks.

use crate::harness::narration;
use eavesdraft::language::phrases::Groundwork;
use eavesdraft::language::punctuation;
use eavesdraft::language::rules::Grammar;
use eavesdraft::language::tokens::{Break, Tokens};
use eavesdraft::model::Work;
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;

/// The words of a text as a caption has them.
pub(super) fn without_marks(text: &str) -> String {
    let bare = |word: &str| {
        let word = word.trim_end_matches(['.', ',', ';', ':', '!', '?', '…']);
        word.trim_matches(['—', '–', '(', ')']).to_lowercase()
    };
    text.split_whitespace().map(bare).filter(|w| !w.is_empty()).collect::<Vec<_>>().join(" ")
}

fn tokens(text: &str, grammar: &Grammar) -> Tokens {
    Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary)
}

/// The tokens with breaks put where no marks are.
fn restored(text: &str, grammar: &Grammar) -> Tokens {
    let mut ground = Groundwork::new(tokens(text, grammar), grammar);
    punctuation::restore(&mut ground);
    ground.into_tokens()
}

#[test]
fn written_marks_are_left_as_they_are() {
    let grammar = Grammar::built_in().unwrap();
    let text =
        "Front of the house. Gutter, thirty eight foot, replace. Two lights, detach and reset. ".repeat(8);
    let written = tokens(&text, &grammar);
    assert_eq!(written.list, restored(&text, &grammar).list);
}

#[test]
fn a_list_dictated_without_marks_falls_into_its_items() {
    let text = "okay front of the house gutter 38 foot replace downspouts 2 off and back on garage door 16 by 7 no \
                damage splash blocks 2 cracked replace rear of the house patio door okay light over it detach and \
                reset deck 14 by 16 224 square foot power wash rail 30 foot stain left side hose reel detach and \
                reset fascia 10 foot paint";
    let draft = drafting::by_rules(&Transcript::from_plain(text), &Grammar::built_in().unwrap());
    let told: Vec<(&str, Option<Work>, Option<f64>)> = draft
        .lines
        .iter()
        .map(|l| {
            (
                l.item.as_deref().unwrap_or_default(),
                l.work,
                l.quantity.map(|quantity| quantity.value().decimal()),
            )
        })
        .collect();
    assert_eq!(
        told,
        [
            ("gutter", Some(Work::RemoveReplace), Some(38.0)),
            ("downspout", Some(Work::DetachReset), Some(2.0)),
            ("splash-block", Some(Work::RemoveReplace), Some(2.0)),
            ("light-fixture", Some(Work::DetachReset), Some(1.0)),
            ("deck", Some(Work::Clean), Some(224.0)),
            ("deck-rail", Some(Work::Stain), Some(30.0)),
            ("hose-reel", Some(Work::DetachReset), Some(1.0)),
            ("fascia", Some(Work::Paint), Some(10.0)),
        ]
    );
    let fine: Vec<&str> = draft.no_work.iter().filter_map(|c| c.item.as_deref()).collect();
    assert_eq!(fine, ["garage-door", "patio-door"]);
}

/// The narrations of the fit itself: a floor against getting worse, not what strange speech gets. What a fit to the
/// other narrations gets, `cargo run --example fit-punctuation` tells.
#[test]
fn most_breaths_are_guessed_where_they_were_taken() {
    let grammar = Grammar::built_in().unwrap();
    let (mut both, mut guessed, mut taken) = (0.0, 0.0, 0.0);
    for file in narration::files("marked", "txt").unwrap() {
        let text = std::fs::read_to_string(narration::root().join(file)).unwrap();
        let written = tokens(&text, &grammar);
        let bare = restored(&without_marks(&text), &grammar);
        if written.list.len() != bare.list.len() {
            continue; // a mark that was part of a word: "ft."
        }
        for (written, bare) in written.list.iter().zip(&bare.list).skip(1) {
            let (written, bare) = (written.before != Break::None, bare.before != Break::None);
            both += f64::from(u8::from(written && bare));
            guessed += f64::from(u8::from(bare));
            taken += f64::from(u8::from(written));
        }
    }
    assert!(taken > 3_000.0, "{taken}");
    assert!(both / guessed >= 0.93, "precision {:.3}", both / guessed);
    assert!(both / taken >= 0.9, "recall {:.3}", both / taken);
}
