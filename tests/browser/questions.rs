//! Questions about the house: answered by keyboard and by touch, with their lines a press away.

use super::driver::{Browser, tools};
use super::{captions, desk_of, told};
use crate::harness::Desk;
use crate::server::Served;
use fantoccini::key::Key;
use serde_json::json;

/// A walk with a question of several kinds.
fn house() -> Desk {
    let phrases = [
        "Front elevation.",
        "Two corner posts, replace.",
        "Right side.",
        "Two corner posts, replace.",
        "Siding, three square, replace.",
        "Three shutters, detach and reset.",
    ];
    desk_of("house.vtt", &captions(phrases))
}

#[test]
fn questions_are_answered_by_keyboard_and_undone() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (house(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.says("[data-do=questions]", "4 questions");
    browser.press(&['q']);
    browser.shown("#panel-questions");
    browser.says("#panel-questions .asks", "4 in all. Are some of them the same posts, 3 in all?");
    browser.says("#panel-questions .ground", "Common practice.");
    browser.is_accessible("questions");
    browser.until(
        "the lower reading has the focus",
        "return document.activeElement.dataset.answer === '3 in all'",
    );
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", "Saved: outside corner: 3 in all.");
    browser.says("[data-do=questions]", "3 questions");
    assert_eq!(told(&served, "outside-corner")[1], "reviewed 1 each, remove and replace, right");
    browser.until(
        "the next question has the focus",
        "return document.activeElement.closest('[data-question]')?.textContent.includes('odd number')",
    );
    browser.press(&['u']);
    browser.says("[data-do=questions]", "4 questions");
    assert_eq!(told(&served, "outside-corner")[1], "unflagged 2 each, remove and replace, right");
    browser.press(&['q']);
    browser.click("#panel-questions [data-answer='4 in all']");
    browser.says("#told", "Saved: outside corner: 4 in all.");
    browser.click("#panel-questions [data-answer='outlet none']");
    browser.says("#told", "Saved: no outlet, right.");
    browser.click("#panel-questions [data-answer='hose-bib add']");
    browser.says("#told", "Saved: hose bib, right: added.");
    assert_eq!(told(&served, "hose-bib"), ["flagged ? each, detach and reset, right"]);
    browser.went_well(&served.address);
}

#[test]
fn a_line_of_a_question_is_chosen_and_an_open_question_does_not_keep_a_scope_from_being_signed_off() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (house(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.press(&['q']);
    browser.click("#panel-questions .about li:nth-child(2) button");
    browser.until(
        "the second post's line is chosen",
        "return document.querySelector('.line.chosen .place').textContent === 'house, right'",
    );
    browser.click("[data-do=sign-off]");
    browser.says("dialog", "4 questions about the house still open");
    browser.click("[data-do=sign-off-anyway]");
    browser.shown("[data-do=reopen]");
    browser.click("[data-tab=questions]");
    assert_eq!(
        browser.ask("return document.querySelector('#panel-questions .choices').checkVisibility()"),
        json!(false)
    );
    browser.went_well(&served.address);
}

#[test]
fn on_a_phone_questions_fit_the_screen_and_their_lines_are_a_touch_away() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (house(), Browser::phone(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.click("[data-do=questions]");
    browser.shown("#panel-questions");
    // At the end of the page the bar at its foot lies over nothing.
    browser.ask("scrollTo(0, document.documentElement.scrollHeight)");
    for dark in [false, true] {
        browser.dark(dark);
        browser.is_accessible("questions on a phone");
    }
    assert_eq!(browser.ask("return document.documentElement.scrollWidth <= innerWidth"), true);
    browser.click("#panel-questions .about button");
    browser.shown(".line.chosen");
    browser.says(".line.chosen .item", "outside corner");
    browser.went_well(&served.address);
}
