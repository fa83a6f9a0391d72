//! Stores that earlier programs wrote are opened, and mean what they meant.

use super::GRAMMAR;
use eavesdraft::model::{Exact, Line, Quantity, Side};
use eavesdraft::office::store::{Drafted, FILE, Store};
use eavesdraft::scope::review::{
    Actor, Command, DimensionName, Event, LineState, Refusal, ReviewContext, Scope, Seen, scope_and_strays,
};

/// What an earlier program wrote.
const SECOND_FORM: &str = include_str!("second-form.sql");

/// Its store, opened by this program, with the only recording in it.
fn opened() -> (tempfile::TempDir, Store, Drafted, Vec<Event>) {
    let folder = tempfile::tempdir().unwrap();
    rusqlite::Connection::open(folder.path().join(FILE)).unwrap().execute_batch(SECOND_FORM).unwrap();
    let store = Store::open(folder.path()).unwrap();
    let id = store.recordings().unwrap().remove(0).id;
    let (drafted, events) = (store.drafted(&id).unwrap().unwrap(), store.events(&id, 0).unwrap());
    (folder, store, drafted, events)
}

fn stands(scope: &Scope, item: &str) -> (LineState, Option<String>, Line) {
    let entry = scope.entries.iter().find(|entry| entry.line.item.as_deref() == Some(item)).unwrap();
    (entry.state, entry.by.clone(), entry.line.clone())
}

#[test]
fn every_event_of_an_earlier_form_is_there_under_todays_names() {
    let (_folder, _, _, events) = opened();
    let commands: Vec<&Command> = events.iter().map(|event| &event.command).collect();
    let [
        Command::Change { .. },
        Command::Accept { .. },
        Command::Include { .. },
        Command::LeaveOut { .. },
        Command::EnterMeasurement { measurement, .. },
        Command::Done { .. },
        Command::SetDimension { dimension: DimensionName { side: Side::Front, .. }, .. },
        Command::SetDimension { measurements, .. },
        Command::Answer { .. },
        Command::Drop { .. },
        Command::Undo {},
        Command::Redo {},
        Command::SignOff {},
    ] = commands[..]
    else {
        panic!("{commands:#?}")
    };
    assert_eq!((measurement.as_str(), measurements.slope.as_deref()), ("10' 6\"", Some("6/12")));
    assert_eq!(events[0].summary, "gutter, front: 9 ft, was 7 ft");
}

#[test]
fn what_was_decided_in_an_earlier_form_stands() {
    let (_folder, _, drafted, events) = opened();
    let (scope, strays) = scope_and_strays(&drafted.draft, &events);
    assert!(strays.is_empty());
    let ann = || Some("Ann".to_owned());
    let (state, by, gutter) = stands(&scope, "gutter");
    assert_eq!((state, by, gutter.quantity), (LineState::Reviewed, ann(), Some(Quantity::of(9))));
    let (state, by, wrap) = stands(&scope, "window-wrap");
    assert_eq!((state, by, wrap.only_if), (LineState::Reviewed, ann(), false));
    assert_eq!(stands(&scope, "mailbox").0, LineState::Dropped);
    assert_eq!(stands(&scope, "gas-meter").0, LineState::Dropped);
    assert_eq!(stands(&scope, "downspout").2.quantity, Some(Quantity::of(Exact::new(21, 2))));
    let (state, by, _) = stands(&scope, "outside-corner");
    assert_eq!((state, by), (LineState::Unflagged, None), "nobody touched the posts on the front");
    assert!(scope.follow_ups.iter().all(|entry| entry.done.is_some()));
    assert_eq!((scope.measured.len(), scope.answers.len()), (2, 1));
    assert_eq!(scope.signed_off.as_ref().map(|signed| signed.who.as_str()), Some("Ann"));
}

#[test]
fn events_of_an_earlier_form_are_undone_and_new_ones_follow_them() {
    let (_folder, mut store, drafted, mut events) = opened();
    let id = drafted.recording.id.clone();
    let Drafted { draft, transcript, .. } = drafted;
    let mut does = |who: &str, command: Command| -> Result<Scope, Refusal> {
        let (scope, _) = scope_and_strays(&draft, &events);
        let seen: Seen = scope.entries.iter().map(|entry| (entry.id().to_owned(), entry.version)).collect();
        let actor = Actor { who: who.to_owned(), at: "2026-12-02T08:00:00Z".to_owned(), seen };
        let context = ReviewContext {
            draft: &draft,
            scope: &scope,
            events: &events,
            transcript: &transcript,
            grammar: &GRAMMAR,
        };
        let event = context.decide(&actor, command)?;
        let after = events.len() as u64;
        events.push(store.add_event(&id, after, |_| Ok::<_, Refusal>(event)).unwrap()?);
        assert_eq!(store.events(&id, 0).unwrap(), events);
        Ok(scope_and_strays(&draft, &events).0)
    };
    assert!(matches!(does("Ben", Command::Undo {}), Err(Refusal::SignedOff(_))));
    assert_eq!(does("Ann", Command::Reopen {}).unwrap().signed_off, None);
    let scope = does("Ben", Command::Undo {}).unwrap();
    assert_eq!(stands(&scope, "gas-meter").0, LineState::Unflagged, "as it was before it was dropped");
    let mut scope = None;
    while let Ok(before) = does("Ben", Command::Undo {}) {
        scope = Some(before);
    }
    let scope = scope.unwrap();
    assert!(scope.measured.is_empty() && scope.follow_ups.iter().all(|entry| entry.done.is_none()));
    assert_eq!(stands(&scope, "downspout").0, LineState::Flagged);
}

#[test]
fn a_store_of_an_earlier_form_is_changed_once_and_its_events_stay_as_they_are() {
    let (folder, store, ..) = opened();
    drop(store);
    let open = || rusqlite::Connection::open(folder.path().join(FILE)).unwrap();
    let form = || open().pragma_query_value(None, "user_version", |row| row.get::<_, u64>(0)).unwrap();
    let first = form();
    Store::open(folder.path()).unwrap();
    assert_eq!((first, form()), (4, 4));
    for change in ["update event set who = 'Eve'", "delete from event"] {
        let refused = open().execute(change, []).unwrap_err().to_string();
        assert!(refused.contains("an event is never"), "{refused}");
    }
}
