//! From a draft to a scope that is signed off, with the keyboard alone and with the mouse alone.

use super::driver::{Browser, tools};
use super::{choose, lines, told, walk};
use crate::server::Served;
use fantoccini::key::Key;
use serde_json::json;

/// Goes on with Tab until something has the focus.
fn tab_to(browser: &Browser, css: &str) {
    let reached = "return document.activeElement.matches(arguments[0])";
    for _ in 0..200 {
        if browser.ask_with(reached, vec![json!(css)]) == json!(true) {
            return;
        }
        browser.press(&[Key::Tab.into()]);
    }
    panic!("no Tab leads to {css}");
}

/// How many lines are left to review, as the page tells it.
fn left(browser: &Browser) -> u64 {
    let told = browser.text("[data-progress]");
    told.split(' ').next().unwrap().parse().unwrap_or_else(|_| panic!("{told}"))
}

#[test]
fn every_flagged_line_is_reviewed_by_keyboard_alone_and_only_then_the_scope_is_signed_off() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    let open = lines(&served).iter().filter(|line| line["state"] == "flagged").count() as u64;
    assert!(open >= 4 && left(&browser) == open, "{open}");
    tab_to(&browser, "[data-do=sign-off]");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", &format!("{open} lines still need review."));
    browser.press(&['n']);
    for done in 1..=open {
        browser.until(
            "a flagged line is chosen",
            "return document.activeElement.matches('.line.chosen.is-flagged')",
        );
        let offered = browser.count(".line.chosen [data-choice]") > 0;
        let before = browser.text(".line.chosen .item");
        browser.press(&[if offered { '1' } else { 'a' }]);
        let rest = format!("{} to review", open - done);
        browser.until_with(
            &format!("{before} is reviewed"),
            "return document.querySelector('[data-progress]').textContent.startsWith(arguments[0])",
            &[json!(rest)],
        );
    }
    browser.says("#told", "Nothing left to review.");
    tab_to(&browser, "[data-do=sign-off]");
    browser.press(&[Key::Enter.into()]);
    browser.shown("[data-do=sign-off-anyway]");
    browser.press(&[Key::Enter.into()]);
    browser.shown("[data-do=reopen]");
    browser.says("[data-progress]", "Signed off by Ann");
    let scope = served.get(&served.recording()).json();
    assert_eq!(scope["signed_off"]["who"], "Ann");
    assert!(lines(&served).iter().all(|line| line["state"] != "flagged"));
    assert_eq!(told(&served, "hose-reel"), ["reviewed 1 each, detach and reset, front"]);
    assert_eq!(told(&served, "window-wrap"), ["reviewed 1 each, remove and replace, front"]);
    assert_eq!(told(&served, "gutter")[0], "reviewed 11 ft, remove and replace, front");
    browser.went_well(&served.address);
}

#[test]
fn every_flagged_line_is_reviewed_by_mouse_alone_and_a_signed_scope_is_locked_until_it_is_reopened() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    let mut open = left(&browser);
    while open > 0 {
        let first = match browser.count(".line.chosen [data-choice]") {
            0 => ".line.chosen [data-do=accept]",
            _ => ".line.chosen [data-choice='1']",
        };
        browser.click(first);
        open -= 1;
        let fewer = "return document.querySelector('[data-progress]').textContent.startsWith(arguments[0])";
        browser.until_with("one less is to review", fewer, &[json!(format!("{open} to review"))]);
    }
    browser.click("[data-do=sign-off]");
    browser.click("[data-do=sign-off-anyway]");
    browser.shown("[data-do=reopen]");
    choose(&browser, "gas meter", "house, right");
    browser.press(&['e']);
    browser.says("#told", "This scope is signed off. Reopen it to make changes.");
    assert_eq!(browser.count(".edit"), 0);
    browser.click("[data-do=reopen]");
    browser.shown("[data-do=sign-off]");
    browser.click(".line.chosen [data-do=edit]");
    browser.shown(".edit");
    browser.went_well(&served.address);
}

#[test]
fn a_rival_reading_is_chosen_with_one_key() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "gutter", "house, front");
    assert_eq!(told(&served, "gutter")[0], "flagged 7 ft, remove and replace, front");
    browser.says(".line.chosen [data-choice='1']", "11 ft");
    browser.press(&['1']);
    browser.says("#told", "Saved: gutter, 11 ft, remove and replace.");
    assert_eq!(told(&served, "gutter")[0], "reviewed 11 ft, remove and replace, front");
    browser.went_well(&served.address);
}

#[test]
fn a_quantity_is_typed_as_a_tape_shows_it() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "gutter", "house, front");
    browser.press(&['e']);
    browser.types(".edit [data-field=quantity]", "6' 6\"");
    browser.says(".field-quantity .field-note", "reads as 6' 6\"");
    browser.press(&[Key::Enter.into()]);
    browser.gone(".edit");
    browser.says("#told", "Saved: gutter, 6' 6\", remove and replace.");
    assert_eq!(told(&served, "gutter")[0], "reviewed 6' 6\" , remove and replace, front");
    browser.went_well(&served.address);
}

#[test]
fn a_value_that_cannot_be_read_is_told_by_its_field_and_nothing_is_kept() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "gutter", "house, front");
    let before = lines(&served);
    browser.press(&['e']);
    browser.types(".edit [data-field=quantity]", "6x");
    browser.press(&[Key::Enter.into()]);
    browser.shown(".edit [data-field=quantity][aria-invalid=true]");
    browser.says(".field-quantity .field-note.bad", "“x” isn't part of a number or unit");
    browser.until("the field has the focus", "return document.activeElement.dataset.field === 'quantity'");
    let described = "const field = document.activeElement; \
                     return document.getElementById(field.getAttribute('aria-describedby')).textContent.length > 5";
    browser.until("the field is described by the error", described);
    assert_eq!(lines(&served), before);
    browser.press(&[Key::Escape.into()]);
    browser.gone(".edit");
    browser.went_well(&served.address);
}
