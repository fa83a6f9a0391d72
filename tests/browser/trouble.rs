//! Two reviewers at once, a server that goes away, a recording that isn't there, a disk that is full.

use super::driver::{Browser, tools};
use super::{choose, told, walk};
use crate::harness::Desk;
use crate::server::Served;
use fantoccini::key::Key;
use std::path::PathBuf;
use std::process::Command;

#[test]
fn of_two_reviewers_the_later_one_sees_both_values_and_the_other_page_follows_by_itself() {
    let Some(tools) = tools() else { return };
    let desk = walk();
    let (ann, ben) = (Browser::new(&tools), Browser::new(&tools));
    let served = Served::over(&desk);
    ann.review(&served.address, "Ann");
    ben.review(&served.address, "Ben");
    choose(&ann, "gutter", "house, front");
    ann.press(&['e']);
    ann.types(".edit [data-field=quantity]", "8 ft");
    choose(&ben, "gutter", "house, front");
    ben.press(&['e']);
    ben.types(".edit [data-field=quantity]", "9 ft");
    ben.press(&[Key::Enter.into()]);
    ben.gone(".edit");
    ann.says(".meanwhile", "Ben changed this in the meantime. Now: gutter, 9 ft");
    assert_eq!(ann.ask("return document.querySelector('.edit [data-field=quantity]').value"), "8 ft");
    ann.press(&[Key::Enter.into()]);
    ann.says("[data-conflict] [data-mine]", "gutter, 8 ft, remove and replace");
    ann.says("[data-conflict] [data-theirs]", "gutter, 9 ft, remove and replace by Ben");
    ann.is_accessible("both values");
    ann.click("[data-do=apply-mine]");
    ann.gone("dialog");
    ann.says("#told", "Saved: gutter, 8 ft, remove and replace.");
    assert_eq!(told(&served, "gutter")[0], "reviewed 8 ft, remove and replace, front");
    ben.says("#told", "Ann changed gutter.");
    ben.says("[data-group=reviewed]", "gutter");
    ben.until(
        "the other page shows 8",
        "return [...document.querySelectorAll('.qty')].some((e) => e.textContent === '8 ft')",
    );
    // Ben's change can't be undone any more: somebody changed the line since.
    ben.press(&['u']);
    ben.says("#told.bad", "Ann changed this line in the meantime");
    assert_eq!(told(&served, "gutter")[0], "reviewed 8 ft, remove and replace, front");
    ann.went_well(&served.address);
    ben.went_well(&served.address);
}

#[test]
fn a_server_that_is_killed_and_comes_back_is_told_and_nothing_is_lost() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    // Not at the usual port, which another test's server takes as soon as it is free.
    let served = Served::with(&desk, &["--listen", "127.0.0.1:0"]);
    let address = served.address.clone();
    browser.review(&address, "Ann");
    choose(&browser, "gutter", "house, front");
    browser.press(&['1']);
    browser.says("#told", "Saved: ");
    choose(&browser, "hose reel", "house, front");
    browser.press(&['e']);
    browser.types(".edit [data-field=quantity]", "3");
    served.kill();
    browser.says("#banner", "Connection lost. Changes are not being saved.");
    browser.shown("#banner");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told.bad", "Connection lost");
    browser.is_accessible("without a connection");
    let served = Served::with(&desk, &["--listen", address.trim_start_matches("http://")]);
    browser.gone("#banner");
    assert_eq!(browser.ask("return document.querySelector('.edit [data-field=quantity]').value"), "3");
    assert_eq!(told(&served, "hose-reel"), ["flagged 1 each, no work said, front"]);
    browser.press(&[Key::Enter.into()]);
    browser.gone(".edit");
    assert_eq!(told(&served, "hose-reel"), ["flagged 3 each, no work said, front"]);
    assert_eq!(told(&served, "gutter")[0], "reviewed 11 ft, remove and replace, front");
    // It listens for others' changes again.
    let id = served.line(&served.recording(), "gas-meter")["id"].clone();
    let command = serde_json::json!({ "do": "drop", "lines": [id], "reason": "theirs" });
    let seen = serde_json::json!({ id.as_str().unwrap(): 0 });
    assert_eq!(served.send(&served.recording(), "Ben", &seen, &command).status, 200);
    browser.says("#told", "Ben changed gas meter.");
    browser.went_well(&address);
}

