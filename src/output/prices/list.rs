//! An office's price list: comma-separated values with an item, a work, a unit and a price.

use super::unit;
use crate::language::rules::Grammar;
use crate::model::{Unit, Work, wording};
use crate::output::unreadable::Unreadable;
use crate::scope::review::typed;
use csv::{ReaderBuilder, StringRecord, Trim};
use rust_decimal::Decimal;

/// Prices of a million and more are slips of the hand.
const MOST: i64 = 1_000_000;

/// A price list.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceList {
    /// The file, as it was named.
    pub file: String,
    /// Its prices, in its order.
    pub prices: Vec<Price>,
}

/// A price.
#[derive(Debug, Clone, PartialEq)]
pub struct Price {
    /// The row, counted as a spreadsheet does.
    pub row: u64,
    /// What it is a price of: a name as the papers have it.
    pub item: String,
    /// Of which work; none for any.
    pub work: Option<Work>,
    /// For how much.
    pub unit: Unit,
    /// The price.
    pub price: Decimal,
}

impl Price {
    /// Whether both would stand for the same sum.
    fn clashes(&self, other: &Self) -> bool {
        let convertible = self.unit.in_unit(other.unit).is_some();
        self.item == other.item && self.work == other.work && convertible
    }
}

/// What the four columns may be called.
const ITEM: [&str; 5] = ["item", "item id", "thing", "name", "description"];
const WORK: [&str; 3] = ["work", "action", "activity"];
const UNIT: [&str; 4] = ["unit", "per", "unit of measure", "uom"];
const PRICE: [&str; 5] = ["price", "unit price", "price per unit", "rate", "cost"];

/// The works, each with what lists call it.
const WORKS: [(Work, &[&str]); 9] = [
    (Work::DetachReset, &["detach-reset", "detach & reset", "take off and put back", "d&r"]),
    (Work::RemoveReplace, &["remove-replace", "remove & replace", "replace", "r&r"]),
    (Work::Remove, &["tear off"]),
    (Work::Install, &["new", "put in"]),
    (Work::Repair, &["mend", "fix"]),
    (Work::Clean, &["wash", "power wash"]),
    (Work::Paint, &[]),
    (Work::Stain, &[]),
    (Work::Protect, &["cover"]),
];

impl PriceList {
    /// Reads a list; `file` is what it is called in an error. The columns may stand in any order, and others beside them.
    ///
    /// # Errors
    /// A column that lacks, a cell that isn't understood, two prices for the same: with file, row and column.
    pub fn read(file: &str, bytes: &[u8], grammar: &Grammar) -> Result<Self, Unreadable> {
        let bytes = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes);
        let mut reader = ReaderBuilder::new().trim(Trim::All).from_reader(bytes);
        let header = reader.headers().map_err(|error| Unreadable::csv(file, 1, &error))?.clone();
        let columns = Columns::of(file, &header)?;
        let mut list = Self { file: file.to_owned(), prices: Vec::new() };
        for (record, row) in reader.records().zip(2..) {
            let record = record.map_err(|error| Unreadable::csv(file, row, &error))?;
            if record.iter().all(str::is_empty) {
                continue;
            }
            list.add(PriceRow { file, row, record: &record, columns: &columns, grammar }.read()?)?;
        }
        Ok(list)
    }

    fn add(&mut self, price: Price) -> Result<(), Unreadable> {
        if let Some(other) = self.prices.iter().find(|other| other.clashes(&price)) {
            let what = format!("is a second price for the same as row {}: keep one of them", other.row);
            return Err(Unreadable::row(&self.file, price.row, what));
        }
        self.prices.push(price);
        Ok(())
    }
}

/// Where the four columns stand.
struct Columns {
    item: usize,
    work: Option<usize>,
    unit: usize,
    price: usize,
}

