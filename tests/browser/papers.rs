//! The pages that are read and printed, not worked with.

use super::driver::{Browser, tools};
use super::walk;

#[test]
fn the_day_and_a_scope_on_paper_are_accessible() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    desk.put("broken.wav", b"RIFF");
    desk.run(&["day", ".", "--still", "0"]);
    for (page, heading) in [("day.html", "Set apart 1"), ("walk.scope.html", "Needs a look")] {
        browser.open(&format!("file://{}", desk.path(page).display()));
        let headings = "return [...document.querySelectorAll('h2')].map((h) => h.textContent).join('|')";
        let told = browser.ask(headings);
        assert!(told.as_str().unwrap().contains(heading), "{page}: {told}");
        browser.is_accessible(page);
    }
}
