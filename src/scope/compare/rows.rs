//! Rows to lines: which rows of a table hold work, and what the headings between them say of where.

use super::columns::Columns;
use super::model::PassedOver;
use super::place::{Place, place};
use super::said::Said;
use super::sheet::{Row, Table};
use crate::language::rules::Grammar;
use crate::language::rules::lists::{Column, ListedText, plain};

/// A row that holds a line of work: its cells by what they hold, and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Listed {
    /// The row, from 1.
    pub row: usize,
    /// The words for the thing.
    pub text: String,
    /// The cell for the work.
    pub work: String,
    /// The cell for the quantity.
    pub quantity: String,
    /// The cell for the unit.
    pub unit: String,
    /// The cell for the size.
    pub size: String,
    /// What its own cell for the place says; none where it has none or says nothing.
    pub own_place: Option<Place>,
    /// That cell in plain words.
    pub place_cell: String,
    /// The row above whose place holds here, too, and that place; none where nothing tells so.
    pub above: Option<(usize, Place)>,
    /// What the heading above says of where.
    pub under: Place,
}

/// What a row is.
enum Kind {
    /// A line of work.
    Line,
    /// A heading that tells where what follows is.
    Place(Place),
    /// A heading that tells nothing of where.
    Heading,
    /// Nothing that is compared.
    Over(&'static str),
}

/// The lines of a table, and the rows that are none.
pub(super) fn lines(table: &Table, columns: &Columns, grammar: &Grammar) -> (Vec<Listed>, Vec<PassedOver>) {
    let (mut lines, mut over) = (Vec::new(), Vec::new());
    let mut under = above(table, columns, grammar).unwrap_or(Place::UNTOLD);
    let headings: Vec<String> = columns.uses.iter().map(|used| plain(&used.heading)).collect();
    for row in table.rows.iter().filter(|row| columns.header.is_none_or(|header| row.number > header)) {
        let cells = Cells { row, columns };
        let why = match cells.kind(&headings, grammar) {
            Kind::Line => {
                lines.push(cells.listed(&under, grammar));
                continue;
            }
            Kind::Place(place) => {
                under = place;
                "a heading: what follows is there"
            }
            Kind::Heading => {
                under = Place::UNTOLD;
                "a heading that names no side"
            }
            Kind::Over(why) => why,
        };
        over.push(PassedOver { row: row.number, text: cells.all(), why: why.to_owned() });
    }
    (lines, over)
}

/// The place that a heading right above those of the columns names.
fn above(table: &Table, columns: &Columns, grammar: &Grammar) -> Option<Place> {
    let before = table.rows.iter().take_while(|row| columns.header.is_some_and(|header| row.number < header));
    let mut cells = before.last()?.cells.iter().filter(|cell| !cell.is_empty());
    let (only, None) = (cells.next()?, cells.next()) else { return None };
    let names_an_item = Said::new(only, grammar).names_an_item();
    place(only, grammar).filter(|_| !names_an_item && only.split(' ').count() <= LONGEST_HEADING)
}

/// A heading is short.
const LONGEST_HEADING: usize = 6;

struct Cells<'a> {
    row: &'a Row,
    columns: &'a Columns,
}

impl Cells<'_> {
    /// What the columns of one meaning hold.
    fn of(&self, column: Column) -> String {
        let cells = self.columns.holding(column).filter_map(|at| self.row.cells.get(at));
        // Running numbers stand under "Item" as often as things do.
        let told = cells.filter(|cell| !cell.is_empty() && (column != Column::Item || !is_number(cell)));
        told.map(String::as_str).collect::<Vec<_>>().join(", ")
    }

    /// The whole row in words.
    fn all(&self) -> String {
        self.row.cells.iter().filter(|cell| !cell.is_empty()).cloned().collect::<Vec<_>>().join(", ")
    }

    fn first(&self) -> &str {
        self.row.cells.iter().find(|cell| !cell.is_empty()).map_or("", String::as_str)
    }

    fn kind(&self, headings: &[String], grammar: &Grammar) -> Kind {
        if self.row.cells.iter().map(|cell| plain(cell)).eq(headings.iter().cloned()) {
            return Kind::Over("the headings again");
        }
        let text = self.of(Column::Item);
        let bare = [Column::Quantity, Column::Unit, Column::Work, Column::Size];
        let bare = bare.into_iter().all(|column| self.of(column).is_empty());
        let opens =
            |with| [self.first(), &text].into_iter().any(|cell| grammar.lists.opening(cell) == Some(with));
        // Work is done to things, never to sums.
        if opens(ListedText::Total) && self.of(Column::Work).is_empty() {
            return Kind::Over("a sum");
        }
        if opens(ListedText::Money) && !Said::new(&text, grammar).names_an_item() {
            return Kind::Over("money, no work");
        }
        if bare && opens(ListedText::Note) {
            return Kind::Over("a note");
        }
        // What has a place of its own is no heading.
        if bare && (text.is_empty() || self.of(Column::Side).is_empty()) {
            return self.heading(grammar);
        }
        let quantity = self.of(Column::Quantity);
        let nought = !quantity.is_empty() && quantity.chars().all(|c| matches!(c, '0' | '.' | ','));
        match (nought, text.is_empty()) {
            (true, _) => Kind::Over("its quantity is nought"),
            (_, true) => Kind::Over("it names no thing"),
            _ => Kind::Line,
        }
    }

    /// A row without any amount or work in its own cell: a heading, a remark, or a thing without a number.
    fn heading(&self, grammar: &Grammar) -> Kind {
        let text = self.heading_text();
        let said = Said::new(&grammar.lists.written_out(&text), grammar);
        let works = !said.works(grammar).is_empty();
        match (said.names_an_item(), place(&text, grammar)) {
            (true, _) if works => Kind::Line,
            (false, Some(place)) => Kind::Place(place),
            (true, _) => Kind::Over("a heading, or a thing without a quantity"),
            (false, None) if text.split(' ').count() > LONGEST_HEADING => Kind::Over("a note"),
            (false, None) => Kind::Heading,
        }
    }

    /// A heading may stand under any column, most often the first.
    fn heading_text(&self) -> String {
        let (text, side) = (self.of(Column::Item), self.of(Column::Side));
        [text, side].into_iter().find(|text| !text.is_empty()).unwrap_or_else(|| self.first().to_owned())
    }

    fn listed(&self, under: &Place, grammar: &Grammar) -> Listed {
        let side = self.of(Column::Side);
        let unread = || Place { unread: Some(side.clone()), ..Place::UNTOLD };
        Listed {
            row: self.row.number,
            text: self.of(Column::Item),
            work: self.of(Column::Work),
            quantity: self.of(Column::Quantity),
            unit: self.of(Column::Unit),
            size: self.of(Column::Size),
            place_cell: plain(&side),
            above: None,
            own_place: (!side.is_empty()).then(|| place(&side, grammar).unwrap_or_else(unread)),
            under: under.clone(),
        }
    }
}

fn is_number(cell: &str) -> bool {
    cell.chars().any(|c| c.is_ascii_digit())
        && cell.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '#' | ' '))
}
