//! What a day's run came to.

use super::pen::{PLAIN, Pen, SOFT, STRONG, WARN};
use crate::model::span::Moment;
use crate::model::wording::{sentence, time};
use crate::office::day::{DayOutcome, Row};

/// The columns of a property's name.
const NAME: usize = 34;

/// The properties, those with most to look at first, and what needs attention.
pub fn day(outcome: &DayOutcome, width: usize) -> String {
    let mut pen = Pen::new(width);
    let mut rows: Vec<&Row> = outcome.rows.iter().collect();
    rows.sort_by_key(|row| std::cmp::Reverse(row.tally.flagged));
    if !rows.is_empty() {
        pen.text(STRONG, 0, &heading());
        rows.iter().for_each(|row| pen.row(&property(row)));
        pen.skip();
    }
    pen.text(PLAIN, 0, &crate::office::day::summary(outcome));
    for (file, other) in &outcome.same {
        pen.text(SOFT, 0, &format!("{} is {}, which is done once.", file.display(), other.display()));
    }
    if !outcome.skipped.is_empty() {
        pen.heading("Skipped");
        for skipped in &outcome.skipped {
            pen.text(WARN, 2, &format!("{}: {}", skipped.file.display(), sentence(&skipped.why)));
        }
    }
    if !outcome.waiting.is_empty() {
        pen.heading("Still being copied: run again once they are whole");
        outcome.waiting.iter().for_each(|file| pen.text(WARN, 2, &file.display().to_string()));
    }
    if outcome.stopped {
        pen.heading("Stopped before the end: run again to go on");
    }
    pen.finish()
}

fn heading() -> String {
    columns("Property", ["lines", "looks", "tapes", "photos", "length", "heard at"].map(str::to_owned))
}

fn property(row: &Row) -> String {
    let tally = &row.tally;
    let length = tally.length.map_or("text".to_owned(), |length| time(Moment::from_seconds(length)));
    let speed = tally.speed().map(|speed| format!("{speed:.1} ×")).unwrap_or_default();
    let counts =
        [tally.lines, tally.flagged, tally.measurements, tally.photos].map(|count| count.to_string());
    let [lines, looks, tapes, photos] = counts;
    columns(&row.property, [lines, looks, tapes, photos, length, speed])
}

fn columns(name: &str, rest: [String; 6]) -> String {
    let mut short: String = name.chars().take(NAME).collect();
    if name.chars().count() > NAME {
        short = short.chars().take(NAME - 1).chain(['…']).collect();
    }
    let [a, b, c, d, e, f] = rest;
    format!("{short:NAME$} {a:>5} {b:>5} {c:>5} {d:>6} {e:>7} {f:>8}")
}
