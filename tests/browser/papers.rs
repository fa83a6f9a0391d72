//! The pages that are read and printed, not worked with.

use super::driver::{Browser, tools};
use super::walk;

#[test]
fn the_day_and_a_scope_on_paper_are_accessible() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    desk.put("silent.wav", b"nothing");
    desk.run_hearing(&["day", "./", "--still", "0"]);
    desk.run(&["papers", "walk.vtt", "--only", "html,field"]);
    let pages = [
        ("day.html", "Set apart 1"),
        ("walk.scope.html", "Needs a look"),
        ("walk.work.html", "To confirm"),
        ("walk.field.html", "House, right"),
    ];
    for (page, heading) in pages {
        browser.open(&format!("file://{}", desk.path(page).display()));
        let headings = "return [...document.querySelectorAll('h2')].map((h) => h.textContent).join('|')";
        let told = browser.ask(headings);
        assert!(told.as_str().unwrap().contains(heading), "{page}: {told}");
        browser.is_accessible(page);
    }
}
