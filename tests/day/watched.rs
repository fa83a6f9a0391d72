//! A folder that is watched.

use super::interrupt;
use crate::harness::Desk;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

#[test]
fn a_watch_does_what_arrives_until_it_is_asked_to_end() {
    let desk = Desk::with([]);
    let mut child = Command::new(env!("CARGO_BIN_EXE_eavesdraft"))
        .args(["watch", ".", "--still", "0"])
        .current_dir(desk.path(""))
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    for (name, lights) in [("9 Oak", "Two"), ("later/14 Elm", "Three")] {
        let words =
            format!("WEBVTT\n\n00:01.000 --> 00:03.000\nOn the rear. {lights} lights, detach and reset.\n");
        sleep(Duration::from_millis(700));
        desk.put(&format!("{name}.vtt"), words.as_bytes());
        let begun = Instant::now();
        while !desk.path(&format!("{name}.scope.json")).exists() {
            assert!(begun.elapsed() < Duration::from_secs(60), "{name} is not drafted");
            sleep(Duration::from_millis(100));
        }
    }
    interrupt(&child);
    assert!(child.wait().unwrap().success());
}
