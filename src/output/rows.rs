//! The lines as rows of a table, the same in the workbook and in the plain table.

use super::job::Job;
use crate::language::rules::{Grammar, Item};
use crate::model::span::Moment;
use crate::model::{Area, Exact, Quantity, Unit, clip_moment, wording};
use crate::scope::arrange::{Arranged, Numbered};
use crate::scope::review::LineState;

/// A line as a row. What isn't known is empty.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct LineRow {
    /// Its number, the same in every paper.
    pub number: usize,
    /// The structure.
    pub structure: String,
    /// The side.
    pub side: String,
    /// Wall, roof or grounds.
    pub area: String,
    /// The thing in plain words.
    pub item: String,
    /// Its id in the catalogue.
    pub item_id: String,
    /// Its element in UNIFORMAT II.
    pub element: String,
    /// How large each is.
    pub size: String,
    /// What is to be done.
    pub work: String,
    /// How much; the middle of a range.
    pub quantity: Option<Exact>,
    /// The lower bound.
    pub low: Option<Exact>,
    /// The upper bound.
    pub high: Option<Exact>,
    /// What is counted, always in the singular, so that rows can be put together by it.
    pub unit: String,
    /// Whether the number was hedged.
    pub rough: bool,
    /// Whether it is conditional, and outside every total.
    pub only_if: bool,
    /// How it stands.
    pub state: String,
    /// Why it needs review; empty where it doesn't.
    pub looks: String,
    /// Material and style.
    pub note: String,
    /// The words it came from.
    pub quote: String,
    /// When they begin, within their clip.
    pub time: String,
    /// The clip's file; empty where the visit is one recording.
    pub clip: String,
    /// Who touched it last.
    pub by: String,
    /// What the program knows it by.
    pub id: String,
}

/// The lines as rows, the conditional ones last.
pub fn rows(job: &Job) -> Vec<LineRow> {
    Arranged::new(&job.now).all().map(|numbered| row(job, &numbered)).collect()
}

fn row(job: &Job, numbered: &Numbered) -> LineRow {
    let line = numbered.line;
    let entry = job.scope.entry(&line.id);
    let (time, clip) = line.start.map(|start| time_and_clip(job, start)).unwrap_or_default();
    LineRow {
        number: numbered.number,
        structure: line.structure.clone(),
        side: wording::side(line.side).to_owned(),
        area: area(line.area).to_owned(),
        item: wording::item_of(line),
        item_id: line.item.clone().unwrap_or_default(),
        element: element(job.grammar, line.item.as_deref()).unwrap_or_default().to_owned(),
        size: wording::size_of(line),
        work: wording::work(line.work).to_owned(),
        quantity: line.quantity.map(Quantity::value),
        low: line.quantity.map(Quantity::low),
        high: line.quantity.map(Quantity::high),
        unit: unit(line.unit).to_owned(),
        rough: line.rough,
        only_if: line.only_if,
        state: entry.map_or("", |entry| state(entry.state)).to_owned(),
        looks: wording::looks(line).filter(|_| job.needs_review(line)).collect::<Vec<_>>().join(" "),
        note: line.detail.clone().unwrap_or_default(),
        quote: line.quote.clone(),
        time,
        clip,
        by: entry.and_then(|entry| entry.by.clone()).unwrap_or_default(),
        id: line.id.clone(),
    }
}

/// When something was said, within its clip, and that clip's file.
pub(super) fn time_and_clip(job: &Job, moment: Moment) -> (String, String) {
    let clips = &job.now.clips;
    match clip_moment(clips, moment) {
        Some(found) => (wording::time(found.at), clips[found.clip - 1].source.clone()),
        None => (wording::time(moment), String::new()),
    }
}

/// An item's element in UNIFORMAT II.
pub(super) fn element<'a>(grammar: &'a Grammar, id: Option<&str>) -> Option<&'a str> {
    let item: &Item = &grammar.items[usize::from(grammar.item_named(id?)?)];
    item.element.as_deref()
}

fn area(area: Area) -> &'static str {
    match area {
        Area::Wall => "wall",
        Area::Roof => "roof",
        Area::Grounds => "grounds",
    }
}

fn state(state: LineState) -> &'static str {
    match state {
        LineState::Flagged => "needs review",
        LineState::Unflagged => "not flagged",
        LineState::Reviewed => "reviewed",
        LineState::Dropped => "dropped",
    }
}

/// What is counted, in the singular.
pub fn unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Each => "each",
        Unit::Foot => "ft",
        Unit::SquareFoot => "sq ft",
        Unit::Square => "square",
        Unit::Pair => "pair",
        Unit::Set => "set",
        Unit::Roll => "roll",
        Unit::Sheet => "sheet",
        Unit::Bundle => "bundle",
        Unit::Box => "box",
        Unit::Inch => "in",
        Unit::Yard => "yd",
    }
}
