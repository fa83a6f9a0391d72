//! The takeoff on the page: what was said, what a person types, and the figures that come of both.

use super::driver::{Browser, tools};
use super::{captions, desk_of};
use crate::harness::Desk;
use crate::server::Served;
use fantoccini::key::Key;

fn house() -> Desk {
    let phrases = [
        "Front elevation.",
        "The wall is forty by nine.",
        "Siding, remove and replace.",
        "Left side.",
        "The gable is twenty six feet wide.",
        "Siding, remove and replace.",
    ];
    desk_of("house.vtt", &captions(phrases))
}

#[test]
fn a_measurement_is_typed_by_keyboard_refused_when_it_is_none_and_undone() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (house(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.click("#tab-takeoff");
    browser.says("#panel-takeoff [data-figure='front-wall'] summary", "360 sq ft");
    browser.says("#panel-takeoff", "height of the gable at its peak, or the slope of the roof");
    browser.click("#panel-takeoff [data-figure='front-wall'] summary");
    browser.says("#panel-takeoff [data-figure='front-wall'] .formula", "40' × 9' = 360 sq ft");
    browser.is_accessible("takeoff");
    browser.click("[data-dimension='house/front/wall/1'] [data-do=change-dimension]");
    browser.until("the width has the focus", "return document.activeElement.id === 'measure-width'");
    browser.types("#measure-width", "wide");
    browser.press(&[Key::Enter.into()]);
    browser.says(".measure-form .error", "isn't a length: type it like 26");
    browser.types("#measure-width", "42");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", "Saved: house, front, wall: width 42.");
    browser.says("#panel-takeoff [data-figure='front-wall'] summary", "378 sq ft");
    browser.says("[data-dimension='house/front/wall/1']", "typed by Ann");
    browser.click("[data-do=undo]");
    browser.says("#panel-takeoff [data-figure='front-wall'] summary", "360 sq ft");
    browser.went_well(&served.address);
}

#[test]
fn a_slope_that_nobody_named_is_added() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (house(), Browser::phone(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.click("[data-do=pane-side]");
    browser.click("#tab-takeoff");
    browser.selects("#measure-shape", "roof-slope");
    browser.shown("#measure-slope");
    browser.selects("#measure-side", "none");
    browser.types("#measure-slope", "6/12");
    browser.click("[data-do=set-dimension]");
    browser.says("#panel-takeoff [data-figure='left-gable'] summary", "84.5 sq ft");
    browser.is_accessible("takeoff on a phone");
    browser.went_well(&served.address);
}
