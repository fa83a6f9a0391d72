//! What people do to a draft, and that nothing is lost by it.

mod answers;
mod measures;
#[cfg(feature = "store")]
mod store;
mod typed;

use crate::harness::{GRAMMAR, Table};
use eavesdraft::model::{Exact, Flag, Quantity, Shape, Side, Work};
use eavesdraft::scope::review::{Command, Fields, LineState, Refusal, Scope, choices, scope_and_strays};
use proptest::prelude::*;

const WALK: &str = "Front elevation. Two coach lights, detach and reset. There's a hose reel here. Gutter, eleven foot, no wait, \
                    seven foot, replace. If the window wrap is dented, replace it. Right elevation. Gas meter, detach \
                    and reset. Get a photo of it. Someone needs to run a tape on the gutter here.";

fn change(line: String, fields: Fields) -> Command {
    Command::Change { line, fields }
}

fn quantity(text: &str) -> Fields {
    Fields { quantity: Some(text.to_owned()), ..Fields::default() }
}

/// Lines as they are, but for which event touched them last.
fn standing(scope: &Scope) -> Vec<(eavesdraft::model::Line, LineState, Option<String>)> {
    scope.entries.iter().map(|e| (e.line.clone(), e.state, e.reason.clone())).collect()
}

#[test]
fn what_is_accepted_is_not_asked_again() {
    let mut table = Table::new(WALK);
    assert_eq!(table.entry("gutter").state, LineState::Flagged);
    let gutter = table.id("gutter");
    table.does("Ann", Command::Accept { lines: vec![gutter] }).unwrap();
    let entry = table.entry("gutter");
    assert_eq!((entry.state, entry.by.as_deref(), entry.version), (LineState::Reviewed, Some("Ann"), 1));
    assert_eq!(choices(entry, &table.scope, &GRAMMAR), []);
}

#[test]
fn a_line_without_a_flag_is_reviewed_only_once_a_person_says_so() {
    let mut table = Table::new(WALK);
    assert_eq!(table.entry("gas-meter").state, LineState::Unflagged);
    let meter = table.id("gas-meter");
    table.does("Ann", Command::Accept { lines: vec![meter] }).unwrap();
    assert_eq!(table.entry("gas-meter").state, LineState::Reviewed);
    table.does("Ann", Command::Undo {}).unwrap();
    assert_eq!(table.entry("gas-meter").state, LineState::Unflagged);
}

#[test]
fn a_change_takes_away_the_doubts_it_settles_and_no_others() {
    let mut table = Table::new("Front elevation. There's a hose reel here. Mailbox, replace.");
    let reel = table.id("hose-reel");
    let before = table.entry("hose-reel").line.flags.clone();
    assert!(before.contains(&Flag::NoWork), "{before:?}");
    table.does("Ann", change(reel.clone(), Fields { side: Some(Side::Rear), ..Fields::default() })).unwrap();
    let entry = table.entry("hose-reel");
    assert_eq!((entry.line.side, entry.state), (Side::Rear, LineState::Flagged));
    table.does("Ann", change(reel, Fields { work: Some(Work::DetachReset), ..Fields::default() })).unwrap();
    let entry = table.entry("hose-reel");
    assert_eq!((entry.line.work, entry.state), (Some(Work::DetachReset), LineState::Reviewed));
}

#[test]
fn the_number_before_a_correction_is_one_key_away() {
    let mut table = Table::new(WALK);
    assert_eq!(table.entry("gutter").line.quantity, Some(Quantity::of(7)));
    let first = choices(table.entry("gutter"), &table.scope, &GRAMMAR).remove(0);
    assert_eq!(first.label, "11 ft");
    table.does("Ann", first.command).unwrap();
    let entry = table.entry("gutter");
    assert_eq!((entry.line.quantity, entry.state), (Some(Quantity::of(11)), LineState::Reviewed));
}

