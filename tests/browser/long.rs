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

/// How many of them are of a gutter.
const GUTTERS: usize = 25;

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
    // The judge may find a second work on a thing here and there.
    assert!(all.len() >= LINES, "{} lines", all.len());
    let open = all.iter().filter(|line| line["state"] == "flagged").count();
    browser.says("[data-progress]", &format!("{open} to review"));
    assert_eq!(browser.count(".line"), all.len() as u64);
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
    let found =
        lines(&served).iter().filter(|line| line.to_string().to_lowercase().contains("gutter")).count();
    assert!(found >= GUTTERS, "{found} lines about a gutter");
    browser.says("#filter-told", " lines");
    let shown = "return [...document.querySelectorAll('.line')].filter(row => row.offsetParent).length";
    let shown = browser.ask(shown);
    browser.says("#filter-told", &format!("{shown} lines"));
    assert!(shown.as_u64().is_some_and(|shown| shown >= GUTTERS as u64), "{shown} lines shown");
    browser.went_well(&served.address);
}
