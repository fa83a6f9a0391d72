//! The lines as comma-separated values.

use super::walked;
use eavesdraft::model::Exact;
use eavesdraft::output::rows::{LineRow, rows};
use eavesdraft::output::table::{self, COLUMNS, read, write};
use proptest::prelude::*;

/// Texts as bad as they come.
fn nasty() -> impl Strategy<Value = String> {
    prop_oneof![
        any::<String>(),
        "['=+@\t\r\n,\";-]{0,6}[a-z]{0,4}",
        Just("\u{feff}x".to_owned()),
        Just("“14’ — ½”".to_owned()),
    ]
}

fn number() -> impl Strategy<Value = Option<Exact>> {
    proptest::option::of(
        (0..10_000_000u32).prop_map(|thousandths| Exact::of_decimal(f64::from(thousandths) / 1000.0)),
    )
}

prop_compose! {
    fn row()(
        texts in proptest::collection::vec(nasty(), 17),
        numbers in proptest::collection::vec(number(), 3),
        number in 1..5000usize,
        rough in any::<bool>(),
        only_if in any::<bool>(),
    ) -> LineRow {
        let mut texts = texts.into_iter();
        let mut text = || texts.next().unwrap();
        LineRow {
            number,
            structure: text(), side: text(), area: text(), item: text(), item_id: text(), element: text(),
            size: text(), work: text(), unit: text(), state: text(), looks: text(), note: text(), quote: text(),
            time: text(), clip: text(), by: text(), id: text(),
            quantity: numbers[0], low: numbers[1], high: numbers[2],
            rough, only_if,
        }
    }
}

proptest! {
    /// What is written is read back as it was, whatever was said or typed.
    #[test]
    fn rows_come_back(rows in proptest::collection::vec(row(), 0..5)) {
        let bytes = write(&rows);
        prop_assert_eq!(read("lines.csv", &bytes).unwrap(), rows);
    }

    /// No cell that another reader sees begins a formula, but for numbers.
    #[test]
    fn no_cell_begins_a_formula(row in row()) {
        let bytes = write(&[row]);
        let mut reader = csv::Reader::from_reader(bytes.as_slice());
        for (heading, cell) in COLUMNS.iter().zip(reader.records().next().unwrap().unwrap().iter()) {
            let numeric = ["Number", "Quantity", "Low", "High"].contains(heading);
            let begins = cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
            prop_assert!(numeric || !begins, "{}: {:?}", heading, cell);
        }
    }
}

#[test]
fn a_scope_comes_back_from_its_table() {
    let table = walked();
    let job = table.job();
    let bytes = table::bytes(&job);
    assert_eq!(read("lines.csv", &bytes).unwrap(), rows(&job));
    assert_eq!(bytes, table::bytes(&table.job()));
    let text = String::from_utf8(bytes).unwrap();
    assert!(text.starts_with("Number,Structure,Side,"));
    assert!(text.ends_with("\r\n") && !text.replace("\r\n", "").contains(['\r', '\n']));
    assert!(text.contains("'=HYPERLINK") || text.contains("'=hyperlink"), "{text}");
    assert!(text.contains(",'+cedar,") && text.contains(",'@Bo,"), "{text}");
}

#[test]
fn a_table_that_isnt_ours_is_refused_with_its_place() {
    let header = COLUMNS.join(",");
    let cells =
        |quantity: &str| format!("1,house,front,wall,a,,,,paint,{quantity},,,each,no,no,stands,,,q,,,,x");
    let told = |text: String| read("lines.csv", text.as_bytes()).unwrap_err().to_string();
    assert_eq!(
        told(format!("{header}\r\n{}\r\n{}\r\n", cells("2"), cells("two"))),
        "`lines.csv`, row 3, Quantity: “two” is no number: type it in digits"
    );
    assert_eq!(
        told(format!("{header}\r\n1,house\r\n")),
        "`lines.csv`, row 2: has 2 cells where the header has 23: check its commas and quotes"
    );
    assert!(
        told("Number,Item\r\n".to_owned()).starts_with("`lines.csv`, row 1: the header has to be Number,")
    );
    assert!(told(format!("{header}\r\n{}\r\n", cells("inf"))).contains("is no number"));
    let mut bytes = format!("{header}\r\n{}\r\n", cells("2")).into_bytes();
    let at = bytes.len() - 3;
    bytes[at] = 0xff;
    let told = read("lines.csv", &bytes).unwrap_err().to_string();
    assert_eq!(told, "`lines.csv`, row 2: is not UTF-8: save it as CSV with UTF-8 letters");
}
