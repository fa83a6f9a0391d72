//! Questions about the house are answered by events: told, undone, done again, and kept through a new draft.

use super::{GRAMMAR, Table, quantity, standing};
use eavesdraft::model::{Exact, Flag, Quantity, Side, Work};
use eavesdraft::scope::questions::{Question, With};
use eavesdraft::scope::review::{Change, Command, LineState, Refusal, Scope, Seen, scope_and_strays};

const CORNERS: &str = "Front elevation. Two outside corner posts, replace. Right side. Two outside corner posts, replace. \
                       Rear elevation. Two outside corner posts, replace. Left side. Two outside corner posts, replace.";

/// A side with something that was not mentioned, and posts of the front on it.
pub const SIDING: &str = "Right side. Siding, three square, replace. Light, detach and reset. Two outside corner posts, replace. \
                          Front. Two outside corner posts, replace.";

fn questions(table: &Table) -> Vec<Question> {
    table.scope.questions(&table.draft, &GRAMMAR)
}

/// The question about what the right side lacks.
fn need(table: &Table) -> Question {
    questions(table).into_iter().find(|q| q.side == Side::Right && !q.missing.is_empty()).unwrap()
}

fn answer(question: &Question, with: With) -> Command {
    Command::Answer { question: question.id.clone(), with }
}

/// Any answer to a question.
pub fn some_answer(question: &Question, which: usize) -> Command {
    let item = || question.missing[which % question.missing.len()].item.clone();
    let with = match which % 2 {
        _ if question.missing.is_empty() => With::Reading(which % question.readings.len()),
        0 => With::None(vec![item()]),
        _ => With::Add(item()),
    };
    answer(question, with)
}

fn posts(table: &Table) -> f64 {
    let kept = table.scope.entries.iter().filter(|entry| entry.state != LineState::Dropped);
    kept.filter_map(|entry| entry.line.quantity).map(|quantity| quantity.value()).sum::<Exact>().decimal()
}

#[test]
fn the_lower_reading_leaves_lines_that_add_up_to_it_and_all_of_it_is_undone_at_once() {
    let mut table = Table::new(CORNERS);
    let before = standing(&table.scope);
    let question = questions(&table).remove(0);
    let told = table.does("Ann", answer(&question, With::Reading(0))).unwrap().summary.clone();
    assert_eq!(told, "outside corner: 4 in all");
    assert_eq!((posts(&table), questions(&table)), (4.0, vec![]));
    let dropped = table.scope.entries.iter().filter(|entry| entry.state == LineState::Dropped);
    let reasons: Vec<_> = dropped.map(|entry| entry.reason.as_deref().unwrap()).collect();
    assert_eq!(reasons, ["counted on the side next to it"; 2]);
    assert_eq!(table.scope.answers[&question.id].who, "Ann");
    let undone = table.does("Ann", Command::Undo {}).unwrap().summary.clone();
    assert_eq!(undone, "undone: outside corner: 4 in all");
    assert_eq!((standing(&table.scope), questions(&table)), (before, vec![question]));
    table.does("Ann", Command::Redo {}).unwrap();
    assert_eq!((posts(&table), questions(&table)), (4.0, vec![]));
}

#[test]
fn one_post_less_is_a_changed_number() {
    let mut table = Table::new("Front. Two corner posts, replace. Right side. Two corner posts, replace.");
    let question = questions(&table).remove(0);
    table.does("Ann", answer(&question, With::Reading(0))).unwrap();
    assert_eq!((posts(&table), table.scope.entries[1].line.quantity), (3.0, Some(Quantity::of(1))));
    assert_eq!(questions(&table), []);
}

#[test]
fn as_noted_closes_the_question_and_changes_no_line() {
    let mut table = Table::new(CORNERS);
    let before = standing(&table.scope);
    let question = questions(&table).remove(0);
    let event = table.does("Ben", answer(&question, With::Reading(1))).unwrap();
    assert_eq!(event.summary, "outside corner: 8 in all");
    assert!(matches!(&event.changes[..], [Change::Answer { .. }]));
    assert_eq!((standing(&table.scope), questions(&table)), (before, vec![]));
}

