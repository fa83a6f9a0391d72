//! The workbook, read back by a reader that knows nothing of ours.

use super::{Table, walked};
use calamine::{Data, Range, Reader, Xlsx, open_workbook_from_rs};
use eavesdraft::model::Exact;
use eavesdraft::output::{Job, sums, workbook};
use std::collections::HashMap;
use std::io::{Cursor, Read};

pub(super) type Book = Xlsx<Cursor<Vec<u8>>>;

pub(super) fn book(bytes: Vec<u8>) -> Book {
    open_workbook_from_rs(Cursor::new(bytes)).unwrap()
}

fn written(job: &Job) -> Book {
    book(workbook::bytes(job, None).unwrap())
}

/// A sheet's column by its heading, without the heading.
pub(super) fn column(range: &Range<Data>, heading: &str) -> Vec<Data> {
    let is_it = |cell: &Data| *cell == heading;
    let at = range.rows().next().unwrap().iter().position(is_it);
    let at = at.unwrap_or_else(|| panic!("no {heading}"));
    range.rows().skip(1).map(|row| row[at].clone()).collect()
}

pub(super) fn near(cell: &Data, exact: Exact) -> bool {
    let value = exact.binary();
    matches!(cell, Data::Float(found) if (found - value).abs() < 1e-9)
}

#[test]
fn sheets_stand_in_order_with_their_rows() {
    let table = walked();
    let job = table.job();
    let mut book = written(&job);
    let names = ["About", "Lines", "Only if", "Takeoff", "Totals", "Follow-ups", "History"];
    assert_eq!(book.sheet_names(), names);
    let conditional = job.now.lines.iter().filter(|line| line.only_if).count();
    let rows = |book: &mut Book, name: &str| book.worksheet_range(name).unwrap().height() - 1;
    assert_eq!(rows(&mut book, "Lines"), job.now.lines.len() - conditional);
    assert_eq!(rows(&mut book, "Only if"), conditional);
    assert_eq!(rows(&mut book, "Follow-ups"), job.scope.follow_ups.len() + job.takeoff.lacking.len());
    assert_eq!(rows(&mut book, "History"), job.events.len());
    let about = book.worksheet_range("About").unwrap();
    assert!(column(&about, "Details").contains(&Data::String("DRAFT scope of work".to_owned())));
}

#[test]
fn lines_hold_what_the_scope_holds() {
    let table = walked();
    let job = table.job();
    let lines = written(&job).worksheet_range("Lines").unwrap();
    let ids = column(&lines, "Id");
    for line in job.now.lines.iter().filter(|line| !line.only_if) {
        let row = ids.iter().position(|id| id.to_string() == line.id).unwrap();
        let cell = |heading| column(&lines, heading)[row].clone();
        assert_eq!(cell("Quote").to_string(), line.quote);
        assert_eq!(cell("Rough").to_string(), if line.rough { "yes" } else { "no" });
        match line.quantity {
            None => assert_eq!(cell("Quantity"), Data::Empty),
            Some(quantity) => {
                assert!(near(&cell("Quantity"), quantity.value()));
            }
        }
    }
    let by = column(&lines, "By");
    assert!(by.contains(&Data::String("Ann".to_owned())) && by.contains(&Data::String("@Bo".to_owned())));
}

#[test]
fn what_begins_like_a_formula_is_words() {
    let table = walked();
    let mut book = written(&table.job());
    let lines = book.worksheet_range("Lines").unwrap();
    let item = "=hyperlink(\"http://example.invalid\")";
    let found = column(&lines, "Item").iter().any(|cell| cell.to_string().to_lowercase() == item);
    assert!(found, "{:?}", column(&lines, "Item"));
    for name in ["About", "Lines", "Only if", "Follow-ups", "History"] {
        let formulas = book.worksheet_formula(name).unwrap();
        assert!(formulas.rows().flatten().all(String::is_empty), "{name} has a formula");
    }
}

/// The formulas of a sheet by their cells: `F2`.
fn formulas(book: &mut Book, name: &str) -> HashMap<String, String> {
    let range = book.worksheet_formula(name).unwrap();
    let (top, left) = range.start().unwrap();
    let cell = |(row, column, _): &(usize, usize, &String)| {
        let letter = char::from(b'A' + (*column as u32 + left) as u8);
        format!("{letter}{}", *row as u32 + top + 1)
    };
    let used = range.used_cells().filter(|(.., formula)| !formula.is_empty());
    used.map(|used| (cell(&used), used.2.clone())).collect()
}

/// Computes a cell of the takeoff from the formulas and the values typed there, by a reader of formulas that knows
/// nothing of ours.
fn computed(cell: &str, formulas: &HashMap<String, String>, values: &Range<Data>) -> f64 {
    let Some(formula) = formulas.get(cell) else {
        let row: u32 = cell[1..].parse().unwrap();
        let column = u32::from(cell.as_bytes()[0] - b'A');
        let Some(Data::Float(value)) = values.get_value((row - 1, column)) else { panic!("{cell} is empty") };
        return *value;
    };
    let mut functions = |name: &str, arguments: Vec<f64>| match (name, arguments.as_slice()) {
        ("SQRT", [value]) => Some(value.sqrt()),
        ("ROUND", [value, places]) => Some((value * 10f64.powf(*places)).round() / 10f64.powf(*places)),
        ("ROUNDUP", [value, places]) => Some((value * 10f64.powf(*places)).ceil() / 10f64.powf(*places)),
        (cell, []) => Some(computed(cell, formulas, values)),
        _ => None,
    };
    fasteval::ez_eval(formula, &mut functions).unwrap_or_else(|error| panic!("{formula}: {error}"))
}

