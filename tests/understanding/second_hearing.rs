//! Two hearings of one recording: what both give is surer, what they give differently is to be looked at.

use eavesdraft::language::rules::Grammar;
use eavesdraft::model::span::Moment;
use eavesdraft::model::{Draft, Flag, Line, Quantity, Side, Unit};
use eavesdraft::scope::drafting;
use eavesdraft::speech::{Transcript, Utterance, Word};

/// Sentences one behind the other, five seconds for each; the recogniser was unsure of words that begin with `~`.
fn utterances(sentences: &[&str]) -> Vec<Utterance> {
    let word = |n: usize, m: usize, text: &str| {
        let start = 5.0 * n as f64 + 0.4 * m as f64;
        Word {
            text: text.trim_start_matches('~').to_owned(),
            start: Some(Moment::from_seconds(start)),
            end: Some(Moment::from_seconds(start + 0.3)),
            probability: Some(if text.starts_with('~') { 0.2 } else { 0.9 }),
        }
    };
    let utterance = |(n, sentence): (usize, &&str)| Utterance {
        words: sentence.split_whitespace().enumerate().map(|(m, text)| word(n, m, text)).collect(),
    };
    sentences.iter().enumerate().map(utterance).collect()
}

fn drafted(first: &[&str], second: &[&str]) -> Draft {
    let transcript = Transcript {
        utterances: utterances(first),
        second_pass: utterances(second),
        ..Transcript::default()
    };
    drafting::by_rules(&transcript, &Grammar::built_in().unwrap())
}

fn read(line: &Line) -> (Option<&str>, Option<f64>, bool, Option<&str>) {
    (
        line.item.as_deref(),
        line.quantity.map(|quantity| quantity.value().decimal()),
        line.flags.contains(&Flag::UnclearAudio),
        line.other_reading.as_deref(),
    )
}

#[test]
fn what_was_heard_alike_twice_loses_its_doubt() {
    let doubtful = ["Front elevation.", "~Two ~lights, detach and reset."];
    let once = drafted(&doubtful, &[]);
    assert_eq!(read(&once.lines[0]), (Some("light-fixture"), Some(2.0), true, None));
    let twice = drafted(&doubtful, &["Front elevation.", "Two lights, detach and reset."]);
    assert_eq!(read(&twice.lines[0]), (Some("light-fixture"), Some(2.0), false, None));
}

#[test]
fn what_was_not_heard_a_second_time_keeps_its_doubt() {
    let doubtful = ["Front elevation.", "~Two ~lights, detach and reset.", "Mailbox, replace."];
    let again = ["Front elevation.", "~Two ~lights, detach and reset.", "Mailbox, ~replace."];
    let draft = drafted(&doubtful, &again);
    assert_eq!(read(&draft.lines[0]), (Some("light-fixture"), Some(2.0), true, None));
    assert_eq!(read(&draft.lines[1]), (Some("mailbox"), Some(1.0), false, None));
}

#[test]
fn a_number_heard_otherwise_is_flagged_with_both_readings() {
    let first = ["Front elevation.", "Gutter, fourteen foot, replace."];
    let draft = drafted(&first, &["Front elevation.", "Gutter, forty foot, replace."]);
    assert_eq!(
        read(&draft.lines[0]),
        (Some("gutter"), Some(14.0), true, Some("Gutter, forty foot, replace."))
    );
    assert!(draft.lines[0].confidence < drafted(&first, &[]).lines[0].confidence);
    let other = draft.lines[0].read_as(&draft.lines[0].readings[0]);
    assert_eq!(
        (other.quantity, other.unit, other.work),
        (Some(Quantity::of(40)), Unit::Foot, draft.lines[0].work)
    );
}

#[test]
fn a_side_heard_otherwise_is_offered() {
    let draft = drafted(
        &["Front elevation.", "Right elevation.", "Mailbox, replace."],
        &["Front elevation.", "Tight elation.", "Mailbox, replace."],
    );
    assert_eq!(draft.lines[0].side, Side::Right);
    assert_eq!(draft.lines[0].readings[0].side, Some(Side::Front), "{:?}", draft.lines[0]);
}

#[test]
fn an_unsure_number_is_offered_with_what_sounds_like_it() {
    let offered = |sentence: &str| -> Vec<Option<Quantity>> {
        let draft = drafted(&["Front elevation.", sentence], &[]);
        draft.lines[0].readings.iter().map(|reading| reading.quantity).collect()
    };
    assert_eq!(offered("Gutter, ~fifteen foot, replace."), [Some(Quantity::of(50))]);
    assert_eq!(offered("Gutter, ~115 foot, replace."), [Some(Quantity::of(150))]);
    assert_eq!(offered("Gutter, fifteen foot, replace."), []);
    assert_eq!(offered("Gutter, ~twelve foot, replace."), []);
}

#[test]
fn a_photo_that_only_the_second_heard_is_not_lost() {
    let first = ["Front elevation.", "Mailbox, replace.", "Get a fold of it."];
    assert!(drafted(&first, &[]).follow_ups.is_empty());
    let draft = drafted(&first, &["Front elevation.", "Mailbox, replace.", "Get a photo of it."]);
    assert_eq!(draft.follow_ups.len(), 1);
    let both = ["Front elevation.", "Mailbox, replace.", "Get a photo of it."];
    assert_eq!(drafted(&both, &both).follow_ups.len(), 1);
}

#[test]
fn a_second_hearing_that_only_lost_a_word_raises_no_doubt() {
    let draft = drafted(
        &["Front elevation.", "Gutter, fourteen foot, replace."],
        &["Front elevation.", "Gutter, fourteen foot, replays."],
    );
    assert_eq!(read(&draft.lines[0]), (Some("gutter"), Some(14.0), false, None));
}

#[test]
fn a_side_that_only_one_of_them_heard_flags_what_follows() {
    let draft = drafted(
        &["Front elevation.", "Mailbox, replace.", "So around that now.", "Dryer vent, replace."],
        &["Front elevation.", "Mailbox, replace.", "So around back now.", "Dryer vent, replace."],
    );
    assert!(!read(&draft.lines[0]).2, "{:?}", draft.lines[0]);
    assert!(read(&draft.lines[1]).2, "{:?}", draft.lines[1]);
}

#[test]
fn of_two_readings_that_differ_the_one_that_makes_sense_is_taken() {
    let draft = drafted(
        &["Front elevation.", "Bigot, detach and reset."],
        &["Front elevation.", "Spigot, detach and reset."],
    );
    assert_eq!(draft.lines.len(), 1);
    assert_eq!(read(&draft.lines[0]), (Some("hose-bib"), Some(1.0), true, Some("Bigot, detach and reset.")));
}

#[test]
fn what_only_the_second_heard_is_not_lost() {
    let draft = drafted(
        &["Front elevation.", "Mailbox, replace.", "Five parasols.", "Dryer vent, replace."],
        &["Front elevation.", "Mailbox, replace.", "Five pair of shutters, replace.", "Dryer vent, replace."],
    );
    let items: Vec<_> = draft.lines.iter().map(|line| line.item.as_deref()).collect();
    assert_eq!(items, [Some("mailbox"), Some("shutter"), Some("dryer-vent")], "{:?}", draft.lines);
    assert_eq!(read(&draft.lines[1]).1, Some(5.0));
    assert!(read(&draft.lines[1]).2);
}
