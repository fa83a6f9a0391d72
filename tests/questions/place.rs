//! Where a stretch of the walk is: one question for all its lines.

use crate::harness::Table;
use eavesdraft::model::{Flag, Reading, Side};
use eavesdraft::scope::questions::{Kind, With};
use eavesdraft::scope::review::{Command, LineState};

/// A walk of which the lines behind the first may as well be on another side than the one drafted.
fn walk(other: Side) -> Table {
    let mut table = Table::new(
        "Front elevation. Two lights, detach and reset. Gutter, forty foot, replace. One mailbox, detach and reset.",
    );
    for entry in &mut table.scope.entries[1..] {
        entry.line.flags.push(Flag::Unsure);
        entry.line.readings.insert(0, Reading { side: Some(other), ..Reading::default() });
        entry.state = LineState::Flagged;
    }
    table
}

fn asked(table: &Table) -> Vec<String> {
    let all = table.scope.questions(&table.draft, &crate::harness::GRAMMAR);
    all.into_iter().filter(|question| question.kind == Kind::Place).map(|question| question.id).collect()
}

#[test]
fn a_stretch_is_asked_about_once_and_one_answer_moves_all_its_lines() {
    let mut table = walk(Side::Rear);
    let questions = table.scope.questions(&table.draft, &crate::harness::GRAMMAR);
    let question = questions.iter().find(|question| question.kind == Kind::Place).unwrap();
    assert_eq!(question.asks, "2 lines from “Gutter” to “mailbox”: are they on the front, or on the rear?");
    let labels: Vec<&str> = question.readings.iter().map(|reading| reading.label.as_str()).collect();
    assert_eq!(labels, ["The front", "The rear"]);
    let rear = Command::Answer { question: question.id.clone(), with: With::Reading(1) };
    table.does("Ann", rear).unwrap();
    let sides: Vec<Side> = table.scope.entries.iter().map(|entry| entry.line.side).collect();
    assert_eq!(sides, [Side::Front, Side::Rear, Side::Rear]);
    assert!(table.scope.entries[1..].iter().all(|entry| entry.state == LineState::Reviewed));
    assert!(asked(&table).is_empty());
    table.does("Ann", Command::Undo {}).unwrap();
    let sides: Vec<Side> = table.scope.entries.iter().map(|entry| entry.line.side).collect();
    assert_eq!(sides, [Side::Front; 3]);
    assert_eq!(asked(&table).len(), 1);
}

#[test]
fn lines_that_stay_are_settled_too() {
    let mut table = walk(Side::Rear);
    let id = asked(&table).remove(0);
    table.does("Ann", Command::Answer { question: id, with: With::Reading(0) }).unwrap();
    assert!(table.scope.entries.iter().all(|entry| entry.line.side == Side::Front));
    assert_eq!(table.scope.flagged(), 0);
}

#[test]
fn one_line_and_lines_that_may_be_elsewhere_each_are_not_asked_about_together() {
    let mut one = walk(Side::Rear);
    one.scope.entries[2].line.flags.clear();
    assert!(asked(&one).is_empty());
    let mut apart = walk(Side::Rear);
    apart.scope.entries[2].line.readings[0].side = Some(Side::Left);
    assert!(asked(&apart).is_empty());
    assert!(asked(&walk(Side::Front)).is_empty());
}
