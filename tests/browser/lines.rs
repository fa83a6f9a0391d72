//! What else can be done with lines: each by its key, and told by the page as the server keeps it.

use super::driver::{Browser, tools};
use super::{choose, desk_of, lines, told, walk};
use crate::server::Served;
use fantoccini::key::Key;
use serde_json::json;

#[test]
fn a_line_is_split_undone_and_done_again() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "light fixture", "house, front");
    browser.press(&['s']);
    browser.types("#part-q1", "1");
    browser.types("#part-q2", "lots");
    browser.press(&[Key::Enter.into()]);
    browser.says("#box-error", "“lots” isn't a number");
    browser.types("#part-q2", "1");
    browser.selects("#part-s2", "left");
    browser.click("[data-do=split-save]");
    browser.says("#told", "Split into 2: light fixture.");
    let split = ["reviewed 1 each, detach and reset, front", "reviewed 1 each, detach and reset, left"];
    assert_eq!(told(&served, "light-fixture"), split);
    // Both stand where the words were said, before what was said later.
    let order =
        "return [...document.querySelectorAll('[data-group=reviewed] .item')].map((e) => e.textContent)";
    let order = browser.ask(order);
    assert_eq!((&order[0], &order[1]), (&json!("light fixture"), &json!("light fixture")));
    browser.press(&['u']);
    browser.says("#told", "Undone.");
    assert_eq!(told(&served, "light-fixture"), ["unflagged 2 each, detach and reset, front"]);
    browser.press(&['r']);
    browser.says("#told", "Redone.");
    assert_eq!(told(&served, "light-fixture"), split);
    browser.click("[data-do=undo]");
    browser.says("#told", "Undone.");
    browser.click("[data-do=redo]");
    browser.says("#told", "Redone.");
    assert_eq!(told(&served, "light-fixture"), split);
    browser.went_well(&served.address);
}

#[test]
fn marked_lines_are_merged_and_moved() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "gutter", "house, right");
    browser.press(&['x']);
    choose(&browser, "gutter", "house, front");
    browser.press(&['x']);
    browser.says("#marks", "2 selected");
    browser.press(&['m']);
    browser.click("[data-do=merge-save]");
    browser.says("#told", "Merged: 2 lines.");
    let merged = ["reviewed 7 ft, remove and replace, front", "dropped ? ft, remove and replace, right"];
    assert_eq!(told(&served, "gutter"), merged);
    choose(&browser, "gas meter", "house, right");
    browser.press(&['x']);
    choose(&browser, "light fixture", "house, front");
    browser.press(&['x', 'g']);
    browser.shown("dialog [data-choice='3']");
    browser.press(&['3']);
    browser.says("#told", "Moved to rear: 2 lines.");
    assert_eq!(told(&served, "gas-meter"), ["reviewed 1 each, detach and reset, rear"]);
    assert_eq!(told(&served, "light-fixture"), ["reviewed 2 each, detach and reset, rear"]);
    browser.gone("#marks");
    browser.went_well(&served.address);
}

#[test]
fn a_line_is_dropped_with_a_reason_and_taken_back_in() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "gas meter", "house, right");
    browser.press(&['d']);
    browser.shown("dialog [data-choice='2']");
    browser.press(&['2']);
    browser.says("#told", "Dropped: gas meter.");
    let reason = |item: &str| {
        let line = lines(&served).into_iter().find(|line| line["line"]["item"] == item).unwrap();
        line["reason"].as_str().map(str::to_owned)
    };
    assert_eq!(reason("gas-meter").as_deref(), Some("counted twice"));
    choose(&browser, "light fixture", "house, front");
    browser.press(&['d']);
    browser.types("#own-reason", "the owner keeps “them”");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", "Dropped: light fixture.");
    assert_eq!(reason("light-fixture").as_deref(), Some("the owner keeps “them”"));
    browser.click("[data-group=dropped] summary");
    choose(&browser, "gas meter", "house, right");
    browser.press(&['a']);
    browser.says("#told", "Put back: gas meter.");
    assert_eq!((told(&served, "gas-meter")[0].starts_with("reviewed"), reason("gas-meter")), (true, None));
    browser.went_well(&served.address);
}

#[test]
fn a_conditional_line_is_included_or_left_out_by_key() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "window wrap", "house, front");
    browser.press_with(Key::Shift, &['N']);
    browser.says("#told", "Left out: window wrap.");
    assert_eq!(told(&served, "window-wrap"), ["dropped 1 each, remove and replace, front"]);
    browser.press(&['u']);
    browser.says("#told", "Undone.");
    browser.press(&['y']);
    browser.says("#told", "Included: window wrap.");
    assert_eq!(told(&served, "window-wrap"), ["reviewed 1 each, remove and replace, front"]);
    let line = lines(&served).into_iter().find(|line| line["line"]["item"] == "window-wrap").unwrap();
    assert_eq!(line["line"]["only_if"], false);
    browser.went_well(&served.address);
}

