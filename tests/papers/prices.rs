//! Prices: a worked example, what has none, and lists that are wrong.

use super::workbook::{book, column, near};
use super::{GRAMMAR, Table};
use calamine::Reader;
use eavesdraft::output::page::{Block, Cell, Note};
use eavesdraft::output::prices::{Percent, PriceList, Priced, priced, section};
use eavesdraft::output::workbook;
use rust_decimal::Decimal;

const WALK: &str = "Front elevation. Gutter, fourteen feet, remove and replace. Two coach lights, detach and reset. If the \
                    deck is soft, replace ten boards. Right elevation. Gutter, eleven to thirteen feet, remove and \
                    replace. Vinyl siding, three squares, remove and replace. Two pair of shutters, paint them. Rear \
                    elevation. Mailbox, replace. Deck, stain it. Fascia, forty feet, paint.";

const LIST: &str = "\
Unit Price,Item,Work,Unit,Note
$7.35,gutter,replace,LF,
45.005,coach light,,each,any work
4.125,siding,remove and replace,sq ft,
\"22.335\",shutters,paint,ea,
9.99,gutter,clean,ft,
31,fascia,paint,each,
";

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

fn percents(texts: &[&str]) -> Vec<Percent> {
    texts.iter().map(|text| text.parse().unwrap()).collect()
}

fn list(text: &str) -> PriceList {
    PriceList::read("prices.csv", text.as_bytes(), &GRAMMAR).unwrap()
}

fn worked(with: &[&str]) -> Priced {
    let table = Table::new(WALK);
    priced(&table.job(), &list(LIST), &percents(with))
}

/// By hand:
///
/// | line | quantity | price | amount |
/// |---|---|---|---|
/// | gutter | 14 ft + (11 to 13, the middle is 12) ft = 26 ft | 7.35 | 191.10 |
/// | light fixture | 2 each | 45.005 | 90.01 |
/// | siding | 3 squares = 300 sq ft | 4.125 | 1,237.50 |
/// | shutter | 2 pairs = 4 each | 22.335 | 89.34 |
/// | subtotal | | | 1,607.95 |
/// | overhead, 10 % of 1,607.95 | | 160.795, half a cent up | 160.80 |
/// | profit, 10 % of 1,768.75 | | 176.875, half a cent up | 176.88 |
/// | tax, 7.5 % of 1,607.95 | | 120.59625 | 120.60 |
/// | total | | | 2,066.23 |
#[test]
fn a_worked_example() {
    let priced = worked(&["overhead=10", "profit=10:compound", "tax=7.5"]);
    let amounts: Vec<(&str, Decimal)> =
        priced.lines.iter().map(|line| (line.item.as_str(), line.amount)).collect();
    for expected in
        [("gutter", "191.10"), ("light fixture", "90.01"), ("siding", "1237.50"), ("shutter", "89.34")]
    {
        assert!(amounts.contains(&(expected.0, decimal(expected.1))), "{expected:?} in {amounts:?}");
    }
    assert_eq!(amounts.len(), 4, "{amounts:?}");
    assert_eq!(priced.subtotal, decimal("1607.95"));
    let applied: Vec<Decimal> = priced.percents.iter().map(|applied| applied.amount).collect();
    assert_eq!(applied, ["160.80", "176.88", "120.60"].map(decimal));
    assert_eq!(priced.percents[1].base, decimal("1768.75"));
    assert_eq!(priced.total, decimal("2066.23"));
}

#[test]
fn the_order_of_percentages_is_the_one_given() {
    let first = worked(&["overhead=10", "profit=10:compound"]);
    let other = worked(&["profit=10:compound", "overhead=10"]);
    assert_eq!((first.total, other.total), (decimal("1945.63"), decimal("1929.55")));
    assert_eq!(other.percents[0].percent.name, "profit");
}

