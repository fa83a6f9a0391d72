//! A server that is killed at any moment loses at most the change in flight.

use super::{Served, drafted};
use serde_json::{Value, json};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

/// How often it is killed.
const KILLS: u64 = 200;

/// Acts are done as fast as the server takes them until it is killed, each time a little later than the time before;
/// after every restart all that was acknowledged must be there, in order and without gaps, and at most one event more.
#[test]
fn two_hundred_kills_lose_no_acknowledged_change() {
    let desk = drafted("Front elevation. Mailbox, replace.");
    let (mut acknowledged, mut recording) = (0, String::new());
    for kill in 0..KILLS {
        let served = Served::over(&desk);
        if recording.is_empty() {
            recording = served.recording();
        }
        let line = served.line(&recording, "mailbox");
        let version = line["version"].as_u64().unwrap();
        assert!(
            version == acknowledged || version == acknowledged + 1,
            "after kill {kill}: {version} events are there, {acknowledged} were acknowledged"
        );
        if version > 0 {
            assert_eq!(line["line"]["quantity"], json!(version as f64));
        }
        acknowledged =
            changes_until_killed(served, &recording, line, Duration::from_micros(137 * (kill % 40)));
    }
    let served = Served::over(&desk);
    let events = served.get(&format!("{recording}/events")).json();
    let numbers: Vec<u64> =
        events["events"].as_array().unwrap().iter().map(|a| a["number"].as_u64().unwrap()).collect();
    assert!(numbers.len() as u64 >= acknowledged && acknowledged > 0);
    assert!(numbers.iter().zip(1..).all(|(number, expected)| *number == expected), "{numbers:?}");
}

/// Counts a line up, one change at a time, until the server is gone; the number of the last event that was acknowledged.
fn changes_until_killed(served: Served, recording: &str, line: Value, after: Duration) -> u64 {
    let id = line["id"].as_str().unwrap().to_owned();
    let mut version = line["version"].as_u64().unwrap();
    let address = served.address.clone();
    let begun = AtomicBool::new(false);
    std::thread::scope(|scope| {
        let acting = scope.spawn(|| {
            let config = ureq::Agent::config_builder().http_status_as_error(false).build();
            let agent: ureq::Agent = config.into();
            loop {
                let number = (version + 1).to_string();
                let command = json!({ "do": "change", "line": id, "fields": { "quantity": number } });
                let wish = json!({ "who": "Ann", "seen": { id.as_str(): version }, "command": command });
                let sent = agent.post(format!("{address}{recording}/events")).send_json(&wish);
                begun.store(true, Ordering::Release);
                match sent {
                    Ok(answer) if answer.status().as_u16() == 200 => version += 1,
                    Ok(answer) => panic!("refused: {answer:?}"),
                    Err(_) => return version,
                }
            }
        });
        while !begun.load(Ordering::Acquire) {
            std::thread::yield_now();
        }
        std::thread::sleep(after);
        served.kill();
        acting.join().unwrap()
    })
}