#[test]
fn sound_is_played_from_a_line_and_without_the_recording_all_else_works() {
    let Some(tools) = tools() else { return };
    let sound = std::fs::read(concat!(env!("CARGO_MANIFEST_DIR"), "/audio-fixtures/demo.flac")).unwrap();
    let desk = Desk::with([("walk.flac", sound.as_slice())]);
    let run = desk.run_hearing(&["draft", "./walk.flac"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let browser = Browser::new(&tools);
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    assert_eq!(served.get(&served.recording()).json()["sound"], true);
    browser.press(&['p']);
    browser.shown(".player [aria-label=Stop]");
    browser.until("the sound goes on", "return document.querySelector('.now').textContent >= '0:04'");
    browser.press(&[' ']);
    browser.shown(".player [aria-label=Play]");
    browser.click("[data-word='3']");
    browser.shown(".player [aria-label=Stop]");
    browser.shown(".words .playing");
    std::fs::remove_file(desk.path("walk.flac")).unwrap();
    browser.open("about:blank");
    browser.open(&served.address);
    browser.shown(".line.chosen");
    browser.says("#strip", "No sound");
    browser.press(&['p']);
    browser.says("#told", "There is no sound to play");
    browser.is_accessible("without its recording");
    browser.press(&['d']);
    browser.shown("dialog [data-choice='1']");
    browser.press(&['1']);
    browser.says("#told", "Dropped: light fixture.");
    assert!(told(&served, "light-fixture")[0].starts_with("dropped"));
}

/// A disk of one megabyte over a folder; it is taken away after the test.
struct SmallDisk(PathBuf);

impl SmallDisk {
    /// None where this machine doesn't let one be made.
    fn over(folder: PathBuf) -> Option<Self> {
        let mount =
            Command::new("mount").args(["-t", "tmpfs", "-o", "size=1m", "tmpfs"]).arg(&folder).output();
        mount.is_ok_and(|run| run.status.success()).then_some(Self(folder))
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("--lazy").arg(&self.0).status();
    }
}

#[test]
fn with_a_full_disk_a_change_is_refused_with_what_to_do_and_nothing_is_lost() {
    let Some(tools) = tools() else { return };
    let desk = Desk::with([]);
    let Some(_disk) = SmallDisk::over(desk.path("")) else {
        println!("skipped: a small disk can be made by root only");
        return;
    };
    desk.put("walk.vtt", super::captions(super::PHRASES).as_bytes());
    assert_eq!(desk.run(&["draft", "walk.vtt"]).code, 0);
    let browser = Browser::new(&tools);
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "gutter", "house, front");
    browser.press(&['1']);
    browser.says("#told", "Saved: ");
    let filler = desk.path("filler");
    assert!(std::fs::write(&filler, vec![0; 4 << 20]).is_err(), "the disk isn't small");
    choose(&browser, "hose reel", "house, front");
    let refused = "return document.querySelector('#told').className.includes('bad')";
    // The store may have some room of its own left.
    for _ in 0..20 {
        // What was told before must not be taken for the answer.
        browser.ask("document.querySelector('#told').textContent = ''; return true");
        browser.press(&['1']);
        browser.until("it is answered", "return document.querySelector('#told').textContent !== ''");
        if browser.ask(refused) == true {
            break;
        }
        browser.press(&['u']);
        browser.says("#told", "Undone.");
    }
    browser.says("#told.bad", "make room, then try again");
    assert_eq!(told(&served, "hose-reel"), ["flagged 1 each, no work said, front"]);
    assert_eq!(told(&served, "gutter")[0], "reviewed 11 ft, remove and replace, front");
    std::fs::remove_file(&filler).unwrap();
    browser.press(&['1']);
    browser.says("#told", "Saved: hose reel, 1 each, detach and reset.");
    assert_eq!(told(&served, "hose-reel"), ["reviewed 1 each, detach and reset, front"]);
    served.kill();
    let served = Served::over(&desk);
    assert_eq!(told(&served, "hose-reel"), ["reviewed 1 each, detach and reset, front"]);
    assert_eq!(told(&served, "gutter")[0], "reviewed 11 ft, remove and replace, front");
}
