//! What holds for any words whatever.

use eavesdraft::language::rules::Grammar;
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::sync::LazyLock;

static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());

/// Words of the trade and of talk, so that chance makes sentences that rules take hold of.
const WORDS: &[&str] = &[
    "front.",
    "rear",
    "left",
    "right",
    "elevation.",
    "the",
    "a",
    "two",
    "forty",
    "3",
    "6'",
    "6\"",
    "foot",
    "square",
    "of",
    "by",
    "gutter",
    "gutters",
    "light",
    "siding",
    "fence",
    "vent",
    "wrap",
    "window",
    "garage",
    "door",
    "replace",
    "replace.",
    "detach",
    "and",
    "reset,",
    "same",
    "it",
    "those",
    "both",
    "all",
    "that",
    "if",
    "might",
    "no,",
    "wait",
    "scratch",
    "fine",
    "leave",
    "photo",
    "measure",
    "tape",
    "on",
    "the",
    "roof",
    "another",
    "one",
    "rest",
    "wide",
    "tall",
    "new",
    "for",
    "half",
    "so",
    "shed",
    "back",
    "too.",
];

fn check(text: &str) {
    let transcript = Transcript::from_plain(text);
    let draft = drafting::by_rules(&transcript, &GRAMMAR);
    let (whole, _) = transcript.text();
    let whole = whole.replace('\n', " ");
    let quotes = draft.lines.iter().map(|l| &l.quote).chain(draft.no_work.iter().map(|c| &c.quote));
    let quotes = quotes
        .chain(draft.follow_ups.iter().map(|f| &f.quote))
        .chain(draft.dimensions.iter().map(|d| &d.quote));
    for quote in quotes {
        assert!(whole.contains(quote.as_str()), "{quote:?} isn't in {whole:?}");
    }
    let ids: BTreeSet<&str> = draft.lines.iter().map(|l| l.id.as_str()).collect();
    assert_eq!(ids.len(), draft.lines.len(), "ids come twice in {whole:?}");
    for line in &draft.lines {
        assert!(line.quantity.is_none_or(|q| q.low() <= q.value() && q.value() <= q.high()));
        assert!(line.flags.is_sorted());
        assert!((0.0..=1.0).contains(&line.confidence));
    }
    let again = drafting::by_rules(&transcript, &GRAMMAR);
    assert_eq!(serde_json::to_string(&draft).unwrap(), serde_json::to_string(&again).unwrap());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, rng_seed: proptest::test_runner::RngSeed::Fixed(7), ..ProptestConfig::default() })]

    #[test]
    fn any_text_at_all_is_drafted_from_its_own_words(text in any::<String>()) {
        check(&text);
    }

    #[test]
    fn any_order_of_trade_words_is_drafted_from_its_own_words(words in prop::collection::vec(prop::sample::select(WORDS), 0..120)) {
        check(&words.join(" "));
    }
}

#[test]
fn ten_thousand_words_without_a_full_stop_are_drafted() {
    let words: Vec<&str> = WORDS.iter().map(|w| w.trim_end_matches(['.', ','])).collect();
    let text: Vec<&str> = (0..10_000).map(|n| words[(n * n + 7 * n) % words.len()]).collect();
    check(&text.join(" "));
}

/// A reach back from the first words must not go past the beginning.
#[test]
fn any_small_word_may_open_a_narration() {
    let grammar = Grammar::built_in().unwrap();
    let openers = [
        "of",
        "with",
        "on",
        "the",
        "one",
        "both",
        "another",
        "new",
        "same",
        "out",
        "to the left of",
        "one of the",
    ];
    for opener in openers {
        for thing in ["gutter", "gutters", "vent", "posts", "whirligig", "front", "shed", "it", "others"] {
            for end in ["", ", forty foot, replace", " comes off and goes back", "'s fine", ", two of them"] {
                drafting::by_rules(&Transcript::from_plain(&format!("{opener} {thing}{end}")), &grammar);
            }
        }
    }
}
