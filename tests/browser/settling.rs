//! From a draft to a settled scope, with the keyboard alone and with the mouse alone.

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

/// How many lines are to settle, as the page tells it.
fn left(browser: &Browser) -> u64 {
    let told = browser.text("[data-progress]");
    told.split(' ').next().unwrap().parse().unwrap_or_else(|_| panic!("{told}"))
}

#[test]
fn every_look_is_settled_by_keyboard_alone_and_only_then_the_scope_is() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    let open = lines(&served).iter().filter(|line| line["state"] == "open").count() as u64;
    assert!(open >= 4 && left(&browser) == open, "{open}");
    tab_to(&browser, "[data-act=settle]");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", &format!("{open} lines still to settle."));
    browser.press(&['n']);
    for done in 1..=open {
        browser
            .until("an open line is chosen", "return document.activeElement.matches('.line.chosen.is-open')");
        let offered = browser.count(".line.chosen [data-choice]") > 0;
        let before = browser.text(".line.chosen .item");
        browser.press(&[if offered { '1' } else { 'a' }]);
        let rest = format!("{} of", open - done);
        browser.until_with(
            &format!("{before} is settled"),
            "return document.querySelector('[data-progress]').textContent.startsWith(arguments[0])",
            &[json!(rest)],
        );
    }
    browser.says("#told", "Nothing is left to settle.");
    tab_to(&browser, "[data-act=settle]");
    browser.press(&[Key::Enter.into()]);
    browser.shown("[data-act=settle-anyway]");
    browser.press(&[Key::Enter.into()]);
    browser.shown("[data-act=reopen]");
    browser.says("[data-progress]", "Settled by Ann");
    let scope = served.get(&served.recording()).json();
    assert_eq!(scope["settled"]["who"], "Ann");
    assert!(lines(&served).iter().all(|line| line["state"] != "open"));
    assert_eq!(told(&served, "hose-reel"), ["stands 1 each, detach and reset, front"]);
    assert_eq!(told(&served, "window-wrap"), ["stands 1 each, remove and replace, front"]);
    assert_eq!(told(&served, "gutter")[0], "stands 11 ft, remove and replace, front");
    browser.went_well(&served.address);
}

#[test]
fn every_look_is_settled_by_mouse_alone_and_a_settled_scope_is_locked_until_it_is_reopened() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    let mut open = left(&browser);
    while open > 0 {
        let first = match browser.count(".line.chosen [data-choice]") {
            0 => ".line.chosen [data-act=accept]",
            _ => ".line.chosen [data-choice='1']",
        };
        browser.click(first);
        open -= 1;
        let fewer = "return document.querySelector('[data-progress]').textContent.startsWith(arguments[0])";
        browser.until_with("one less is open", fewer, &[json!(format!("{open} of"))]);
    }
    browser.click("[data-act=settle]");
    browser.click("[data-act=settle-anyway]");
    browser.shown("[data-act=reopen]");
    choose(&browser, "gas meter", "house, right");
    browser.press(&['e']);
    browser.says("#told", "The scope is settled. Reopen it to change a line.");
    assert_eq!(browser.count(".edit"), 0);
    browser.click("[data-act=reopen]");
    browser.shown("[data-act=settle]");
    browser.click(".line.chosen [data-act=edit]");
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
    assert_eq!(told(&served, "gutter")[0], "open 7 ft, remove and replace, front");
    browser.says(".line.chosen [data-choice='1']", "11 ft");
    browser.press(&['1']);
    browser.says("#told", "Gutter, 11 ft, remove and replace: kept.");
    assert_eq!(told(&served, "gutter")[0], "stands 11 ft, remove and replace, front");
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
    browser.says("#told", "Gutter, 6' 6\", remove and replace: kept.");
    assert_eq!(told(&served, "gutter")[0], "stands 6' 6\" , remove and replace, front");
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
    browser.says(".field-quantity .field-note.bad", "“x” is no part of a number or unit");
    browser.until("the field has the focus", "return document.activeElement.dataset.field === 'quantity'");
    let described = "const field = document.activeElement; \
                     return document.getElementById(field.getAttribute('aria-describedby')).textContent.length > 5";
    browser.until("the field is described by the error", described);
    assert_eq!(lines(&served), before);
    browser.press(&[Key::Escape.into()]);
    browser.gone(".edit");
    browser.went_well(&served.address);
}
