//! A recording of two hours with 1,500 lines.

use super::driver::{Browser, tools};
use super::{desk_of, lines};
use crate::server::Served;
use serde_json::json;

const ITEMS: [&str; 20] = [
    "coach lights",
    "hose bibs",
    "shutters",
    "window screens",
    "downspouts",
    "dryer vents",
    "gas meters",
    "electric meters",
    "mailboxes",
    "satellite dishes",
    "house numbers",
    "door bells",
    "security cameras",
    "gable vents",
    "window wraps",
    "storm doors",
    "entry doors",
    "overhead doors",
    "hose reels",
    "outlets",
];
const NUMBERS: [&str; 7] = ["two", "three", "four", "five", "six", "seven", "eight"];
const WORKS: [&str; 4] = ["replace", "detach and reset", "repair", "paint"];
const SIDES: [&str; 4] = ["Front", "Right", "Rear", "Left"];

/// As many lines as a walk of two hours may have.
const LINES: usize = 1_500;

/// Round and round an invented house, every third time with a number that is taken back.
fn long_walk() -> String {
    let mut phrases = Vec::new();
    for round in 0..LINES / ITEMS.len() {
        phrases.push(format!("{} elevation.", SIDES[round % 4]));
        for (n, item) in ITEMS.iter().enumerate() {
            phrases.push(match (round % 3, n) {
                (0, 7) => "Gutter, eleven foot, no wait, seven foot, replace.".to_owned(),
                _ => format!("{} {item}, {}.", NUMBERS[(round + n) % 7], WORKS[(round / 4 + n) % 4]),
            });
        }
    }
    super::captions(phrases)
}

#[test]
fn fifteen_hundred_lines_are_shown_searched_and_reviewed() {
    let Some(tools) = tools() else { return };
    let desk = desk_of("long.vtt", &long_walk());
    let browser = Browser::new(&tools);
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    let all = lines(&served);
    assert_eq!(all.len(), LINES);
    let open = all.iter().filter(|line| line["state"] == "flagged").count();
    browser.says("[data-progress]", &format!("{open} to review"));
    assert_eq!(browser.count(".line"), LINES as u64);
    let words =
        served.get(&format!("{}/words", served.recording())).json()["words"].as_array().unwrap().len();
    let drawn = "return document.querySelectorAll('[data-word]').length === arguments[0]";
    browser.until_with("all words are there", drawn, &[json!(words)]);
    browser.press(&['a']);
    browser.says("[data-progress]", &format!("{} to review", open - 1));
    let last = "const row = [...document.querySelectorAll('[data-group=unflagged] .line')].pop(); \
                row.scrollIntoView(); row.querySelector('.item').click(); return row.dataset.line";
    let last = browser.ask(last);
    browser.press(&['d']);
    browser.shown("dialog [data-choice='1']");
    browser.press(&['1']);
    browser.says("#told", "Dropped: ");
    let dropped = lines(&served).into_iter().find(|line| line["id"] == last).unwrap();
    assert_eq!(dropped["state"], "dropped");
    browser.types("#search", "gutter");
    browser.says("#filter-told", "25 lines");
    browser.went_well(&served.address);
}
