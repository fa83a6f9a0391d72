//! What goes wrong around the recordings: a recogniser that fails, a model that goes away, a disk without room.

use super::{day, events, of};
use crate::harness::{Desk, NARRATION, Replay, Run};
use eavesdraft::language::rules::Grammar;
use eavesdraft::office::day::{Day, Memory, Rules, VisitBy, run};
use eavesdraft::speech::{HearError, Progress, Recognizer, Transcript};
use std::path::Path;
use std::sync::atomic::AtomicBool;
use std::sync::{Arc, Condvar, Mutex};
use std::time::Duration;

/// Hears as the others do, once `before` has had its way.
struct After<F>(F);

impl<F: Fn(&Path) -> Result<(), HearError> + Send + Sync> Recognizer for After<F> {
    fn hear(&self, path: &Path, progress: &mut dyn FnMut(Progress)) -> Result<Transcript, HearError> {
        (self.0)(path)?;
        Replay.hear(path, progress)
    }

    fn fingerprint(&self) -> Result<String, HearError> {
        Replay.fingerprint()
    }
}

fn day_after<F>(desk: &Desk, before: F) -> Run
where
    F: Fn(&Path) -> Result<(), HearError> + Clone + Send + Sync + 'static,
{
    desk.run_hearing_with(&["day", "./", "--still", "0"], &|_| Ok(Box::new(After(before.clone()))))
}

#[test]
fn a_recording_that_changes_while_it_is_heard_is_left_for_the_next_run() {
    let desk = Desk::with([("9 Oak.wav", b"one"), ("14 Elm.wav", b"two")]);
    let run = day_after(&desk, |path| {
        if path.ends_with("9 Oak.wav") {
            std::fs::write(path, "one and more").unwrap();
        }
        Ok(())
    });
    assert_eq!(run.code, 2);
    assert!(run.out.contains("was changed while it was heard"), "{}", run.out);
    assert!(!desk.path("9 Oak.scope.json").exists() && desk.path("14 Elm.scope.json").exists());
    let again = events(&desk);
    assert_eq!((of(&again, "heard").len(), of(&again, "skipped").len()), (1, 0));
    assert!(desk.path("9 Oak.scope.json").exists());
}

#[test]
fn a_recording_that_the_program_crashes_on_is_skipped() {
    let desk = Desk::with([("9 Oak.wav", b"one"), ("14 Elm.wav", b"two")]);
    let run = day_after(&desk, |path| {
        assert!(!path.ends_with("9 Oak.wav"), "a fault, made for this test");
        Ok(())
    });
    assert_eq!(run.code, 2);
    assert!(run.out.contains("The program crashed on it"), "{}", run.out);
    assert!(desk.path("14 Elm.scope.json").exists());
    assert_eq!(day(&desk, &[]).code, 0);
}

#[test]
fn without_a_model_nothing_is_lost_and_with_it_the_day_goes_on() {
    let desk = Desk::with([("9 Oak.wav", b"one")]);
    day(&desk, &[]);
    desk.put("14 Elm.wav", b"two");
    let gone = desk.run_hearing_with(&["day", "./", "--still", "0"], &|_| anyhow::bail!("the model is gone"));
    assert_eq!(gone.code, 2);
    assert!(
        gone.err.contains("the model is gone") && gone.err.contains("run it again to go on"),
        "{}",
        gone.err
    );
    assert_eq!(of(&events(&desk), "heard").len(), 1);
    assert!(desk.path("14 Elm.scope.json").exists());
}

#[test]
fn what_failed_in_passing_is_tried_again_and_what_is_bad_is_not() {
    let desk = Desk::with([("9 Oak.wav", b"one"), ("silent.wav", b"nothing")]);
    let tries = Arc::new(Mutex::new(Vec::new()));
    let noted = Arc::clone(&tries);
    let recognizer: Arc<dyn Recognizer> = Arc::new(After(move |path: &Path| {
        let mut tries = noted.lock().unwrap();
        tries.push(path.file_name().unwrap().to_string_lossy().into_owned());
        let oak = tries.iter().filter(|name| *name == "9 Oak.wav").count();
        match path.ends_with("9 Oak.wav") && oak == 1 {
            true => Err(HearError::Passing("no memory".to_owned())),
            false => Ok(()),
        }
    }));
    let today =
        Day { folder: desk.path(""), out: None, by: VisitBy::Name, still: Duration::ZERO, patient: false };
    let rules = Rules { grammar: Arc::new(Grammar::built_in().unwrap()), digest: "rules".to_owned() };
    let (stop, mut memory) = (Arc::new(AtomicBool::new(false)), Memory::default());
    let mut once = || {
        let outcome =
            run(&today, &rules, &|| Ok(Arc::clone(&recognizer)), &stop, &mut memory, &mut |_| {}).unwrap();
        (outcome.drafted, outcome.skipped.len())
    };
    assert_eq!([once(), once(), once()], [(0, 2), (1, 1), (0, 1)]);
    let mut tries = tries.lock().unwrap().clone();
    tries.sort();
    assert_eq!(tries, ["9 Oak.wav", "9 Oak.wav", "silent.wav"]);
}

#[test]
fn two_visits_are_worked_on_at_once() {
    let desk = Desk::with([("9 Oak.wav", b"one"), ("14 Elm.wav", b"two")]);
    let met = Arc::new((Mutex::new(0), Condvar::new()));
    let run = day_after(&desk, move |_| {
        let (here, came) = &*met;
        let mut here = here.lock().unwrap();
        *here += 1;
        came.notify_all();
        let wait = came.wait_timeout_while(here, Duration::from_secs(20), |here| *here < 2).unwrap();
        match wait.1.timed_out() {
            true => Err(HearError::Passing("the other visit waits for this one".to_owned())),
            false => Ok(()),
        }
    });
    assert_eq!(run.code, 0, "{}", run.out);
}

/// No file may grow past this limit, in kilobytes: what a full disk does to a program, without one.
#[cfg(unix)]
fn with_room_for(kilobytes: u32, desk: &Desk) -> std::process::Output {
    let program = env!("CARGO_BIN_EXE_eavesdraft");
    let line = format!("trap '' XFSZ; ulimit -f {kilobytes}; exec '{program}' day . --still 0");
    std::process::Command::new("bash").args(["-c", &line]).current_dir(desk.path("")).output().unwrap()
}

#[cfg(unix)]
#[test]
fn a_disk_without_room_ends_the_day_and_what_is_there_is_whole() {
    let other = NARRATION.replace("two", "three");
    let walks = [("9 Oak.vtt", NARRATION.as_bytes()), ("14 Elm.vtt", other.as_bytes())];
    let (undisturbed, desk) = (Desk::with(walks), Desk::with(walks));
    undisturbed.run(&["day", ".", "--still", "0"]);
    for kilobytes in [1, 8, 64] {
        let output = with_room_for(kilobytes, &desk);
        let told = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "with {kilobytes} kB: {told}");
        assert!(told.contains("room"), "with {kilobytes} kB: {told}");
        for name in desk.names().iter().filter(|name| name.ends_with(".scope.json")) {
            assert_eq!(desk.read(name), undisturbed.read(name), "{name} with {kilobytes} kB");
        }
    }
    assert_eq!(desk.run(&["day", ".", "--still", "0"]).code, 0);
    let scopes = |desk: &Desk| {
        let names = desk.names().into_iter().filter(|name| name.contains(".scope."));
        names.map(|name| (desk.read(&name), name)).collect::<Vec<_>>()
    };
    assert_eq!(scopes(&desk), scopes(&undisturbed));
    assert_eq!(scopes(&desk).len(), 4);
}
