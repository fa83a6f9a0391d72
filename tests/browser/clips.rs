//! A visit that was recorded in several clips.

use super::driver::{Browser, tools};
use crate::server::Served;
use crate::server::clips::visit;
use serde_json::json;

#[test]
fn every_time_is_told_within_its_clip_and_the_words_show_where_one_begins() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (visit(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.until("all words are there", "return document.querySelectorAll('.clip-head').length === 3");
    let text = "return [...document.querySelectorAll('.clip-head, .at-time')].map((e) => e.textContent)";
    let told =
        ["Clip 1: 1.wav 0:02", "#1 0:00", "Clip 2: 2.wav 0:02", "#2 0:00", "Clip 3: 3.wav 0:01", "#3 0:00"];
    assert_eq!(browser.ask(text), json!(told));
    browser.shown(".line button.time[aria-label^='Play from clip 3, 0:00']");
    browser.went_well(&served.address);
}
