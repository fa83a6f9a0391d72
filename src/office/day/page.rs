//! The day on one page to look at and print: each property with what there is to do, and what needs attention.

use super::event::{Row, Skipped, Tally};
use super::outcome::DayOutcome;
use super::run::Day;
use crate::model::span::Moment;
use crate::model::wording::{count, sentence, time};
use crate::output::page::{self, Block, Cell, Column, Entry, Link, Page, Section, Table};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use std::cmp::Reverse;
use std::path::{Component, Path, PathBuf};

/// What the page is called, without its ending.
pub const NAME: &str = "day";

/// What stays as it is in a link to a file.
const IN_LINKS: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'_').remove(b'.').remove(b'~');

/// The page. `review` is where the review page answers while it runs.
pub fn page(day: &Day, outcome: &DayOutcome, review: &str) -> Page {
    let name = shown(&std::path::absolute(&day.folder).unwrap_or_else(|_| day.folder.clone()));
    let stopped = "The run was stopped before the end. Run it again to finish.";
    let sections = [skipped(outcome), waiting(outcome), properties(day, outcome, review), same(outcome)];
    Page {
        kind: "Draft scopes of work".to_owned(),
        title: name,
        summary: vec![summary(outcome)],
        notices: outcome.stopped.then(|| stopped.to_owned()).into_iter().collect(),
        sections: sections.into_iter().flatten().collect(),
        closing: vec![
            "Speeds are for recordings that were heard two at a time. Numbers are as drafted.".to_owned(),
            format!(
                "The review page shows what is still open. Its links work while “eavesdraft review {}” is running.",
                day.folder.display()
            ),
        ],
        ..Page::default()
    }
}

fn shown(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned())
}

/// What it came to, in a sentence.
fn summary(outcome: &DayOutcome) -> String {
    let sum = |of: fn(&Tally) -> usize| outcome.rows.iter().map(|row| of(&row.tally)).sum::<usize>();
    let review = match sum(|tally| tally.flagged) {
        1 => "1 needs review".to_owned(),
        lines => format!("{lines} need review"),
    };
    format!(
        "{}: {}, {review}; {} and {} still needed.",
        count(outcome.rows.len(), "property", "properties"),
        count(sum(|tally| tally.lines), "line", "lines"),
        count(sum(|tally| tally.measurements), "measurement", "measurements"),
        count(sum(|tally| tally.photos), "photo", "photos"),
    )
}

fn skipped(outcome: &DayOutcome) -> Option<Section> {
    let entry = |skipped: &Skipped| Entry {
        name: skipped.file.display().to_string(),
        text: sentence(&skipped.why),
        ..Entry::default()
    };
    Section::listing("Skipped", false, outcome.skipped.iter().map(entry).collect())
}

fn waiting(outcome: &DayOutcome) -> Option<Section> {
    let entries = outcome.waiting.iter().map(|file| Entry::text(file.display().to_string()));
    let mut section = Section::listing("Still being copied", false, entries.collect())?;
    section.blocks.insert(0, Block::Text("Run it again once these files are complete.".to_owned()));
    Some(section)
}

fn same(outcome: &DayOutcome) -> Option<Section> {
    let entry = |(file, other): &(PathBuf, PathBuf)| {
        Entry::text(format!("{} is the same as {}, which is drafted once.", file.display(), other.display()))
    };
    Section::listing("The same recording twice", false, outcome.same.iter().map(entry).collect())
}

fn properties(day: &Day, outcome: &DayOutcome, review: &str) -> Option<Section> {
    const COLUMNS: [Column; 8] = [
        Column::names("Property"),
        Column::numbers("Lines"),
        Column::numbers("To review"),
        Column::numbers("Measure"),
        Column::numbers("Photos"),
        Column::numbers("Length"),
        Column::numbers("Speed"),
        Column::links("Review"),
    ];
    let mut rows: Vec<&Row> = outcome.rows.iter().collect();
    if rows.is_empty() {
        return Section::of("Properties", vec![Block::Text("Nothing is drafted yet.".to_owned())]);
    }
    rows.sort_by_key(|row| Reverse(row.tally.flagged));
    let base = day.out.as_deref().unwrap_or(&day.folder);
    let rows = rows.into_iter().map(|row| property(row, base, review)).collect();
    Section::of("Properties, most to review first", vec![Block::Table(Table::plain(COLUMNS, rows))])
}

fn property(row: &Row, base: &Path, review: &str) -> page::Row {
    let Tally { lines, flagged, measurements, photos, length, .. } = row.tally;
    let recordings = Some(row.files.len()).filter(|files| *files > 1);
    let recordings = recordings.map(|files| format!("{files} recordings")).unwrap_or_default();
    let length = length.map_or_else(|| "text".to_owned(), |seconds| time(Moment::from_seconds(seconds)));
    let speed = row.tally.speed().map(|speed| format!("{speed:.1} ×")).unwrap_or_default();
    page::Row::of([
        Cell::from(row.property.clone()).and(recordings).to(Link::Page(link(base, &row.page))),
        Cell::from(lines.to_string()),
        Cell::from(flagged.to_string()),
        Cell::from(measurements.to_string()),
        Cell::from(photos.to_string()),
        Cell::from(length),
        Cell::from(speed),
        Cell::from("Review").to(Link::Page(format!("{review}#/{}", row.id))),
    ])
}

/// The way from the page's folder to a file below it.
fn link(base: &Path, file: &Path) -> String {
    let below: PathBuf = file.strip_prefix(base).map_or_else(|_| file.to_owned(), Path::to_owned);
    let part =
        |part: Component| utf8_percent_encode(&part.as_os_str().to_string_lossy(), IN_LINKS).to_string();
    below.components().map(part).collect::<Vec<_>>().join("/")
}
