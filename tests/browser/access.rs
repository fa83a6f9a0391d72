//! Everybody can use the page: rules of WCAG 2.2 AA that a program can check, in light and dark, at a desk and on a
//! phone.

use super::driver::{Browser, tools};
use super::{PHRASES, captions, walk};
use crate::server::Served;
use fantoccini::key::Key;

/// In light and in dark.
fn both_ways(browser: &Browser, what: &str) {
    for (dark, way) in [(false, "light"), (true, "dark")] {
        browser.dark(dark);
        browser.is_accessible(&format!("{what}, {way}"));
    }
    browser.dark(false);
}

/// Whether keys go to the page again once a form or a box is closed.
const FOCUS_IS_BACK: &str = "return !!document.activeElement.closest('.line, button, [data-word]')";

#[test]
fn the_queue_and_a_recording_with_its_boxes_and_tabs_break_no_rule_of_accessibility() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    desk.put("other.vtt", captions(&PHRASES[..4]).as_bytes());
    assert_eq!(desk.run(&["draft", "other.vtt"]).code, 0);
    let served = Served::over(&desk);
    browser.open(&served.address);
    browser.shown(".recordings");
    both_ways(&browser, "the queue");
    browser.click(".recordings li:first-child a");
    browser.shown("#who");
    both_ways(&browser, "the box that asks for a name");
    browser.types("#who", "Ann");
    browser.press(&[Key::Enter.into()]);
    browser.gone("dialog");
    browser.shown(".line.chosen");
    both_ways(&browser, "a recording");
    for tab in ["questions", "follow-ups", "unused", "notes", "history", "words"] {
        browser.click(&format!("[data-tab={tab}]"));
        both_ways(&browser, tab);
    }
    browser.press(&['n']);
    browser.press(&['e']);
    browser.shown(".edit");
    both_ways(&browser, "the form of a line");
    browser.press(&[Key::Escape.into()]);
    browser.gone(".edit");
    browser.until("the focus is back", FOCUS_IS_BACK);
    for (key, what) in [('?', "the help"), ('d', "why dropped"), ('s', "how split"), ('g', "where to")] {
        // Changing between light and dark redraws the page: nobody presses a key within the same moment.
        std::thread::sleep(std::time::Duration::from_millis(500));
        browser.press(&[key]);
        browser.shown("dialog");
        both_ways(&browser, what);
        browser.press(&[Key::Escape.into()]);
        browser.gone("dialog");
        browser.until("the focus is back", FOCUS_IS_BACK);
    }
    browser.click("[data-order=place]");
    both_ways(&browser, "all by place");
    browser.went_well(&served.address);
}

#[test]
fn on_a_phone_every_pane_breaks_no_rule_and_fits_the_screen() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::phone(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    let fits = |what: &str| {
        both_ways(&browser, what);
        assert_eq!(browser.ask("return document.documentElement.scrollWidth <= innerWidth"), true, "{what}");
    };
    fits("lines");
    browser.click("[data-for=side]");
    for tab in ["words", "questions", "follow-ups", "unused", "notes", "history"] {
        browser.click(&format!("[data-tab={tab}]"));
        fits(tab);
    }
    browser.click("[data-for=plan]");
    fits("plan");
    browser.click("[data-for=lines]");
    browser.click(".line.chosen [data-choice='1']");
    browser.says("#told", "to review.");
    browser.click(".line.chosen [data-do=edit]");
    browser.shown(".edit");
    fits("the form of a line");
    browser.went_well(&served.address);
}

#[test]
fn single_keys_can_be_turned_off_and_arrows_still_lead_from_line_to_line() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.press(&['?']);
    browser.click("dialog [data-first]");
    browser.press(&[Key::Escape.into()]);
    browser.gone("dialog");
    let chosen = || browser.ask("return document.querySelector('.line.chosen').dataset.line");
    browser.click(".line.chosen .item");
    let first = chosen();
    browser.press(&['j', 'a', '1', 'd']);
    assert_eq!((chosen(), browser.count("dialog")), (first.clone(), 0));
    browser.press(&[Key::Down.into()]);
    assert_ne!(chosen(), first);
    browser.went_well(&served.address);
}
