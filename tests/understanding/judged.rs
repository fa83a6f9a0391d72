//! What rules and reader draft together.
//!
//! The reader was trained on the narrations in `tests/narrations/unread` but for nine authors, so a score on them shows fit and
//! guards against breakage; how well it does on authors it hasn't read is measured by leaving authors out
//! (`training/README.md`) and told in `docs/accuracy.md`.

use super::narrations::{Floor, reaches};
use super::scoring::Score;
use crate::harness::GRAMMAR;
use crate::harness::narration;
use eavesdraft::language::reader::{Reader, ReaderError};
use eavesdraft::model::{Draft, Flag, Line, Side, Work};
use eavesdraft::scope::drafting::{self, Drafter};
use eavesdraft::speech::Transcript;
use std::path::Path;

fn drafted(text: &str) -> Draft {
    drafting::draft(&Transcript::from_plain(text), &GRAMMAR)
}

/// One narration each of some authors, filmed walks and others.
#[test]
fn narrations_no_rule_was_written_for_become_lines() {
    const AUTHORS: [&str; 8] = [
        "brisk-rep-and-notes",
        "crews-and-families-on-film",
        "foreman-and-preacher",
        "hail-rep-and-framer",
        "homeowner-asks",
        "lake-houses-and-soot",
        "new-hires-and-quiet-installer",
        "trade-school-and-viewers",
    ];
    let all = narration::narrations("unread").unwrap();
    let mut score = Score::default();
    for author in &AUTHORS {
        let one = all.iter().find(|narration| narration.author() == *author).unwrap();
        let draft = serde_json::to_value(drafted(&one.text)).unwrap();
        score.add(&one.path.display().to_string(), &one.wanted, &draft);
    }
    reaches(
        &score,
        &Floor { lines: 0.85, silent_errors: 0.08, look_rate: 0.3, look_recall: 0.6, beside: 0.6 },
    );
}

#[test]
fn a_side_that_is_only_walked_to_is_understood() {
    let walk = "okay so front of the house here front gutter is 40 foot that gets replaced and 2 downspouts same thing \
                replace those and the front door is fine so let's go to the back alright so back here they've got a deck \
                and the patio door that's all fine too the gutter back here is also 40 foot replace that and there's a \
                light by the door detach and reset that and 2 window screens torn up replace both of those";
    let draft = drafted(walk);
    let at = |side| draft.lines.iter().filter(|line| line.side == side).count();
    assert_eq!((at(Side::Front), at(Side::Rear)), (2, 3), "{:#?}", draft.lines);
    let light = draft.lines.iter().find(|line| line.item.as_deref() == Some("light-fixture")).unwrap();
    assert_eq!((light.side, light.work), (Side::Rear, Some(Work::DetachReset)));
}

#[test]
fn every_line_points_at_words_that_were_said() {
    let path = Path::new("tests/narrations/unread/teaching-on-film");
    let all = narration::narrations("unread").unwrap();
    for one in all.iter().filter(|narration| narration.path.starts_with(path)).take(2) {
        let draft = drafted(&one.text);
        let words: Vec<&str> = one.text.split_whitespace().collect();
        for line in &draft.lines {
            let [first, last] = line.words.unwrap();
            let said = words[first as usize..=last as usize].join(" ");
            assert_eq!(line.quote.split_whitespace().collect::<Vec<_>>().join(" "), said);
            assert!(!line.why.is_empty(), "{}", line.quote);
            assert!((0.0..=1.0).contains(&line.confidence));
            let again = draft.lines.iter().filter(|other| said_twice(line, other)).count();
            assert_eq!(again, 1, "{line:#?}");
        }
    }
}

/// Whether two lines near each other agree in everything.
fn said_twice(line: &Line, other: &Line) -> bool {
    let what = |line: &Line| {
        (line.item.clone(), line.said.to_lowercase(), line.structure.clone(), line.size.clone())
    };
    let how = |line: &Line| (line.side, line.work, line.quantity, line.unit, line.only_if);
    let near = line.words.unwrap()[0].abs_diff(other.words.unwrap()[0]) <= 60;
    what(line) == what(other) && how(line) == how(other) && near
}

/// An item that only the reader recognized calls for its cautions too.
#[test]
fn every_line_has_the_cautions_of_its_item() {
    let all = narration::narrations("unread").unwrap();
    let mut called_for = 0;
    for one in all.iter().step_by(120) {
        let draft = drafted(&one.text);
        let items = draft.lines.iter().filter_map(|line| line.item.as_deref());
        for item in items.filter_map(|id| GRAMMAR.items.iter().find(|item| item.id == id)) {
            for name in &item.cautions {
                assert!(draft.cautions.iter().any(|caution| caution.name == *name), "{}: {name}", item.id);
                called_for += 1;
            }
        }
    }
    assert!(called_for > 0);
}

