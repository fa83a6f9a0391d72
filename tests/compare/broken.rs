//! Lists that can't be read: one clear sentence each.

use super::read;
use eavesdraft::scope::compare::{ColumnsFile, Reading};
use insta::assert_snapshot;

fn refused(list: &[u8]) -> String {
    read(list, &Reading::default()).unwrap_err().to_string()
}

#[test]
fn a_blank_file() {
    assert_snapshot!(refused(b""), @"`list.csv`: there is nothing in it: check that it is the right file");
    assert_eq!(refused(b" \r\n\t\n"), refused(b""));
    assert_eq!(refused(b",,,\n,,,\n"), refused(b""));
}

#[test]
fn noise_of_bytes() {
    let noise: Vec<u8> = (0..4_000u32).map(|n| (n * 7919 % 251) as u8).collect();
    assert_snapshot!(refused(&noise), @"`list.csv`: this is neither a table in text (CSV) nor a spreadsheet: save the list as CSV or XLSX");
}

#[test]
fn a_spreadsheet_that_is_cut_off() {
    let whole = super::spreadsheets::one_list();
    let told = refused(&whole[..whole.len() / 2]);
    assert!(told.starts_with("`list.csv`: the spreadsheet can't be read ("), "{told}");
    assert!(told.ends_with("): open it, save it again as XLSX or CSV, and give that"), "{told}");
}

#[test]
fn text_without_headings() {
    assert_snapshot!(refused(b"Front,Gutter,32,LF\nRear,Gutter,20,LF\n"), @r#"`list.csv`: no row has headings that are known; one must tell the thing (`Description`, `Item`) and another its quantity, unit, work or side. Name the columns in a file given with --columns: under [columns] a line for each, such as "B" = "quantity""#);
}

#[test]
fn two_columns_that_nothing_tells_apart() {
    assert_snapshot!(refused(b"Side,Description,Qty,Qty\nFront,Gutter,32,30\n"), @r#"`list.csv`, row 1: columns C and D look alike (`Qty`): say which is the quantity in a file given with --columns, such as "C" = "quantity" under [columns]"#);
}

#[test]
fn a_list_without_a_line_of_work_is_told() {
    let list = read(b"Side,Description,Qty\nTotal,,5\n", &Reading::default()).unwrap();
    let comparison = eavesdraft::scope::compare::compare(&super::scope(super::WALK), &list, &super::GRAMMAR);
    assert_eq!(comparison.notices, ["no row of the list is a line of work: check its columns"]);
}

#[test]
fn columns_that_arent_as_they_are_told() {
    let wrong = |text: &str| ColumnsFile::new(text, "theirs.toml").unwrap_err().to_string();
    assert_snapshot!(wrong("[columns]\nQty = \"quantities\"\n"), @"`theirs.toml`, line 2: unknown variant `quantities`, expected one of `price`, `quantity`, `unit`, `item`, `work`, `side`, `size`, `note`, `number`, `nothing`");
    assert_snapshot!(wrong("[columns]\nQty = \"quantity\"\n\n[colums]\n"), @"`theirs.toml`, line 4: unknown field `colums`, expected `header` or `columns`");
    let columns = ColumnsFile::new("header = 9\n[columns]\nA = \"item\"\n", "theirs.toml").unwrap();
    let reading = Reading { columns: Some(&columns), ..Reading::default() };
    assert_snapshot!(read(b"Thing,Many\nGutter,3\n", &reading).unwrap_err(), @"`theirs.toml`, line 1: row 9 of the list is empty: give the row of the headings, or 0 for none");
}

#[test]
fn without_headings_columns_go_by_their_letters() {
    let text =
        "header = 0\n[columns]\nA = \"side\"\nB = \"item\"\nC = \"quantity\"\nD = \"unit\"\nE = \"work\"\n";
    let columns = ColumnsFile::new(text, "theirs.toml").unwrap();
    let reading = Reading { columns: Some(&columns), ..Reading::default() };
    let list = read(b"Front,Gutter,32,LF,Replace\nRear,Gutter,30,LF,Replace\n", &reading).unwrap();
    let comparison = eavesdraft::scope::compare::compare(&super::scope(super::WALK), &list, &super::GRAMMAR);
    let found = |outcome| super::short(&comparison, outcome);
    assert_eq!(found(eavesdraft::scope::compare::Outcome::Same), [(vec![2], vec![1], None)]);
    assert_eq!(found(eavesdraft::scope::compare::Outcome::ShortThere), [(vec![10], vec![2], Some(-2.0))]);
}