#[test]
fn a_conditional_line_is_included_left_out_or_kept_as_it_is() {
    for (command, state, only_if) in [
        (|line| Command::Include { line }, LineState::Reviewed, false),
        (|line| Command::LeaveOut { line }, LineState::Dropped, true),
        (|line| Command::Accept { lines: vec![line] }, LineState::Reviewed, true),
    ] as [(fn(String) -> Command, LineState, bool); 3]
    {
        let mut table = Table::new(WALK);
        let wrap = table.id("window-wrap");
        assert!(table.entry("window-wrap").line.only_if);
        let offered = choices(table.entry("window-wrap"), &table.scope, &GRAMMAR);
        assert!(offered.iter().any(|choice| choice.command == command(wrap.clone())), "{offered:?}");
        table.does("Ann", command(wrap)).unwrap();
        let entry = table.entry("window-wrap");
        assert_eq!((entry.state, entry.line.only_if), (state, only_if));
    }
}

#[test]
fn a_line_is_split_by_number_and_side() {
    let mut table = Table::new(WALK);
    let lights = table.id("light-fixture");
    let part = |n: &str, side| Fields { side: Some(side), ..quantity(n) };
    let parts = vec![part("1", Side::Front), part("1", Side::Left)];
    table.does("Ann", Command::Split { line: lights, parts }).unwrap();
    let lights: Vec<_> = table
        .scope
        .entries
        .iter()
        .filter(|e| e.line.item.as_deref() == Some("light-fixture"))
        .map(|e| (e.line.quantity, e.line.side, e.state))
        .collect();
    assert_eq!(
        lights,
        [
            (Some(Quantity::of(1)), Side::Front, LineState::Reviewed),
            (Some(Quantity::of(1)), Side::Left, LineState::Reviewed)
        ]
    );
    let undone = table.does("Ann", Command::Undo {}).unwrap();
    assert_eq!(undone.of, Some(1));
    assert_eq!(standing(&table.scope), standing(&Scope::of(&table.draft)));
}

#[test]
fn what_was_said_twice_counts_once_and_both_are_kept() {
    let mut table =
        Table::new("Front elevation. Two coach lights, replace. Right elevation. Two coach lights, replace.");
    let ids: Vec<String> = table
        .scope
        .entries
        .iter()
        .filter(|e| e.line.item.as_deref() == Some("light-fixture"))
        .map(|e| e.id().to_owned())
        .collect();
    assert_eq!(ids.len(), 2, "{:#?}", table.scope.entries);
    table.does("Ann", Command::Merge { lines: ids.clone() }).unwrap();
    let states: Vec<_> = ids.iter().map(|id| table.scope.entry(id).unwrap()).map(|e| e.state).collect();
    assert_eq!(states, [LineState::Reviewed, LineState::Dropped]);
    assert_eq!(table.scope.draft(&table.draft).lines.len(), 1);
}

#[test]
fn a_line_is_added_from_words_and_stands_where_they_were_said() {
    let mut table =
        Table::new("Front elevation. Mailbox, replace. That thingamajig by the door. Hose reel, replace.");
    let words = Some([8, 8]);
    let fields = Fields { item: Some("door bell".into()), work: Some(Work::DetachReset), ..quantity("1") };
    assert_eq!(table.transcript.words().nth(8).unwrap().text, "door.", "{:?}", table.transcript.text().0);
    table.does("Ann", Command::Add { words, fields }).unwrap();
    let order: Vec<_> = table.scope.entries.iter().map(|e| (e.line.said.as_str(), e.line.side)).collect();
    assert_eq!(order, [("Mailbox", Side::Front), ("door", Side::Front), ("Hose reel", Side::Front)]);
    let added = &table.scope.entries[1];
    assert_eq!((added.state, added.line.quote.as_str()), (LineState::Reviewed, "door."));
}

#[test]
fn a_measurement_goes_into_its_line() {
    let mut table = Table::new(WALK);
    let (needed, gutter) = (table.scope.follow_ups.last().unwrap().id.clone(), table.id("gutter"));
    table
        .does(
            "Ann",
            Command::EnterMeasurement {
                follow_up: needed.clone(),
                line: Some(gutter),
                measurement: "38' 6\"".into(),
            },
        )
        .unwrap();
    assert_eq!(table.entry("gutter").line.quantity, Some(Quantity::of(Exact::new(77, 2))));
    let done = table.scope.follow_up(&needed).unwrap().done.clone().unwrap();
    assert_eq!((done.who.as_str(), done.note.as_deref()), ("Ann", Some("38' 6\"")));
    assert!(table.scope.draft(&table.draft).follow_ups.len() < table.draft.follow_ups.len());
}