#[test]
fn what_has_no_price_is_listed_and_counts_for_nothing() {
    let priced = worked(&[]);
    let missing: Vec<(&str, &str)> =
        priced.missing.iter().map(|missing| (missing.item.as_str(), missing.why.as_str())).collect();
    assert!(missing.contains(&("mailbox", "no price in the list: add a row")), "{missing:?}");
    assert!(missing.contains(&("deck", "no price in the list: add a row")), "{missing:?}");
    let unit = "row 7 is a price per each, which ft can't be turned into: add a row per ft";
    assert!(missing.contains(&("fascia", unit)), "{missing:?}");
    assert_eq!(priced.total, priced.subtotal);
    let table = Table::new(WALK);
    assert_eq!(priced.lines.len() + missing.len(), eavesdraft::output::sums::sums(&table.job()).len());
}

#[test]
fn what_has_no_number_is_listed_even_if_it_has_a_price() {
    let table = Table::new(
        "Front elevation. Gutter, remove and replace. Rear elevation. Shutters, paint them. Two shutters, paint.",
    );
    let list = list("item,unit,price\ngutter,ft,5\nshutter,each,10\n");
    let priced = priced(&table.job(), &list, &[]);
    let gutter = priced.missing.iter().find(|missing| missing.item == "gutter").unwrap();
    assert_eq!(gutter.why, "no quantity was given: count or measure it");
    for line in &priced.lines {
        assert!(line.amount > Decimal::ZERO);
    }
}

#[test]
fn one_for_the_very_work_comes_before_one_for_any() {
    let table = Table::new(
        "Front elevation. Two coach lights, detach and reset. Rear elevation. Two coach lights, replace.",
    );
    let list = list("item,work,unit,price\nlight-fixture,,each,10\nlight fixture,replace,each,25\n");
    let priced = priced(&table.job(), &list, &[]);
    let mut amounts: Vec<Decimal> = priced.lines.iter().map(|line| line.amount).collect();
    amounts.sort();
    assert_eq!(amounts, ["20", "50"].map(decimal));
}

#[test]
fn a_list_that_is_wrong_is_refused_with_its_place() {
    let head = "item,work,unit,price\n";
    let told = |text: &str| PriceList::read("p.csv", text.as_bytes(), &GRAMMAR).unwrap_err().to_string();
    let row = |row: &str| told(&format!("{head}gutter,,ft,5\n{row}\n"));
    assert_eq!(
        told("item,unit\n"),
        "`p.csv`, row 1: no column is called price, unit price, price per unit, rate, cost: name one so"
    );
    assert_eq!(row("siding,,ft,five"), "`p.csv`, row 3, price: “five” is no price: type it as 12.50");
    assert_eq!(row("siding,,ft,"), "`p.csv`, row 3, price: is empty: type the price, or take the row out");
    assert_eq!(row("siding,,ft,-1"), "`p.csv`, row 3, price: “-1” is below zero: type it as 12.50");
    assert_eq!(row("siding,,ft,\"4,50\""), "`p.csv`, row 3, price: “4,50” is no price: type it as 12.50");
    assert_eq!(
        row("siding,,ft,1.00001"),
        "`p.csv`, row 3, price: “1.00001” has more than four decimals: round it"
    );
    assert_eq!(row("siding,,ft,1000000"), "`p.csv`, row 3, price: “1000000” is a million or more: check it");
    assert!(
        row("siding,,furlong,5").starts_with("`p.csv`, row 3, unit: “furlong” is no unit: write each, ft")
    );
    assert!(
        row("siding,demolish,ft,5")
            .starts_with("`p.csv`, row 3, work: “demolish” is no work: leave it empty")
    );
    assert_eq!(row(",,ft,5"), "`p.csv`, row 3, item: is empty: name the item, or take the row out");
    assert_eq!(
        row("gutters,,yd,5"),
        "`p.csv`, row 3: is a second price for the same as row 2: keep one of them"
    );
    assert_eq!(
        row("siding,ft,5"),
        "`p.csv`, row 3: has 3 cells where the header has 4: check its commas and quotes"
    );
    assert_eq!(
        list("\u{feff}PRICE,Item,UNIT\n\n\"1,250.50\",siding,square\n").prices[0].price,
        decimal("1250.50")
    );
}

