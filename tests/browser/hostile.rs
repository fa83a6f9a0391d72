//! Whatever a recording is called and whatever is said in it is shown as text.

use super::driver::{Browser, tools};
use super::{choose, desk_of, told};
use crate::server::Served;
use fantoccini::key::Key;

const NAME: &str = "<img src=x onerror=alert(1)>\"'&\u{202e}.txt";

#[test]
fn hostile_names_and_words_are_inert_and_a_word_of_a_megabyte_hinders_nothing() {
    let Some(tools) = tools() else { return };
    let words = format!(
        "Front elevation. <script>alert(1)</script> \" ' \u{202e}rtl \u{5e9}\u{5dc}\u{5d5}\u{5dd}, replace. Mailbox, \
         replace. Gutter, eleven foot, no wait, seven foot, replace. Soffit <img src=x onerror=alert(2)>, replace. \
         There's a hose reel here. {} It's a door bell.",
        "x".repeat(1 << 20)
    );
    let desk = desk_of(NAME, &words);
    let browser = Browser::new(&tools);
    let served = Served::over(&desk);
    browser.review(&served.address, "<b>\"Ann\"</b>");
    browser.until("the words are there", "return document.querySelectorAll('[data-word]').length > 20");
    for tab in ["follow-ups", "unused", "notes", "history", "words"] {
        browser.click(&format!("[data-tab={tab}]"));
        let inert = "return document.scripts.length === 1 && document.querySelectorAll('img, iframe, main b b, \
                     [onerror]').length === 0";
        assert_eq!(browser.ask(inert), true, "{tab}");
    }
    let marks = "return /[\\u202a-\\u202e\\u2066-\\u2069]/.test(document.body.innerText + document.title)";
    assert_eq!(browser.ask(marks), false, "marks that turn the reading direction");
    let wide =
        "return document.documentElement.scrollWidth <= innerWidth && document.body.innerText.length < 50000";
    assert_eq!(browser.ask(wide), true, "the page stays as wide as the window, and short");
    browser.is_accessible("hostile words");
    choose(&browser, "gutter", "house, front");
    browser.press(&['1']);
    browser.says("#told", "Saved: gutter, 11 ft");
    assert_eq!(told(&served, "gutter"), ["reviewed 11 ft, remove and replace, front"]);
    choose(&browser, "gutter", "house, front");
    browser.press(&['e']);
    browser.types(".edit [data-field=detail]", "<script>alert(3)</script>");
    browser.press(&[Key::Enter.into()]);
    browser.gone(".edit");
    browser.says("[data-group=reviewed] .detail", "<script>alert(3)</script>");
    browser.says("[data-group=reviewed] .by", "<b>\"Ann\"</b>");
    assert_eq!(browser.ask("return document.scripts.length"), 1);
    browser.went_well(&served.address);
}
