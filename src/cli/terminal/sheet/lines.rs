//! The lines, in columns.

use super::Depth;
use super::pen::{PLAIN, Pen, SOFT, STRONG, WARN, styled};
use crate::model::Line;
use crate::model::wording::{self, ONLY_IF, capital};
use crate::scope::arrange::{Arranged, Numbered};
use textwrap::core::display_width;

/// The columns besides the item's, which takes what is left.
const NUMBER: usize = 4;
const QUANTITY: usize = 12;
const UNIT: usize = 8;
const WORK: usize = 19;
const TIME: usize = 7;
const ALL_BUT_ITEM_AND_TIME: usize = NUMBER + QUANTITY + 1 + UNIT + 1 + WORK;

/// Where a line's second line begins, under its unit.
const INDENT: usize = NUMBER + 2;

/// The lines that stand, a heading a place.
pub(super) fn by_place(pen: &mut Pen, arranged: &Arranged, depth: Depth) {
    if arranged.places.is_empty() {
        pen.skip();
        pen.text(PLAIN, 0, "No line stands: these words name no work to be done.");
    }
    let layout = Layout { depth, time: time_width(arranged) };
    for placed in &arranged.places {
        pen.heading(&format!("{}, {}", capital(placed.structure), placed.place.heading()));
        placed.lines.iter().for_each(|line| write(pen, *line, wording::item_of(line.line), layout));
    }
}

/// The conditional lines, apart from all others.
pub(super) fn only_if(pen: &mut Pen, arranged: &Arranged, depth: Depth) {
    if arranged.only_if.is_empty() {
        return;
    }
    pen.heading("Only if");
    pen.text(PLAIN, 0, ONLY_IF);
    let layout = Layout { depth, time: time_width(arranged) };
    for numbered in &arranged.only_if {
        let line = numbered.line;
        let place = wording::whereabouts(&line.structure, line.side);
        write(pen, *numbered, format!("{} ({place})", wording::item_of(line)), layout);
    }
}

/// How lines are written.
#[derive(Clone, Copy)]
struct Layout {
    depth: Depth,
    /// The columns of the time.
    time: usize,
}

/// Times within clips are wider.
fn time_width(arranged: &Arranged) -> usize {
    let of_clips = arranged.all().filter(|line| !line.clips.is_empty());
    of_clips.map(|line| display_width(&time(line)) + 1).max().unwrap_or_default().max(TIME)
}

fn time(numbered: Numbered) -> String {
    let start = numbered.line.start;
    start.map(|start| wording::short_time_in(numbered.clips, start)).unwrap_or_default()
}

fn write(pen: &mut Pen, numbered: Numbered, item: String, layout: Layout) {
    columns(pen, numbered, item, layout.time);
    wording::looks(numbered.line).for_each(|look| pen.text(WARN, INDENT, &look));
    if layout.depth == Depth::Why {
        why(pen, numbered.line);
    }
}

fn columns(pen: &mut Pen, numbered: Numbered, item: String, time_width: usize) {
    let line = numbered.line;
    let extra = [Some(item), line.size.as_ref().map(wording::size), line.detail.clone()];
    let item = extra.into_iter().flatten().collect::<Vec<_>>().join(", ");
    let width = pen.width.saturating_sub(ALL_BUT_ITEM_AND_TIME + time_width).max(1);
    let mut item = textwrap::wrap(&item, width).into_iter();
    let first = item.next().unwrap_or_default();
    let row = [
        number(numbered),
        quantity(line),
        " ".to_owned(),
        format!("{:UNIT$}", wording::unit(line)),
        styled(STRONG, &first) + &" ".repeat(width + 1 - display_width(&first).min(width)),
        styled(
            if line.work.is_none() { WARN } else { PLAIN },
            &format!("{:WORK$}", wording::work(line.work)),
        ),
        styled(SOFT, &format!("{:>time_width$}", time(numbered))),
    ];
    pen.row(&row.concat());
    let below = NUMBER + QUANTITY + 1 + UNIT;
    item.for_each(|rest| pen.row(&format!("{:below$}{}", "", styled(STRONG, &rest))));
}

/// The number, with a mark that shows without color too where the line needs a look.
fn number(numbered: Numbered) -> String {
    let rest = NUMBER - 1;
    match numbered.line.needs_look() {
        true => styled(WARN, &format!("!{:>rest$}", numbered.number)),
        false => styled(SOFT, &format!("{:>NUMBER$}", numbered.number)),
    }
}

fn quantity(line: &Line) -> String {
    match wording::quantity(line) {
        Some(quantity) => format!("{quantity:>QUANTITY$}"),
        None => styled(WARN, &format!("{:>QUANTITY$}", "no number")),
    }
}

/// Which words and rules gave the line its fields.
fn why(pen: &mut Pen, line: &Line) {
    pen.text(SOFT, INDENT, &format!("from “{}”", line.quote));
    for why in &line.why {
        pen.text(SOFT, INDENT, &format!("{}: “{}” by {}", why.field, why.words, why.rule));
    }
}
