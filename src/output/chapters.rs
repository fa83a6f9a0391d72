//! Chapters: where on the recording each side begins, as WebVTT (<https://www.w3.org/TR/webvtt1/>, of the kind
//! `chapters`), so that a player offers them.

use super::job::Job;
use crate::model::span::Moment;
use crate::model::wording::capital;
use crate::scope::arrange::Place;
use crate::speech::clock::{ARROW, stamp};
use html_escape::encode_text;
use std::fmt::Write;

/// How a file of chapters is known again.
pub const MARK: &str = "NOTE Chapters by Eavesdraft from ";

/// A side and when it is spoken of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chapter {
    /// Structure and side: `House, front`.
    pub title: String,
    /// When the first line is said there.
    pub start: Moment,
    /// When the next side begins; of the last one, when the recording ends.
    pub end: Moment,
}

/// The sides in the order they were spoken of; a look back is a chapter of its own. Empty for text without times. The
/// clips of a visit are on one line of time.
pub fn chapters(job: &Job) -> Vec<Chapter> {
    let timed = job.now.lines.iter().filter_map(|line| Some((line.start?, line)));
    let mut said: Vec<(Moment, String)> = timed
        .map(|(start, line)| (start, format!("{}, {}", capital(&line.structure), Place::of(line).heading())))
        .collect();
    said.sort_by_key(|(start, _)| *start);
    // Words that put things on two sides at once would make a chapter of no length: the later one stands.
    let mut begun: Vec<(Moment, String)> = Vec::new();
    for (start, title) in said {
        if begun.last().is_some_and(|(before, _)| *before == start) {
            begun.pop();
        }
        if begun.last().is_none_or(|(_, before)| *before != title) {
            begun.push((start, title));
        }
    }
    let starts: Vec<Moment> = begun.iter().map(|(start, _)| *start).collect();
    let end = |n: usize| starts.get(n + 1).copied().unwrap_or_else(|| last(job, starts[n]));
    begun.into_iter().enumerate().map(|(n, (start, title))| Chapter { title, start, end: end(n) }).collect()
}

/// The end of the recording, or of what was said, and always after the last chapter's start.
fn last(job: &Job, start: Moment) -> Moment {
    let said = job.now.lines.iter().filter_map(|line| line.end).max();
    job.now.length.or(said).unwrap_or_default().max(Moment(start.0 + 1))
}

/// The chapters as WebVTT; none for text without times.
pub fn bytes(job: &Job) -> Option<Vec<u8>> {
    let chapters = chapters(job);
    if chapters.is_empty() {
        return None;
    }
    let mut text = format!("WEBVTT\n\n{MARK}{}\n", one_line(&job.drafted.source));
    for (number, Chapter { title, start, end }) in (1..).zip(chapters) {
        let title = encode_text(&one_line(&title)).into_owned();
        // Writing to a String can't fail.
        let _ = write!(text, "\n{number}\n{} {ARROW} {}\n{title}\n", stamp(start), stamp(end));
    }
    Some(text.into_bytes())
}

/// Without line ends, and without what would be read as times.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").replace(ARROW, "->")
}
