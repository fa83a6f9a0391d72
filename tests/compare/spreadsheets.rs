//! Spreadsheets, made here.

use super::{GRAMMAR, WALK, beside, read, scope, short};
use eavesdraft::scope::compare::{Outcome, Reading, compare};
use rust_xlsxwriter::{Workbook, Worksheet};

type Cells<'a> = [&'a [&'a str]];

/// Fills a sheet from a cell on; what is a number is written as one.
fn fill(sheet: &mut Worksheet, (row, column): (u32, u16), cells: &Cells) {
    for (r, line) in cells.iter().enumerate() {
        for (c, text) in line.iter().enumerate().filter(|(_, text)| !text.is_empty()) {
            let at = (row + r as u32, column + c as u16);
            match text.parse::<f64>() {
                Ok(number) => sheet.write_number(at.0, at.1, number).unwrap(),
                Err(_) => sheet.write_string(at.0, at.1, *text).unwrap(),
            };
        }
    }
}

const LIST: &Cells = &[
    &["Elevation", "Description", "Quantity", "Unit"],
    &["Front Elevation"],
    &["", "Remove and replace gutter", "32", "LF"],
    &["", "Detach and reset shutters", "6", "EA"],
    &["Rear Elevation"],
    &["", "Paint deck rail", "23.5", "LF"],
    &["", "Total", "61.5"],
    &["Roof"],
    &["", "Remove and replace shingles", "2400", "SF"],
];

/// A cover page, and a list that begins in the third row and the second column.
pub fn one_list() -> Vec<u8> {
    let mut book = Workbook::new();
    fill(book.add_worksheet().set_name("Cover").unwrap(), (0, 0), &[&["Exterior work"], &["Page 1"]]);
    fill(book.add_worksheet().set_name("Scope").unwrap(), (2, 1), LIST);
    book.save_to_buffer().unwrap()
}

fn two_lists() -> Vec<u8> {
    let mut book = Workbook::new();
    fill(book.add_worksheet().set_name("House").unwrap(), (0, 0), LIST);
    fill(book.add_worksheet().set_name("Old").unwrap(), (0, 0), &LIST[..3]);
    book.save_to_buffer().unwrap()
}

#[test]
fn the_one_sheet_that_is_a_list_is_read_with_its_own_rows_and_columns() {
    let comparison = beside(one_list());
    assert_eq!(comparison.sheet.as_deref(), Some("Scope"));
    let letters: Vec<&str> = comparison.columns.iter().map(|used| used.letter.as_str()).collect();
    assert_eq!(
        (letters, comparison.columns[1].heading.as_str()),
        (vec!["A", "B", "C", "D", "E"], "Elevation")
    );
    assert_eq!(
        short(&comparison, Outcome::Same),
        [(vec![2], vec![5], None), (vec![4], vec![6], None), (vec![21], vec![11], None)]
    );
    assert_eq!(short(&comparison, Outcome::ShortThere), [(vec![13], vec![8], Some(-0.5))]);
    let over: Vec<usize> = comparison.passed_over.iter().map(|over| over.row).collect();
    assert_eq!(over, [4, 7, 9, 10]);
}

#[test]
fn of_two_lists_one_is_asked_for_by_name() {
    let told = read(&two_lists(), &Reading::default()).unwrap_err().to_string();
    assert_eq!(told, "`list.csv`: the sheets House, Old all look like lists: name one with --sheet");
    let reading = |sheet| Reading { sheet: Some(sheet), ..Reading::default() };
    let list = read(&two_lists(), &reading("old")).unwrap();
    assert_eq!(short(&compare(&scope(WALK), &list, &GRAMMAR), Outcome::Same), [(vec![2], vec![3], None)]);
    let told = read(&two_lists(), &reading("new")).unwrap_err().to_string();
    assert_eq!(told, "`list.csv`: there is no sheet `new`; there is: House, Old");
}

#[test]
fn the_same_list_as_text_and_as_a_spreadsheet_gives_the_same_findings() {
    let text: Vec<String> = LIST.iter().map(|line| line.join(",")).collect();
    let (sheet, text) = (beside(one_list()), beside(text.join("\n")));
    let without_rows = |c: &eavesdraft::scope::compare::Comparison| -> Vec<_> {
        let ours =
            |f: &eavesdraft::scope::compare::Finding| f.ours.iter().map(|our| our.number).collect::<Vec<_>>();
        c.findings.iter().map(|f| (f.outcome, f.certainty, ours(f), f.difference)).collect()
    };
    assert_eq!(without_rows(&sheet), without_rows(&text));
}