impl Columns {
    fn of(file: &str, header: &StringRecord) -> Result<Self, Unreadable> {
        let find = |names: &[&str]| {
            let named =
                |heading: &str| names.contains(&heading.to_lowercase().replace(['_', '-'], " ").as_str());
            header.iter().position(named)
        };
        let wanted = |names: &[&str]| {
            let what = || format!("no column is called {}: name one so", names.join(", "));
            find(names).ok_or_else(|| Unreadable::row(file, 1, what()))
        };
        Ok(Self { item: wanted(&ITEM)?, work: find(&WORK), unit: wanted(&UNIT)?, price: wanted(&PRICE)? })
    }
}

/// A row that is being read.
struct PriceRow<'a> {
    file: &'a str,
    row: u64,
    record: &'a StringRecord,
    columns: &'a Columns,
    grammar: &'a Grammar,
}

impl PriceRow<'_> {
    fn read(&self) -> Result<Price, Unreadable> {
        Ok(Price {
            row: self.row,
            item: self.item()?,
            work: self.work()?,
            unit: self.unit()?,
            price: self.price()?,
        })
    }

    fn cell(&self, column: usize) -> &str {
        self.record.get(column).unwrap_or_default()
    }

    fn wrong(&self, column: &str, what: String) -> Unreadable {
        Unreadable::cell(self.file, self.row, column, what)
    }

    /// A thing of the catalogue by its name there; else the words, for what the office itself put into a scope.
    fn item(&self) -> Result<String, Unreadable> {
        let text = self.cell(self.columns.item);
        if text.is_empty() {
            return Err(self.wrong("item", "is empty: name the item, or take the row out".to_owned()));
        }
        let id = typed::item(text, self.grammar).map(|n| &self.grammar.items[usize::from(n)].id);
        Ok(wording::item(id.map(String::as_str), &text.to_lowercase()))
    }

    fn work(&self) -> Result<Option<Work>, Unreadable> {
        let text = self.columns.work.map_or("", |column| self.cell(column)).to_lowercase();
        if matches!(text.as_str(), "" | "any" | "all") {
            return Ok(None);
        }
        let known = WORKS
            .iter()
            .find(|(work, names)| wording::work(Some(*work)) == text || names.contains(&text.as_str()));
        let all = || WORKS.map(|(work, _)| wording::work(Some(work))).join(", ");
        let what = || format!("“{text}” is no work: leave it empty for any, or write one of {}", all());
        known.map(|(work, _)| Some(*work)).ok_or_else(|| self.wrong("work", what()))
    }

    fn unit(&self) -> Result<Unit, Unreadable> {
        let text = self.cell(self.columns.unit);
        let what =
            || format!("“{text}” is no unit: write each, ft, sq ft, square, pair, yd, in, set, roll, …");
        unit::read(text, self.grammar).ok_or_else(|| self.wrong("unit", what()))
    }

    /// A price as it is typed: `1,250.00`, `$4.10`.
    fn price(&self) -> Result<Decimal, Unreadable> {
        let text = self.cell(self.columns.price);
        let digits = text.trim_start_matches('$').trim().replace(',', "");
        let price = digits.parse::<Decimal>().ok().filter(|_| is_grouped(text));
        let what = |why: &str| self.wrong("price", format!("“{text}” {why}"));
        match price {
            _ if text.is_empty() => {
                Err(self.wrong("price", "is empty: type the price, or take the row out".to_owned()))
            }
            None => Err(what("is no price: type it as 12.50")),
            Some(price) if price.is_sign_negative() => Err(what("is below zero: type it as 12.50")),
            Some(price) if price >= Decimal::from(MOST) => Err(what("is a million or more: check it")),
            Some(price) if price.scale() > 4 => Err(what("has more than four decimals: round it")),
            Some(price) => Ok(price),
        }
    }
}

/// Whether commas, if any, stand before groups of three digits: `4,50` is no price of 450.
fn is_grouped(text: &str) -> bool {
    let whole = text.split('.').next().unwrap_or(text);
    whole.split(',').skip(1).all(|group| group.len() == 3)
        && !text.split('.').skip(1).any(|decimals| decimals.contains(','))
}
