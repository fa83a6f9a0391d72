//! The review page in a real browser, over the real server, worked as a person works it.
//!
//! Chromium, its driver and axe-core are looked for on this machine. Where one is missing, these tests say that they
//! were skipped; with `EAVESDRAFT_REQUIRE_BROWSER` set, they fail instead.

mod access;
mod clips;
mod driver;
mod hostile;
mod lines;
mod long;
mod papers;
mod questions;
mod signing_off;
mod takeoff;
mod trouble;

use crate::harness::Desk;
use crate::server::Served;
use driver::Browser;
use serde_json::Value;

/// A walk with times, and in it something of every kind.
const PHRASES: [&str; 11] = [
    "Front elevation.",
    "Two coach lights, detach and reset.",
    "There's a hose reel here.",
    "Gutter, eleven foot, no wait, seven foot, replace.",
    "If the window wrap is dented, replace it.",
    "Right elevation.",
    "Gas meter, detach and reset.",
    "Get a photo of it.",
    "Gutter, need to measure it, replace.",
    "The garage door is fine.",
    "That whatsit over there, replace.",
];

/// Captions of those phrases, five seconds each.
fn captions<T: AsRef<str>>(phrases: impl IntoIterator<Item = T>) -> String {
    let time = |at: usize| format!("{:02}:{:02}:{:02}.000", at / 3600, at / 60 % 60, at % 60);
    let mut text = "WEBVTT\n".to_owned();
    for (n, phrase) in phrases.into_iter().enumerate() {
        text.push_str(&format!("\n{} --> {}\n{}\n", time(5 * n + 1), time(5 * n + 5), phrase.as_ref()));
    }
    text
}

/// A folder with that walk, drafted.
fn walk() -> Desk {
    desk_of("walk.vtt", &captions(PHRASES))
}

fn desk_of(name: &str, words: &str) -> Desk {
    let desk = Desk::with([(name, words.as_bytes())]);
    let run = desk.run(&["draft", name]);
    assert_eq!(run.code, 0, "{}", run.err);
    desk
}

/// The lines of the only recording, as the server has them.
fn lines(served: &Served) -> Vec<Value> {
    served.get(&served.recording()).json()["lines"].as_array().unwrap().clone()
}

/// The lines of one item, as `state quantity unit, work, side`.
fn told(served: &Served, item: &str) -> Vec<String> {
    let text = |value: &Value| value.as_str().unwrap_or("?").to_owned();
    lines(served)
        .iter()
        .filter(|line| line["line"]["item"] == item)
        .map(|line| {
            let shown = &line["shown"];
            let [quantity, unit, work, side] =
                ["quantity", "unit", "work", "side"].map(|field| text(&shown[field]));
            format!("{} {quantity} {unit}, {work}, {side}", text(&line["state"]))
        })
        .collect()
}

/// Chooses the line of an item, by the search; a line that another choice left in view is taken otherwise.
fn choose(browser: &Browser, item: &str, side: &str) {
    let script = "const [item, side] = arguments; const row = [...document.querySelectorAll('.line')].find((li) => \
                  li.querySelector('.item').textContent === item && li.querySelector('.place').textContent === side); \
                  row.querySelector('.item').scrollIntoView({ block: 'center' }); row.querySelector('.item').click(); \
                  return row.classList.contains('chosen')";
    let chosen = browser.ask_with(script, vec![item.into(), side.into()]);
    assert_eq!(chosen, true, "{item}, {side}");
}
