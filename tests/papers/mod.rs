//! Papers: the scope as a PDF, the workbook, the tables, the record, chapters, prices, photos.

mod chapters;
mod elements;
mod office;
pub mod pdf;
mod photos;
mod record;
mod table;

// A workbook is read back with what reads another party's list.
#[cfg(feature = "compare")]
mod prices;
#[cfg(feature = "compare")]
mod workbook;

use crate::harness::{GRAMMAR, Table};
use eavesdraft::output::Job;
use eavesdraft::output::prices::{PriceList, Priced, priced};
use eavesdraft::scope::review::{Command, Fields};

/// A walk with measures, a range, a conditional line, follow-ups and lines without a number.
const WALK: &str = "Front elevation. The wall is forty by eight foot four inches. Vinyl siding, remove and replace. One nine \
                    by seven garage door, detach and reset. Two coach lights, detach and reset. Gutter, about fourteen \
                    feet, remove and replace. If the window wrap is dented, replace it. Get a photo of the mailbox. \
                    Right elevation. The wall is twenty six feet wide and nine feet high, and the gable is twenty six \
                    wide and eight at the peak. Vinyl siding, remove and replace. Gutter, ten to twelve feet, remove and \
                    replace. Shutters, paint them. Gas meter, detach and reset. Someone needs to run a tape on the \
                    fence here. Rear elevation. No damage to the deck. Gutter, eight foot four inches, remove and \
                    replace. Check whether the hose bib leaks. Left elevation. Mailbox, replace.";

/// The walk with a few events on it: a change, a line that is dropped, one that begins like a formula, a task that is done.
fn walked() -> Table {
    let mut table = Table::timed(WALK);
    let lights = table.id("light-fixture");
    let three = Fields { quantity: Some("3".to_owned()), ..Fields::default() };
    table.does("Ann", Command::Change { line: lights, fields: three }).unwrap();
    let mailbox = table.id("mailbox");
    table
        .does("Ann", Command::Drop { lines: vec![mailbox], reason: "=theirs, not ours".to_owned() })
        .unwrap();
    let fields = Fields {
        item: Some("=HYPERLINK(\"http://example.invalid\")".to_owned()),
        quantity: Some("2".to_owned()),
        detail: Some("+cedar".to_owned()),
        ..Fields::default()
    };
    table.does("@Bo", Command::Add { words: None, fields }).unwrap();
    let todo = table.scope.follow_ups[0].id.clone();
    table.does("Bo", Command::Done { follow_up: todo }).unwrap();
    table
}

#[test]
fn the_walk_has_something_of_everything() {
    let table = walked();
    let job = table.job();
    let lines = &job.now.lines;
    assert!(lines.iter().any(|line| line.only_if), "{lines:#?}");
    assert!(lines.iter().any(|line| line.quantity.is_some_and(|quantity| quantity.is_range())), "{lines:#?}");
    assert!(lines.iter().any(|line| line.quantity.is_none()), "{lines:#?}");
    assert!(!job.takeoff.figures.is_empty());
    assert!(job.scope.follow_ups.iter().any(|task| task.done.is_some()));
    assert!(job.scope.follow_ups.iter().any(|task| task.done.is_none()));
}

/// The walk with prices of the test's own.
fn prices_of_the_walk(job: &Job) -> Priced {
    let list = "item,work,unit,price\ngutter,,ft,7.35\nsiding,,sq ft,4.125\nlight fixture,,each,45.005\ngas meter,,each,99.99\n";
    let list = PriceList::read("prices.csv", list.as_bytes(), &GRAMMAR).unwrap();
    let percents = ["overhead=10", "profit=10:compound"].map(|percent| percent.parse().unwrap());
    priced(job, &list, &percents)
}
