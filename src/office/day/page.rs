//! The day on one page to look at and print: each property with what there is to do, and what needs attention.

use super::event::Row;
use super::outcome::DayOutcome;
use super::run::Day;
use crate::model::span::Moment;
use crate::model::wording::{count, time};
use crate::output::documents::head;
use maud::{DOCTYPE, Markup, html};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use std::path::{Component, Path, PathBuf};

/// What the page is called, without its ending.
pub const NAME: &str = "day";

/// What stays as it is in a link to a file.
const IN_LINKS: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'_').remove(b'.').remove(b'~');

/// The page. `review` is where the review page answers while it runs.
pub fn page(day: &Day, outcome: &DayOutcome, review: &str) -> Vec<u8> {
    let mut rows: Vec<&Row> = outcome.rows.iter().collect();
    rows.sort_by_key(|row| std::cmp::Reverse(row.tally.flagged));
    let base = day.out.as_deref().unwrap_or(&day.folder);
    let name = shown(&std::path::absolute(&day.folder).unwrap_or_else(|_| day.folder.clone()));
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            (head(&format!("Recordings in {name}")))
            body {
                header {
                    p.kind { "Draft scopes of work" }
                    h1 { (name) }
                    p.summary { (summary(outcome)) }
                }
                main {
                    (attention(outcome))
                    (properties(&rows, base, review))
                    (same(outcome))
                }
                footer {
                    p { "Speeds are of recordings that were heard two at a time. Numbers are as drafted; the review page \
                         tells what is still open. It answers while "
                        code { "eavesdraft review " (day.folder.display()) } " runs." }
                }
            }
        }
    };
    (page.into_string() + "\n").into_bytes()
}

fn shown(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned())
}

/// What it came to, in a sentence or two.
pub(crate) fn summary(outcome: &DayOutcome) -> String {
    let sum = |of: fn(&Row) -> usize| outcome.rows.iter().map(of).sum::<usize>();
    format!(
        "{}: {}, {} to look at; {} to run, {} to take.",
        count(outcome.rows.len(), "property", "properties"),
        count(sum(|row| row.tally.lines), "line", "lines"),
        sum(|row| row.tally.flagged),
        count(sum(|row| row.tally.measurements), "tape", "tapes"),
        count(sum(|row| row.tally.photos), "photo", "photos"),
    )
}

fn attention(outcome: &DayOutcome) -> Markup {
    html! {
        @if outcome.stopped {
            div.notices { p { "The run was stopped before the end. Run it again to go on." } }
        }
        @if !outcome.skipped.is_empty() {
            section {
                h2 { "Skipped " span.count { (outcome.skipped.len()) } }
                ul { @for skipped in &outcome.skipped { li { strong { (skipped.file.display()) } ": " (skipped.why) } } }
            }
        }
        @if !outcome.waiting.is_empty() {
            section {
                h2 { "Still being copied " span.count { (outcome.waiting.len()) } }
                p { "Run it again once they are whole." }
                ul { @for file in &outcome.waiting { li { (file.display()) } } }
            }
        }
    }
}

fn properties(rows: &[&Row], base: &Path, review: &str) -> Markup {
    html! {
        section {
            h2 { "Properties, most to look at first" }
            @if rows.is_empty() { p.nothing { "Nothing is drafted yet." } }
            @else {
                div.wide {
                    table {
                        thead { tr {
                            th scope="col" { "Property" }
                            th.number scope="col" { "Lines" }
                            th.number scope="col" { "To look at" }
                            th.number scope="col" { "Tapes" }
                            th.number scope="col" { "Photos" }
                            th.number scope="col" { "Length" }
                            th.number scope="col" { "Heard at" }
                            th scope="col" { "Review" }
                        } }
                        tbody { @for row in rows { (property(row, base, review)) } }
                    }
                }
            }
        }
    }
}

fn property(row: &Row, base: &Path, review: &str) -> Markup {
    let tally = &row.tally;
    html! {
        tr {
            td {
                a href=(link(base, &row.page)) { (row.property) }
                @if row.files.len() > 1 { span.where { (row.files.len()) " recordings" } }
            }
            td.number { (tally.lines) }
            td.number { (tally.flagged) }
            td.number { (tally.measurements) }
            td.number { (tally.photos) }
            td.number { @match tally.length { Some(s) => (time(Moment::from_seconds(s))), None => "text" } }
            td.number { @if let Some(speed) = tally.speed() { (format!("{speed:.1} ×")) } }
            td { a href=(format!("{review}#/{}", row.id)) { "review" } }
        }
    }
}

fn same(outcome: &DayOutcome) -> Markup {
    html! {
        @if !outcome.same.is_empty() {
            section {
                h2 { "The same recording twice " span.count { (outcome.same.len()) } }
                ul { @for (file, other) in &outcome.same {
                    li { (file.display()) " is " (other.display()) ", which is done once." }
                } }
            }
        }
    }
}

/// The way from the page's folder to a file below it.
fn link(base: &Path, file: &Path) -> String {
    let below: PathBuf = file.strip_prefix(base).map_or_else(|_| file.to_owned(), Path::to_owned);
    let part =
        |part: Component| utf8_percent_encode(&part.as_os_str().to_string_lossy(), IN_LINKS).to_string();
    below.components().map(part).collect::<Vec<_>>().join("/")
}