#[test]
fn a_signed_scope_is_locked_until_it_is_reopened() {
    let mut table = Table::new(WALK);
    let open = table.scope.flagged();
    assert_eq!(table.does("Ann", Command::SignOff {}).unwrap_err(), Refusal::StillFlagged(open));
    let lines = table.scope.entries.iter().map(|e| e.id().to_owned()).collect();
    table.does("Ann", Command::Accept { lines }).unwrap();
    table.does("Ann", Command::SignOff {}).unwrap();
    let gutter = table.id("gutter");
    let refused = table.does("Ben", change(gutter.clone(), quantity("9"))).unwrap_err();
    assert!(refused.to_string().starts_with("Ann signed this scope off"), "{refused}");
    table.does("Ben", Command::Reopen {}).unwrap();
    table.does("Ben", change(gutter, quantity("9"))).unwrap();
    assert_eq!(table.events.len(), 4);
}

#[test]
fn a_command_on_a_stale_line_is_refused_with_both_values() {
    let mut table = Table::new(WALK);
    let (gutter, before) = (table.id("gutter"), table.versions());
    table.does("Ben", change(gutter.clone(), quantity("9"))).unwrap();
    match table.does_having_seen("Ann", before, change(gutter, quantity("8"))).unwrap_err() {
        Refusal::LineChanged { now: Some(now), wanted: Some(wanted), .. } => {
            assert_eq!(
                (now.line.quantity, wanted.line.quantity),
                (Some(Quantity::of(9)), Some(Quantity::of(8)))
            );
            assert_eq!(now.by.as_deref(), Some("Ben"));
        }
        other => panic!("{other:?}"),
    }
    assert_eq!(table.entry("gutter").line.quantity, Some(Quantity::of(9)));
}

#[test]
fn everybody_undoes_their_own_events_unless_another_changed_the_line_since() {
    let mut table = Table::new(WALK);
    let (gutter, meter) = (table.id("gutter"), table.id("gas-meter"));
    table.does("Ann", change(gutter.clone(), quantity("8"))).unwrap();
    table.does("Ben", change(meter, quantity("2"))).unwrap();
    table.does("Ann", Command::Undo {}).unwrap();
    assert_eq!(table.entry("gutter").line.quantity, Some(Quantity::of(7)));
    assert_eq!(table.entry("gas-meter").line.quantity, Some(Quantity::of(2)));
    table.does("Ann", Command::Redo {}).unwrap();
    assert_eq!(table.entry("gutter").line.quantity, Some(Quantity::of(8)));
    table.does("Ben", change(gutter, quantity("10"))).unwrap();
    assert!(matches!(table.does("Ann", Command::Undo {}), Err(Refusal::LineChanged { .. })));
    assert_eq!(table.entry("gutter").line.quantity, Some(Quantity::of(10)));
    assert!(matches!(table.does("Cy", Command::Undo {}), Err(Refusal::NothingTo { .. })));
}

#[test]
fn a_new_draft_keeps_what_people_decided_and_tells_what_it_no_longer_has() {
    let mut table = Table::new(WALK);
    let (gutter, reel) = (table.id("gutter"), table.id("hose-reel"));
    table.does("Ann", change(gutter.clone(), quantity("9"))).unwrap();
    table.does("Ann", Command::Accept { lines: vec![reel.clone()] }).unwrap();
    let mut newer = table.draft.clone();
    newer.lines.retain(|line| line.id != reel);
    newer.lines.iter_mut().find(|line| line.id == gutter).unwrap().quantity = Some(Quantity::of(70));
    let (scope, strays) = scope_and_strays(&newer, &table.events);
    assert_eq!(scope.entry(&gutter).unwrap().line.quantity, Some(Quantity::of(9)));
    assert!(scope.entry(&reel).is_none());
    let stray: Vec<_> = strays.iter().map(|s| (s.entry.id(), s.why)).collect();
    assert_eq!(stray, [(reel.as_str(), "the new draft has no line from these words")]);
}

