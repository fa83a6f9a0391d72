//! The comparison on paper and on a terminal.

use super::beside;
use eavesdraft::output::comparison::{page, table};
use eavesdraft::output::{html, text};
use insta::assert_snapshot;

pub(super) const LIST: &str = "Side,Description,Work,Qty,Unit,Price\n\
                    Front,Gutter,Replace,20,LF,5\n\
                    Front,Light fixtures,Detach and reset,2,EA,5\n\
                    Rear,Deck rail,Stain,24,LF,5\n\
                    Rear,\"=SUM(A1), a sundial\",Replace,1,EA,5\n\
                    Right,@copper lantern,Replace,1,EA,5\n\
                    Whole house,Siding,Replace,500,SF,5\n\
                    Total,,,,,25\n";

fn shown(width: usize) -> String {
    anstream::adapter::strip_str(&text::text(&page(&beside(LIST), None), width)).to_string()
}

#[test]
fn on_a_terminal() {
    assert_snapshot!("terminal", shown(80));
}

fn on_a_page() -> String {
    String::from_utf8(html::html(&page(&beside(LIST), None))).unwrap()
}

#[test]
fn as_a_page() {
    let page = on_a_page();
    let body = &page[page.find("<body>").unwrap()..];
    assert_snapshot!("page", body.replace("><", ">\n<"));
}

/// What a machine can tell of access; `tests/browser` has more.
#[test]
fn the_page_is_one_file_that_anyone_can_read() {
    let page = on_a_page();
    assert!(page.starts_with("<!DOCTYPE html><html lang=\"en\">"));
    assert_eq!(page.matches("<h1>").count(), 1);
    let heads = page.matches("<th").count() - page.matches("<thead").count();
    let scoped = [" scope=\"col\">", " scope=\"row\">"].map(|scope| page.matches(scope).count());
    assert!(scoped.iter().all(|count| *count > 0) && heads == scoped.iter().sum::<usize>());
    assert_eq!(page.matches("<table").count(), page.matches("<table aria-labelledby=").count());
    for outside in ["http://", "https://", "src=", "<script", "@import", "url("] {
        assert!(!page.contains(outside), "{outside}");
    }
    for line in eavesdraft::model::wording::CLOSING {
        assert!(page.contains(line));
    }
    assert!(page.contains("It does not say what any policy covers"));
    for blank in ["From:", "To:", "Property:", "Date:"] {
        assert_eq!(page.matches(&format!("<p>{blank}<span>")).count(), 1, "{blank}");
    }
}

#[test]
fn as_a_table_that_no_spreadsheet_computes() {
    let table = String::from_utf8(table(&beside(LIST))).unwrap();
    assert_snapshot!("table", table.replace("\r\n", "\n"));
    assert!(!table.replace("\r\n", "").contains(['\r', '\n']), "every line ends in CR LF");
    let mut reader = csv::ReaderBuilder::new().flexible(false).from_reader(table.as_bytes());
    for record in reader.records().map(Result::unwrap) {
        for cell in record.iter().filter(|cell| cell.parse::<f64>().is_err()) {
            assert!(!cell.starts_with(['=', '+', '-', '@']), "{cell}");
        }
    }
}

#[test]
fn the_same_lists_give_the_same_bytes() {
    let (one, other) = (beside(LIST), beside(LIST));
    assert_eq!((page(&one, None), table(&one)), (page(&other, None), table(&other)));
    assert_eq!(serde_json::to_string(&one).unwrap(), serde_json::to_string(&other).unwrap());
}
