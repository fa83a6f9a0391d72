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
    browser.says("#box-error", "“lots” is no number");
    browser.types("#part-q2", "1");
    browser.selects("#part-s2", "left");
    browser.click("[data-act=split-save]");
    browser.says("#told", "Light fixture split in 2.");
    let split = ["stands 1 each, detach and reset, front", "stands 1 each, detach and reset, left"];
    assert_eq!(told(&served, "light-fixture"), split);
    // Both stand where the words were said, before what was said later.
    let order =
        "return [...document.querySelectorAll('[data-group=stands] .item')].map((e) => e.textContent)";
    let order = browser.ask(order);
    assert_eq!((&order[0], &order[1]), (&json!("light fixture"), &json!("light fixture")));
    browser.press(&['u']);
    browser.says("#told", "Undone.");
    assert_eq!(told(&served, "light-fixture"), ["stands 2 each, detach and reset, front"]);
    browser.press(&['r']);
    browser.says("#told", "Done again.");
    assert_eq!(told(&served, "light-fixture"), split);
    browser.click("[data-act=undo]");
    browser.says("#told", "Undone.");
    browser.click("[data-act=redo]");
    browser.says("#told", "Done again.");
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
    browser.says("#marks", "2 marked");
    browser.press(&['m']);
    browser.click("[data-act=merge-save]");
    browser.says("#told", "2 lines merged.");
    let merged = ["stands 7 ft, remove and replace, front", "dropped ? ft, remove and replace, right"];
    assert_eq!(told(&served, "gutter"), merged);
    choose(&browser, "gas meter", "house, right");
    browser.press(&['x']);
    choose(&browser, "light fixture", "house, front");
    browser.press(&['x', 'g']);
    browser.shown("dialog [data-choice='3']");
    browser.press(&['3']);
    browser.says("#told", "2 lines moved to rear.");
    assert_eq!(told(&served, "gas-meter"), ["stands 1 each, detach and reset, rear"]);
    assert_eq!(told(&served, "light-fixture"), ["stands 2 each, detach and reset, rear"]);
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
    browser.says("#told", "Gas meter dropped.");
    let reason = |item: &str| {
        let line = lines(&served).into_iter().find(|line| line["line"]["item"] == item).unwrap();
        line["reason"].as_str().map(str::to_owned)
    };
    assert_eq!(reason("gas-meter").as_deref(), Some("counted twice"));
    choose(&browser, "light fixture", "house, front");
    browser.press(&['d']);
    browser.types("#own-reason", "the owner keeps “them”");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", "Light fixture dropped.");
    assert_eq!(reason("light-fixture").as_deref(), Some("the owner keeps “them”"));
    browser.click("[data-group=dropped] summary");
    choose(&browser, "gas meter", "house, right");
    browser.press(&['a']);
    browser.says("#told", "Gas meter taken back in.");
    assert_eq!((told(&served, "gas-meter")[0].starts_with("stands"), reason("gas-meter")), (true, None));
    browser.went_well(&served.address);
}

#[test]
fn a_condition_is_confirmed_or_refused_by_key() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    choose(&browser, "window wrap", "house, front");
    browser.press_with(Key::Shift, &['N']);
    browser.says("#told", "Window wrap is not wanted.");
    assert_eq!(told(&served, "window-wrap"), ["dropped 1 each, remove and replace, front"]);
    browser.press(&['u']);
    browser.says("#told", "Undone.");
    browser.press(&['y']);
    browser.says("#told", "Window wrap is wanted.");
    assert_eq!(told(&served, "window-wrap"), ["stands 1 each, remove and replace, front"]);
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
    browser.click(".word-tools [data-act=add]");
    browser.says("dialog .quote", "garage door");
    browser.types("dialog [data-field=item]", "garage door");
    browser.types("dialog [data-field=quantity]", "1");
    browser.selects("dialog [data-field=work]", "repair");
    browser.click("[data-act=add-save]");
    browser.says("#told", "Garage door, 1 each, repair: added.");
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
    browser.says("#told", "added.");
    let added =
        lines(&served).into_iter().find(|line| line["words"] == json!([whatsit, whatsit + 1])).unwrap();
    assert_eq!((&added["state"], &added["by"]), (&json!("stands"), &json!("Ann")));
    browser.went_well(&served.address);
}

#[test]
fn a_tape_fills_its_line_and_what_it_cannot_read_is_told() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    let served = Served::over(&desk);
    browser.review(&served.address, "Ann");
    browser.click("[data-tab=todo]");
    browser.types("form.tape [data-field=measure]", "a lot");
    browser.press(&[Key::Enter.into()]);
    browser.says("form.tape .error", "“a lot” is no number");
    browser.types("form.tape [data-field=measure]", "38' 6\"");
    browser.press(&[Key::Enter.into()]);
    browser.says("#told", "Measure kept: 38' 6\".");
    browser.says(".todo.is-done .note", "Ann");
    assert_eq!(told(&served, "gutter")[1], "stands 38' 6\" , remove and replace, right");
    let todo = served.get(&served.recording()).json()["todos"].as_array().unwrap().clone();
    assert!(todo.iter().any(|todo| todo["done"]["note"] == "38' 6\""), "{todo:#?}");
    browser.click("[data-todo] input[type=checkbox]:not(:checked)");
    browser.says("#told", "Ticked off.");
    browser.click("[data-tab=done]");
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
    browser.click("[data-act=teach]");
    browser.says("dialog", "hose bib, detach and reset");
    assert_eq!(remembered(), 0);
    browser.click("[data-act=teach-save]");
    browser.says("#told", "is remembered as hose bib");
    assert_eq!(remembered(), 1);
    assert!(desk.read("rules/taught.toml").contains("doodad"));
    browser.click("[data-tab=done]");
    browser.click("[data-act=take-back]");
    browser.says("#told", "Taken back.");
    assert_eq!(remembered(), 0);
    browser.went_well(&served.address);
}
