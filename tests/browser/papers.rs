//! The pages that are read and printed, not worked with.

use super::driver::{Browser, tools};
use super::walk;

#[test]
fn the_day_a_scope_and_a_comparison_on_paper_are_accessible() {
    let Some(tools) = tools() else { return };
    let (desk, browser) = (walk(), Browser::new(&tools));
    desk.put("silent.wav", b"nothing");
    desk.run_hearing(&["day", "./", "--still", "0"]);
    desk.run(&["papers", "walk.vtt", "--only", "html,field"]);
    // Something of every kind: missing, short, unclear, only on theirs, the same.
    let list = "Side,Description,Work,Qty,Unit\nFront,Gutter,Replace,5,LF\nFront,Light fixtures,Replace,2,EA\n\
                Right,Gas meter,Detach and reset,1,EA\nRear,Awning,Replace,1,EA\nTotal,,,9,\n";
    desk.put("list.csv", list.as_bytes());
    desk.run(&["compare", "walk.vtt", "list.csv"]);
    let pages = [
        ("day.html", "Skipped (1)"),
        ("walk.scope.html", "Needs review"),
        ("walk.work.html", "Only if"),
        ("walk.field.html", "House, right"),
        ("walk.compare.html", "Open questions (1)"),
    ];
    for (page, heading) in pages {
        browser.open(&format!("file://{}", desk.path(page).display()));
        let headings = "return [...document.querySelectorAll('h2')].map((h) => h.textContent).join('|')";
        let told = browser.ask(headings);
        assert!(told.as_str().unwrap().contains(heading), "{page}: {told}");
        browser.is_accessible(page);
    }
}