#[test]
fn a_line_is_added_from_words_taken_with_the_keyboard_or_the_mouse() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    let word = |text: &str| {
        let find = "return [...document.querySelectorAll('[data-word]')].find((e) => e.textContent === arguments[0])\
                    ?.dataset.word";
        let number = browser.ask_with(find, vec![json!(text)]);
        number.as_str().unwrap_or_else(|| panic!("no word {text}")).parse::<u32>().unwrap()
    };
    browser.until("the words are there", "return document.querySelectorAll('[data-word]').length > 30");
    let [garage, door] = ["garage", "door"].map(word);
    browser.drag(&format!("[data-word='{garage}']"), &format!("[data-word='{door}']"));
    browser.says(".word-tools", "2 words");
    browser.click(".word-tools [data-do=add]");
    browser.says("dialog .quote", "garage door");
    browser.types("dialog [data-field=item]", "garage door");
    browser.types("dialog [data-field=quantity]", "1");
    browser.selects("dialog [data-field=work]", "repair");
    browser.click("[data-do=add-save]");
    browser.says("#told", "Added: garage door, 1 each, repair.");
    browser.gone("dialog");
    let added = lines(&served).into_iter().find(|line| line["words"] == json!([garage, door])).unwrap();
    assert_eq!((&added["shown"]["work"], &added["by"]), (&json!("repair"), &json!("Ann")));
    let whatsit = word("whatsit");
    browser.click(&format!("[data-word='{whatsit}']"));
    browser.press_with(Key::Shift, &[Key::Right.into()]);
    browser.says(".word-tools", "2 words");
    browser.press(&['+']);
    browser.types("dialog [data-field=item]", "dish");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", "Added: ");
    let added =
        lines(&served).into_iter().find(|line| line["words"] == json!([whatsit, whatsit + 1])).unwrap();
    assert_eq!((&added["state"], &added["by"]), (&json!("reviewed"), &json!("Ann")));
    browser.went_well(&served.address);
}

#[test]
fn a_measurement_goes_into_its_line_and_what_it_cannot_read_is_told() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.click("[data-tab=follow-ups]");
    browser.types("form.measurement [data-field=measurement]", "a lot");
    browser.press(&[Key::Enter.into()]);
    browser.says("form.measurement .error", "“a lot” isn't a number");
    browser.types("form.measurement [data-field=measurement]", "38' 6\"");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", "Saved: 38' 6\".");
    browser.says(".follow-up.is-done .note", "Ann");
    assert_eq!(told(&served, "gutter")[1], "reviewed 38' 6\" , remove and replace, right");
    let needed = served.get(&served.recording()).json()["follow_ups"].as_array().unwrap().clone();
    assert!(needed.iter().any(|one| one["done"]["note"] == "38' 6\""), "{needed:#?}");
    browser.click("[data-follow-up] input[type=checkbox]:not(:checked)");
    browser.says("#told", "Marked as done.");
    browser.click("[data-tab=history]");
    browser.says(".history", "Ann");
    assert_eq!(browser.count(".history li"), 2);
    browser.went_well(&served.address);
}

#[test]
fn own_words_are_taught_after_a_look_at_what_they_change_and_taken_back() {
    let Some(tools) = tools() else { return };
    let words = "Front elevation. There's a doodad here, detach and reset. Mailbox, replace.";
    let (desk, browser) = (desk_of("walk.txt", words), Browser::new(&tools));
    desk.put("rules/own.toml", b"");
    let served = Served::with(&desk, &["--grammar", "rules"]);
    let remembered = || served.get("/api/teach").json()["remembered"].as_array().unwrap().len();
    browser.review(&served.address, "Ann");
    choose(&browser, "doodad", "house, front");
    browser.press(&['e']);
    browser.types(".edit [data-field=item]", "hose bib");
    browser.press(&[Key::Enter.into()]);
    browser.click("[data-do=teach]");
    browser.says("dialog", "hose bib, detach and reset");
    assert_eq!(remembered(), 0);
    browser.click("[data-do=teach-save]");
    browser.says("#told", "will be read as hose bib");
    assert_eq!(remembered(), 1);
    assert!(desk.read("rules/taught.toml").contains("doodad"));
    browser.click("[data-tab=history]");
    browser.click("[data-do=take-back]");
    browser.says("#told", "Removed.");
    assert_eq!(remembered(), 0);
    browser.went_well(&served.address);
}
