//! The rules of the questions are data: an office writes its own over them, and faults are told.

use eavesdraft::language::rules::{Grammar, GrammarError};
use eavesdraft::scope::drafting;
use eavesdraft::scope::questions::{self, Question};
use eavesdraft::speech::Transcript;

fn with_file(text: &str) -> Result<Grammar, GrammarError> {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("office.toml"), text).unwrap();
    Grammar::with_folder(folder.path())
}

fn asked(grammar: &Grammar, walk: &str) -> Vec<Question> {
    questions::of_draft(&drafting::by_rules(&Transcript::from_plain(walk), grammar), grammar)
}

#[test]
fn every_rule_says_what_it_rests_on() {
    let rules = Grammar::built_in().unwrap().house;
    let grounds: Vec<_> = (rules.once.iter().map(|rule| &rule.ground))
        .chain(rules.needs.iter().map(|rule| &rule.ground))
        .chain(rules.numbers.iter().map(|rule| &rule.ground))
        .chain(&rules.sums)
        .collect();
    assert!(grounds.len() > 15, "{grounds:?}");
    assert!(grounds.iter().all(|g| !g.says.is_empty() && !g.source.is_empty()), "{grounds:?}");
}

#[test]
fn a_question_of_a_known_name_takes_the_place_of_the_built_in_one_and_one_without_items_asks_nothing() {
    let office = r#"
[[usual-number]]
name = "fence-run"
counts = "line"
of = ["fence"]
most = 50
unit = "foot"
says = "we ask about any fence longer than 50 ft"
source = "office"

[[counted-once]]
name = "over-the-roof"
how = "any-two-sides"
items = []
says = "never"
source = "office"

[[said-sum]]
name = "said-sum"
off = true
says = "never"
source = "office"
"#;
    let (built_in, office) = (Grammar::built_in().unwrap(), with_file(office).unwrap());
    let fence = "Rear. Wood fence, sixty foot, replace.";
    assert_eq!(asked(&built_in, fence), []);
    assert_eq!(asked(&office, fence)[0].ground.says, "we ask about any fence longer than 50 ft");
    for walk in [
        "Front slope. One chimney cap, replace. Rear slope. One chimney cap, replace.",
        "Front. Gutter, 30, detach and reset. Rear. Gutter, 40, detach and reset. Gutter so far, 80.",
    ] {
        assert_eq!((asked(&built_in, walk).len(), asked(&office, walk).len()), (1, 0), "{walk}");
    }
}

#[test]
fn a_need_of_the_office_is_asked_of_the_whole_house() {
    let office = r#"
[[usual-need]]
name = "deck-needs"
for = ["deck"]
works = ["stain"]
sides = "house"
reset = ["patio-furniture"]
says = "furniture comes off a deck before it is stained"
source = "office"
"#;
    let office = with_file(office).unwrap();
    let question = asked(&office, "Rear. Deck, two hundred square feet, stain.").remove(0);
    assert_eq!(
        question.told(),
        "Deck is being stained. Nothing was said about these; is any there? Patio furniture. (furniture comes off a deck \
         before it is stained; office)"
    );
    assert_eq!(asked(&office, "Rear. Deck, two hundred square feet, stain. Patio set, move it."), []);
}
