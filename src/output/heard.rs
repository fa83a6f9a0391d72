//! What was heard, before anything is made of it.

use super::page::{Block, Cell, Column, Page, Row, Section, Table};
use super::parts::property;
use crate::model::wording::{self, sentence};
use crate::speech::{Transcript, Utterance};

/// The words of a transcript, a stretch of speech a row, with the time it begins.
pub fn page(transcript: &Transcript) -> Page {
    let row = |utterance: &Utterance| {
        let start = utterance.words.first().and_then(|word| word.start);
        let start = start.map(|start| wording::time_in(&transcript.clips, start)).unwrap_or_default();
        let words: Vec<&str> = utterance.words.iter().map(|word| word.text.as_str()).collect();
        Row::of([Cell::from(start), Cell::from(words.join(" "))])
    };
    let rows: Vec<Row> = transcript.utterances.iter().map(row).collect();
    let table = (!rows.is_empty())
        .then(|| Block::Table(Table::plain([Column::numbers("Time"), Column::text("Words")], rows)));
    Page {
        kind: "Words as they were heard".to_owned(),
        title: property(&transcript.source).to_owned(),
        notices: transcript.notices.iter().map(|notice| sentence(notice)).collect(),
        sections: Section::of("Words", table.into_iter().collect()).into_iter().collect(),
        ..Page::default()
    }
}