#[test]
fn the_section_tells_prices_what_lacks_one_and_how_it_was_rounded() {
    let section = section(&worked(&["overhead=10"])).unwrap();
    assert_eq!(section.heading, "Prices");
    let Block::Text(told) = &section.blocks[0] else { panic!("{section:?}") };
    assert!(
        told.contains("rounded to the cent once, half a cent up") && told.contains("prices.csv"),
        "{told}"
    );
    let Block::Table(table) = &section.blocks[1] else { panic!("{section:?}") };
    let totals: Vec<(&str, &str)> = table.groups[1]
        .rows
        .iter()
        .map(|row| (row.cells[0].text.as_str(), row.cells[5].text.as_str()))
        .collect();
    let expected = [("Subtotal", "1,607.95"), ("Overhead, 10% of 1,607.95", "160.80"), ("Total", "1,768.75")];
    assert_eq!(totals, expected);
    let siding = table.groups[0].rows.iter().find(|row| row.cells[0].text == "siding").unwrap();
    assert_eq!(siding.cells[2..], ["300", "sq ft", "4.125", "1,237.50"].map(Cell::from));
    assert_eq!(siding.notes, [Note::plain("1 square is 100 sq ft.")]);
    let Block::Table(missing) = &section.blocks[3] else { panic!("{section:?}") };
    let mailbox = ["mailbox", "remove and replace", "1", "each", "no price in the list: add a row"];
    assert!(missing.rows().any(|row| row.cells == mailbox.map(Cell::from)), "{missing:?}");
    assert_eq!(
        eavesdraft::output::prices::section(&priced(&Table::new("Hello.").job(), &list(LIST), &[])),
        None
    );
}

#[test]
fn the_sheet_of_prices_holds_formulas_and_what_they_come_to() {
    let table = Table::new(WALK);
    let job = table.job();
    let with = percents(&["overhead=10", "profit=10:compound"]);
    let priced = priced(&job, &list(LIST), &with);
    let mut book = book(workbook::bytes(&job, Some(&priced)).unwrap());
    let range = book.worksheet_range("Prices").unwrap();
    let (amounts, names) = (column(&range, "Amount"), column(&range, "Item"));
    let cents = |amount: Decimal| {
        eavesdraft::model::Exact::new(
            (amount * Decimal::ONE_HUNDRED).mantissa() / 10_i128.pow((amount * Decimal::ONE_HUNDRED).scale()),
            100,
        )
    };
    for (line, amount) in priced.lines.iter().zip(&amounts) {
        assert!(near(amount, cents(line.amount)), "{}: {amount:?}", line.item);
    }
    let total = names.iter().position(|name| *name == "Total").unwrap();
    assert!(near(&amounts[total], cents(priced.total)));
    let formulas = book.worksheet_formula("Prices").unwrap();
    let at = |cell: (u32, u32)| formulas.get_value(cell).cloned().unwrap_or_default();
    let lines = priced.lines.len() as u32;
    assert_eq!(at((1, 5)), "ROUND(C2*E2,2)");
    assert_eq!(at((lines + 1, 5)), format!("SUM(F2:F{})", lines + 1));
    assert_eq!(at((lines + 2, 5)), format!("ROUND(F{}*E{}/100,2)", lines + 2, lines + 3));
    assert_eq!(at((lines + 3, 5)), format!("ROUND(SUM(F{}:F{})*E{}/100,2)", lines + 2, lines + 3, lines + 4));
    assert_eq!(at((lines + 4, 5)), format!("SUM(F{}:F{})", lines + 2, lines + 4));
    let siding = priced.lines.iter().position(|line| line.item == "siding").unwrap();
    assert_eq!(at((siding as u32 + 1, 2)), format!("Totals!E{}*100", priced.lines[siding].sum + 2));
    let told: Vec<String> = names.iter().map(ToString::to_string).collect();
    priced.missing.iter().for_each(|missing| assert!(told.contains(&missing.item), "{told:?}"));
}