#[test]
fn what_there_is_none_of_is_told_by_itself_or_all_at_once() {
    let mut table = Table::new(SIDING);
    let question = need(&table);
    assert_eq!(question.missing.len(), 5);
    let event = table.does("Ann", answer(&question, With::None(vec!["outlet".into()]))).unwrap();
    assert_eq!(event.summary, "no outlet, right");
    let left = need(&table);
    assert_eq!((&left.id, left.missing.len()), (&question.id, 4));
    assert!(!left.in_full().contains("outlet"), "{}", left.in_full());
    let again = table.does("Ann", answer(&question, With::None(vec!["outlet".into()])));
    assert!(matches!(again, Err(Refusal::Invalid(_))), "{again:?}");
    let rest = left.missing.iter().map(|missing| missing.item.clone()).collect();
    table.does("Ann", answer(&left, With::None(rest))).unwrap();
    assert!(questions(&table).iter().all(|other| other.id != question.id));
    table.does("Ann", Command::Undo {}).unwrap();
    assert_eq!(need(&table).missing.len(), 4);
}

#[test]
fn what_was_forgotten_is_added_as_a_line_that_is_still_to_be_counted() {
    let mut table = Table::new(SIDING);
    let question = need(&table);
    let told = table.does("Ann", answer(&question, With::Add("outlet".into()))).unwrap().summary.clone();
    assert_eq!(told, "outlet, right: added");
    let entry = table.entry("outlet");
    let line = &entry.line;
    assert_eq!((line.side, line.work, line.quantity), (Side::Right, Some(Work::DetachReset), None));
    assert_eq!((entry.state, line.flags.as_slice()), (LineState::Flagged, &[Flag::NoNumber][..]));
    assert!(need(&table).missing.iter().all(|missing| missing.item != "outlet"));
    let outlet = table.id("outlet");
    table.does("Ann", Command::Change { line: outlet.clone(), fields: quantity("2") }).unwrap();
    assert_eq!(table.entry("outlet").state, LineState::Reviewed);
    table.does("Ann", Command::Drop { lines: vec![outlet], reason: "not there".into() }).unwrap();
    assert!(need(&table).missing.iter().all(|missing| missing.item != "outlet"), "asked again");
}

#[test]
fn answers_stay_with_their_questions_in_a_new_draft_of_the_same_words() {
    let mut table = Table::new(&format!("{CORNERS} {SIDING}"));
    for question in questions(&table) {
        let with = match question.missing.as_slice() {
            [] => With::Reading(question.readings.len() - 1),
            missing => With::None(missing.iter().map(|missing| missing.item.clone()).collect()),
        };
        table.does("Ann", answer(&question, with)).unwrap();
    }
    let again = Table::new(&format!("{CORNERS} {SIDING}"));
    assert!(!questions(&again).is_empty());
    let (scope, strays) = scope_and_strays(&again.draft, &table.events);
    assert_eq!((scope.questions(&again.draft, &GRAMMAR), strays), (vec![], vec![]));
    assert_eq!(Scope::after(&table.draft, &table.events).answers, table.scope.answers);
}

#[test]
fn an_answer_that_changes_lines_wants_them_seen_and_one_that_is_late_is_refused() {
    let mut table = Table::new(CORNERS);
    let question = questions(&table).remove(0);
    let seen = table.versions();
    let right = question.lines[1].clone();
    table.does("Ben", Command::Change { line: right.clone(), fields: quantity("3") }).unwrap();
    let refused = table.does_having_seen("Ann", seen, answer(&question, With::Reading(0)));
    assert!(matches!(&refused, Err(Refusal::LineChanged { id, .. }) if *id == right), "{refused:?}");
    table.does_having_seen("Ann", Seen::new(), answer(&question, With::Reading(1))).unwrap();
    let late = table.does("Ben", answer(&question, With::Reading(1)));
    assert_eq!(late.unwrap_err(), Refusal::NotAsked);
    let senseless = answer(&question, With::Reading(7));
    table.does("Ann", Command::Undo {}).unwrap();
    assert!(matches!(table.does("Ann", senseless), Err(Refusal::Invalid(_))));
}

#[test]
fn a_scope_may_be_signed_off_with_open_questions_and_the_history_tells_how_many() {
    let mut table = Table::new(CORNERS);
    assert_eq!(
        table.does("Ann", Command::SignOff {}).unwrap().summary,
        "scope signed off, 1 question left open"
    );
    let question = questions(&table).remove(0);
    let locked = table.does("Ann", answer(&question, With::Reading(1)));
    assert!(matches!(locked, Err(Refusal::SignedOff(_))), "{locked:?}");
    table.does("Ann", Command::Reopen {}).unwrap();
    table.does("Ann", answer(&question, With::Reading(1))).unwrap();
    assert_eq!(table.does("Ann", Command::SignOff {}).unwrap().summary, "scope signed off");
}