#[test]
fn what_makes_no_sense_is_refused_and_changes_nothing() {
    let mut table = Table::new(WALK);
    let gutter = table.id("gutter");
    let before = table.scope.clone();
    let senseless = [
        change(gutter.clone(), quantity("plenty")),
        change(gutter.clone(), Fields::default()),
        change(gutter.clone(), Fields { item: Some(" ".into()), ..Fields::default() }),
        change(gutter.clone(), Fields { size: Some("a\nb".into()), ..Fields::default() }),
        change(gutter.clone(), Fields { detail: Some("x".repeat(3_000)), ..Fields::default() }),
        change("w9999".into(), quantity("1")),
        Command::Drop { lines: vec![gutter.clone()], reason: "  ".into() },
        Command::Drop { lines: vec![], reason: "gone".into() },
        Command::Merge { lines: vec![gutter.clone(), gutter.clone()] },
        Command::Merge { lines: vec![] },
        Command::Split { line: gutter.clone(), parts: vec![quantity("1")] },
        Command::ReadAs { line: gutter, reading: 7 },
        Command::Add { words: Some([5, 4]), fields: quantity("1") },
        Command::Add { words: Some([0, u32::MAX]), fields: quantity("1") },
        Command::Add { words: None, fields: quantity("1") },
        Command::Reopen {},
        Command::Redo {},
    ];
    for command in senseless {
        assert!(table.does("Ann", command.clone()).is_err(), "{command:?}");
        assert_eq!(table.scope, before, "{command:?}");
    }
}

/// A command on the lines and tasks there are at that moment.
fn some_command(table: &Table, kind: u8, which: usize, other: usize) -> Command {
    let id = |n: usize| table.scope.entries[n % table.scope.entries.len()].id().to_owned();
    let task = || table.scope.follow_ups[which % table.scope.follow_ups.len()].id.clone();
    let line = id(which);
    let questions = table.scope.questions(&table.draft, &GRAMMAR);
    let width = format!("{}", 1 + other);
    match kind % 15 {
        0 => Command::Accept { lines: vec![line] },
        1 => change(line, quantity(&format!("{}", other % 50))),
        2 => Command::Drop { lines: vec![line], reason: "not there".into() },
        3 => Command::Split { line, parts: vec![quantity("1"), quantity("2")] },
        4 => Command::Merge { lines: vec![line, id(other)] },
        5 => Command::Add { words: Some([which as u32 % 20, which as u32 % 20 + 2]), fields: quantity("3") },
        6 => {
            Command::Move { lines: vec![line, id(other)], side: Side::Left, structure: Some("garage".into()) }
        }
        7 => Command::Include { line },
        8 => Command::LeaveOut { line },
        9 => Command::EnterMeasurement { follow_up: task(), line: Some(line), measurement: "12 ft".into() },
        10 => Command::Done { follow_up: task() },
        11 => Command::Undo {},
        12 if !questions.is_empty() => answers::some_answer(&questions[which % questions.len()], other),
        13 => measures::measure(Side::Left, Shape::Wall, [Some(&width), None, None]),
        _ => Command::Redo {},
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// Whatever two people do in turns: every drafted line is still there, the events alone give the same scope, and
    /// one person's events can all be undone down to the draft.
    #[test]
    fn nothing_is_lost(steps in prop::collection::vec((any::<u8>(), 0..40_usize, 0..40_usize, any::<bool>()), 0..30)) {
        let walk = format!("{WALK} {}", answers::SIDING);
        let mut table = Table::new(&walk);
        let mut alone = Table::new(&walk);
        for (kind, which, other, ben) in steps {
            let command = some_command(&table, kind, which, other);
            let _ = table.does(if ben { "Ben" } else { "Ann" }, command);
            for line in &table.draft.lines {
                prop_assert!(table.scope.entry(&line.id).is_some(), "{} is lost", line.id);
            }
            let command = some_command(&alone, kind, which, other);
            let _ = alone.does("Ann", command);
        }
        prop_assert_eq!(&Scope::after(&table.draft, &table.events), &table.scope);
        while alone.does("Ann", Command::Undo {}).is_ok() {}
        prop_assert_eq!(standing(&alone.scope), standing(&Scope::of(&alone.draft)));
        prop_assert!(alone.scope.follow_ups.iter().all(|entry| entry.done.is_none()));
        prop_assert!(alone.scope.answers.is_empty() && alone.scope.measured.is_empty());
    }
}