/// What the rules hear as still to do, and what they draft, is never lost: where the judge takes neither, the words stand
/// under "not used".
#[test]
fn what_the_rules_heard_as_still_to_do_is_told() {
    let all = narration::narrations("unread").unwrap();
    let mut told = 0;
    for one in all.iter().step_by(90) {
        let (rules, draft) =
            (drafting::by_rules(&Transcript::from_plain(&one.text), &GRAMMAR), drafted(&one.text));
        let quotes: Vec<&str> = (draft.follow_ups.iter().map(|todo| todo.quote.as_str()))
            .chain(draft.unused.iter().map(|words| words.quote.as_str()))
            .collect();
        for todo in &rules.follow_ups {
            let here = |quote: &&str| quote.contains(&todo.quote) || todo.quote.contains(*quote);
            assert!(quotes.iter().any(here), "{}: {}", one.path.display(), todo.quote);
            told += 1;
        }
    }
    assert!(told > 0);
}

#[test]
fn the_same_words_give_the_same_draft() {
    let all = narration::narrations("unread").unwrap();
    let bytes = || serde_json::to_vec(&drafted(&all[0].text)).unwrap();
    assert_eq!(bytes(), bytes());
}

#[test]
fn what_isnt_sure_is_flagged() {
    let all = narration::narrations("unread").unwrap();
    let draft = drafted(&all[0].text);
    let unsure = |line: &&Line| line.confidence < 0.8;
    assert!(draft.lines.iter().any(|line| unsure(&line)));
    assert!(draft.lines.iter().filter(unsure).all(|line| line.flags.contains(&Flag::Unsure)));
}

/// The reader was trained on whole walks.
#[test]
fn a_few_sentences_are_drafted_by_the_rules_alone() {
    let transcript =
        Transcript::from_plain("Front elevation. Gutter, forty foot, replace. Two lights, detach and reset.");
    assert_eq!(drafting::draft(&transcript, &GRAMMAR), drafting::by_rules(&transcript, &GRAMMAR));
}

#[test]
fn odd_input_gives_a_draft_without_lines() {
    for text in ["", " ", "gutter ", "… ", "12 34 56 ", "好 好 好 ", "\u{301}\u{0} ", "-- -- -- ", "um "]
    {
        for times in [1, 100] {
            let draft = drafted(&text.repeat(times));
            assert!(draft.lines.iter().all(|line| line.needs_look()), "{text:?}");
        }
    }
}

/// The work grows with the words: the same phrase, four times as often, gives about four times as many lines to judge and
/// doesn't stop.
#[test]
fn one_phrase_over_and_over_is_borne() {
    let text = "front gutter forty foot replace ".repeat(1_000);
    assert!(drafted(&text).lines.len() < 1_001);
}

#[test]
fn a_file_that_is_no_reader_is_refused() {
    let learned = std::fs::read("models/reader.safetensors").unwrap();
    let fault = |bytes: &[u8]| Reader::load(bytes).err().map(|fault| fault.to_string()).unwrap_or_default();
    assert!(fault(b"").contains("get the file again"));
    assert!(fault(&learned[..learned.len() / 2]).contains("it may be cut off"));
    let other = safetensors_of("{\"__metadata__\":{\"form\":\"something/1\"}}");
    assert!(fault(&other).contains("its form is Some(\"something/1\")"));
    let lacking = safetensors_of(
        "{\"__metadata__\":{\"form\":\"eavesdraft-reader/1\",\"marks\":\"[]\",\"items\":\"[]\",\"pieces\":\"[]\"}}",
    );
    assert!(matches!(Reader::load(&lacking), Err(ReaderError::Missing(_))));
    assert!(Reader::load(&learned).is_ok());
}

/// A safetensors file with this head and no numbers.
fn safetensors_of(head: &str) -> Vec<u8> {
    [&(head.len() as u64).to_le_bytes()[..], head.as_bytes()].concat()
}

#[test]
fn the_rules_can_draft_alone() {
    let transcript = Transcript::from_plain("Front elevation. Gutter, forty foot, replace.");
    let alone = drafting::draft_by(&transcript, &GRAMMAR, Drafter::Rules);
    assert_eq!(alone, drafting::by_rules(&transcript, &GRAMMAR));
    assert_eq!(alone.lines.len(), 1);
}
