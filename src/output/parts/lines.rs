//! Tables of lines.

use crate::model::Line;
use crate::model::wording::{self, ONLY_IF, capital};
use crate::output::page::{Block, Cell, Column, Group, Note, Row, Said, Section, Table};
use crate::scope::arrange::{Arranged, Numbered, Placed};

/// How much is told of each line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Depth {
    /// The line, and when it was said.
    Lines,
    /// The words that it came from too.
    Words,
    /// And which of them, by which rules, gave what.
    Why,
}

/// Lines on their way onto a paper.
pub struct Lines<'a> {
    /// In reading order.
    pub arranged: &'a Arranged<'a>,
    /// How much is told of each.
    pub depth: Depth,
    /// Whether a line needs review still.
    pub needs_review: &'a dyn Fn(&Line) -> bool,
}

/// The lines that stand: a section a structure, in it a group a place.
pub fn standing(lines: &Lines) -> Vec<Section> {
    let places = &lines.arranged.places;
    if places.is_empty() {
        let text = "No lines. Nothing that was said names work to be done.".to_owned();
        return Section::of("Lines", vec![Block::Text(text)]).into_iter().collect();
    }
    let structures = places.chunk_by(|a, b| a.structure == b.structure);
    structures
        .filter_map(|places| {
            let group = |place: &Placed| Group {
                heading: Some(capital(place.place.heading())),
                rows: place.lines.iter().map(|numbered| lines.row(numbered, None)).collect(),
            };
            let table = lines.table(places.iter().map(group).collect());
            Section::of(capital(places[0].structure), vec![Block::Table(table)])
        })
        .collect()
}

/// The conditional lines, apart from all others.
pub fn only_if(lines: &Lines) -> Option<Section> {
    let with_place = |numbered: &Numbered| {
        let place = wording::whereabouts(&numbered.line.structure, numbered.line.side);
        lines.row(numbered, Some(place))
    };
    let rows: Vec<Row> = lines.arranged.only_if.iter().map(with_place).collect();
    if rows.is_empty() {
        return None;
    }
    let table = lines.table(vec![Group { heading: None, rows }]);
    let section = Section::of("Only if", vec![Block::Text(ONLY_IF.to_owned()), Block::Table(table)]);
    section.map(|section| Section { framed: true, ..section })
}

/// What a link to a line leads to.
pub fn anchor(number: usize) -> String {
    format!("line-{number}")
}

impl Lines<'_> {
    fn table(&self, mut groups: Vec<Group>) -> Table {
        let mut columns = vec![
            Column::numbers("No."),
            Column::numbers("Quantity"),
            Column::words("Unit"),
            Column::names("Item"),
            Column::words("Work"),
        ];
        let timed = self.arranged.all().any(|numbered| numbered.line.start.is_some());
        match (timed, self.depth) {
            (true, Depth::Lines) => columns.push(Column::words("Time")),
            (true, Depth::Words | Depth::Why) => columns.push(Column::text("Time and words")),
            (false, Depth::Words | Depth::Why) => columns.push(Column::text("Words")),
            (false, Depth::Lines) => {
                groups.iter_mut().flat_map(|group| &mut group.rows).for_each(|row| drop(row.cells.pop()));
            }
        }
        Table { columns, groups }
    }

    fn row(&self, numbered: &Numbered, place: Option<String>) -> Row {
        let line = numbered.line;
        let flagged = (self.needs_review)(line);
        let unit = line.quantity.map(|_| wording::unit(line)).unwrap_or_default();
        let cells = vec![
            Cell::from(numbered.number.to_string()),
            wording::quantity(line).map_or_else(|| Cell::missing("not said"), Cell::from),
            Cell::from(unit),
            item(line, place),
            work(line),
            Cell::said(self.said(numbered)),
        ];
        Row { anchor: Some(anchor(numbered.number)), cells, notes: self.notes(line, flagged), flagged }
    }

    fn said(&self, numbered: &Numbered) -> Said {
        let said = said(numbered);
        if self.depth == Depth::Lines { Said { words: String::new(), ..said } } else { said }
    }

    fn notes(&self, line: &Line, flagged: bool) -> Vec<Note> {
        let looks: Vec<String> = wording::looks(line).filter(|_| flagged).collect();
        let looks = (!looks.is_empty()).then(|| Note::flagged(format!("Review: {}", looks.join(" "))));
        let why = line.why.iter().filter(|_| self.depth == Depth::Why);
        let why = why.map(|why| Note::plain(format!("{}: “{}” by {}", why.field, why.words, why.rule)));
        looks.into_iter().chain(why).collect()
    }
}

/// A line's thing, with its size, what it is made of, and its place where no heading tells that.
fn item(line: &Line, place: Option<String>) -> Cell {
    let more = [line.size.as_ref().map(wording::size), line.detail.clone(), place].into_iter().flatten();
    Cell::from(wording::item_of(line)).and(more.collect::<Vec<_>>().join(", "))
}

fn work(line: &Line) -> Cell {
    match line.work {
        Some(_) => Cell::from(wording::work(line.work)),
        None => Cell::missing(wording::work(None)),
    }
}

/// When a line was said, and in which words.
pub fn said(numbered: &Numbered) -> Said {
    let time = numbered.line.start.map(|start| wording::time_in(numbered.clips, start));
    Said { time: time.unwrap_or_default(), words: numbered.line.quote.clone() }
}
