//! The words of a pool, for the recordings in the office.

use super::{objects, pooled};
use crate::harness::Desk;
use eavesdraft::office::pool::{Pool, PoolRecognizer, fingerprints};
use eavesdraft::speech::{HearError, Recognizer, Transcript};

/// What the pool gives for a recording of the desk.
fn gathered(desk: &Desk, file: &str) -> Result<Transcript, HearError> {
    let pool = Pool::open(&desk.path("pool").to_string_lossy()).unwrap();
    let fingerprint = fingerprints(&pool).unwrap().into_iter().next().unwrap_or_else(|| "0".repeat(64));
    let recognizer = PoolRecognizer::new(pool, fingerprint.clone());
    assert_eq!(recognizer.fingerprint().unwrap(), fingerprint);
    recognizer.hear(&desk.path(file), &mut |_| {})
}

fn refusal(desk: &Desk, file: &str) -> String {
    gathered(desk, file).unwrap_err().to_string()
}

#[test]
fn a_recording_has_the_words_it_has_in_the_pool_under_its_name_here() {
    let desk = pooled(2);
    desk.run_hearing(&["pool", "hear", "./pool"]);
    desk.put("moved/front.wav", &std::fs::read(desk.path("walks/0/walk-1.wav")).unwrap());
    let there = gathered(&desk, "walks/0/walk-1.wav").unwrap();
    let here = gathered(&desk, "moved/front.wav").unwrap();
    assert_eq!((there.source.as_str(), there.words().count()), ("walk-1.wav", 10));
    assert_eq!(here, Transcript { source: "front.wav".to_owned(), ..there });
}

#[test]
fn what_is_not_there_is_told_with_what_to_do() {
    let desk = pooled(1);
    desk.put("walks/late.wav", b"\0came later");
    assert!(
        refusal(&desk, "walks/0/walk-0.wav")
            .contains("`walk-0.wav` is not heard yet: run `eavesdraft pool hear")
    );
    assert!(
        refusal(&desk, "walks/late.wav").contains("`late.wav` is not in the pool: run `eavesdraft pool put")
    );
    assert!(refusal(&desk, "walks/gone.wav").contains("gone.wav"));
}

#[test]
fn why_a_recording_is_skipped_is_told_under_its_name_here() {
    let desk = Desk::with([("walks/silent.wav", b"\0silence"), ("other.wav", b"\0silence")]);
    desk.run_hearing(&["pool", "put", "./walks", "./pool"]);
    desk.run_hearing(&["pool", "hear", "./pool"]);
    assert_eq!(refusal(&desk, "other.wav"), "`other.wav`: nobody speaks in it: record it again");
}

#[test]
fn words_of_another_recording_or_none_are_refused() {
    let desk = pooled(2);
    desk.run_hearing(&["pool", "hear", "./pool"]);
    let [first, second] = &objects(&desk, "words")[..] else { panic!() };
    std::fs::copy(desk.path(first), desk.path(second)).unwrap();
    let all = ["walks/0/walk-0.wav", "walks/0/walk-1.wav"].map(|file| gathered(&desk, file));
    assert_eq!(all.iter().filter(|words| words.is_ok()).count(), 1);
    desk.put(first, b"{\"source\": ");
    desk.put(second, b"{\"source\": ");
    assert!(refusal(&desk, "walks/0/walk-0.wav").contains("can't be read"));
}

#[test]
fn a_folder_is_drafted_with_the_words_of_the_pool_and_what_is_missing_is_told() {
    let desk = super::pooled(2);
    let gather = || desk.run_hearing(&["pool", "gather", "./walks", "./pool", "--still", "0"]);
    let early = gather();
    assert_eq!(early.code, 2);
    assert!(early.err.contains("nothing is heard yet"), "{}", early.err);
    desk.run_hearing(&["pool", "hear", "./pool"]);
    desk.put("walks/2/walk-2.wav", b"\0sound 2");
    let run = gather();
    assert_eq!(run.code, 2, "one is not in the pool");
    assert!(run.out.contains("Skipped") && run.out.contains("is not in the pool"), "{}", run.out);
    // The two in folder 0 are clips of one visit.
    assert!(run.out.contains("1 property: 1 line"), "{}", run.out);
    // What was gathered is done, for `day` too.
    let day = desk.run_hearing(&["day", "./walks", "--still", "0", "--json"]);
    assert_eq!(day.out.matches(r#""event":"heard""#).count(), 1, "{}", day.out);
}