#[test]
fn the_takeoffs_formulas_compute_to_its_figures_and_hold_them() {
    let table = walked();
    let job = table.job();
    let mut book = written(&job);
    let range = book.worksheet_range("Takeoff").unwrap();
    let formulas = formulas(&mut book, "Takeoff");
    let keys = column(&range, "Key");
    assert_eq!(formulas.len(), job.takeoff.figures.len());
    for figure in &job.takeoff.figures {
        let rows: Vec<usize> = keys
            .iter()
            .enumerate()
            .filter(|(_, key)| key.to_string() == figure.key)
            .map(|(at, _)| at)
            .collect();
        assert_eq!(rows.len(), 1, "{}", figure.key);
        let cell = format!("F{}", rows[0] + 2);
        let found = computed(&cell, &formulas, &range);
        assert!(near(&Data::Float(found), figure.value), "{}: {found} is not {}", figure.key, figure.value);
        let cached = &column(&range, "Value")[rows[0]];
        assert!(near(cached, figure.value), "{}: {cached:?} is not {}", figure.key, figure.value);
    }
}

#[test]
fn a_value_stands_once_with_the_words_it_came_from() {
    let table = walked();
    let mut book = written(&table.job());
    let range = book.worksheet_range("Takeoff").unwrap();
    let kinds = column(&range, "Kind");
    let names = column(&range, "Name");
    let widths = names.iter().filter(|name| *name == "front wall, width").count();
    assert_eq!(widths, 1, "{names:?}");
    let from = column(&range, "Where it comes from");
    for (kind, from) in kinds.iter().zip(from) {
        if *kind == "value" {
            let told = from.to_string();
            assert!(
                told.starts_with('“') || told.starts_with("rule: ") || told.starts_with("typed by "),
                "{told}"
            );
        }
    }
}

#[test]
fn sums_add_the_lines_that_name_them() {
    let table = walked();
    let job = table.job();
    let mut book = written(&job);
    let (lines, range) = (book.worksheet_range("Lines").unwrap(), book.worksheet_range("Totals").unwrap());
    let formulas = formulas(&mut book, "Totals");
    let (numbers, quantities) = (column(&lines, "Total"), column(&lines, "Quantity"));
    for (at, sum) in sums::sums(&job).iter().enumerate() {
        let row = at + 2;
        assert_eq!(formulas[&format!("E{row}")], format!("SUMIFS(Lines!J:J,Lines!W:W,A{row})"));
        assert_eq!(formulas[&format!("F{row}")], format!("SUMIFS(Lines!K:K,Lines!W:W,A{row})"));
        assert_eq!(formulas[&format!("G{row}")], format!("SUMIFS(Lines!L:L,Lines!W:W,A{row})"));
        let of_it =
            numbers.iter().zip(&quantities).filter(|(number, _)| **number == Data::Float((at + 1) as f64));
        let added: f64 = of_it
            .filter_map(|(_, quantity)| if let Data::Float(q) = quantity { Some(q) } else { None })
            .sum();
        assert!(near(&Data::Float(added), sum.quantity), "{}: {added} is not {}", sum.item, sum.quantity);
        assert!(near(&column(&range, "Quantity")[at], sum.quantity));
        assert!(near(&column(&range, "Low")[at], sum.low) && near(&column(&range, "High")[at], sum.high));
    }
}

#[test]
fn the_same_scope_gives_the_same_bytes() {
    let table = walked();
    assert_eq!(workbook::bytes(&table.job(), None).unwrap(), workbook::bytes(&table.job(), None).unwrap());
    let job = table.job();
    let mut archive = zip::ZipArchive::new(Cursor::new(workbook::bytes(&job, None).unwrap())).unwrap();
    let mut core = String::new();
    archive.by_name("docProps/core.xml").unwrap().read_to_string(&mut core).unwrap();
    assert!(core.contains("2000-01-01T00:00:00Z"), "{core}");
}

#[test]
fn sheets_are_set_up_for_the_screen_and_for_print() {
    let table = walked();
    let mut archive =
        zip::ZipArchive::new(Cursor::new(workbook::bytes(&table.job(), None).unwrap())).unwrap();
    let mut xml = |name: &str| {
        let mut text = String::new();
        archive.by_name(name).unwrap().read_to_string(&mut text).unwrap();
        text
    };
    for sheet in 1..=7 {
        let text = xml(&format!("xl/worksheets/sheet{sheet}.xml"));
        for part in
            ["ySplit=\"1\"", "<autoFilter ", "orientation=\"landscape\"", "fitToHeight=\"0\"", "<cols>"]
        {
            assert!(text.contains(part), "sheet {sheet} has no {part}");
        }
    }
    assert_eq!(xml("xl/workbook.xml").matches("_xlnm.Print_Titles").count(), 7);
}

#[test]
fn an_empty_scope_and_one_with_absurd_words_are_written() {
    for words in
        ["Hello there.", "Front elevation. Weather vane*?~ \u{1} \"<&>\" =cmd|' /C calc'!A0, replace."]
    {
        let table = Table::new(words);
        let job = table.job();
        let mut book = written(&job);
        let lines = book.worksheet_range("Lines").unwrap();
        assert_eq!(lines.height() - 1, job.now.lines.iter().filter(|line| !line.only_if).count());
    }
}
