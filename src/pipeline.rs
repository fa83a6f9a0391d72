//! The way from a recording or a text to documents, a stage a function.
//!
//! Each stage takes what the one before gave, and nothing else.

use crate::language::rules::Grammar;
use crate::model::Draft;
use crate::output::draft as drafted;
use crate::output::files::Paper;
use crate::scope::drafting;
use crate::speech::read::{self, ReadError, Source};
use crate::speech::{HearError, Progress, Recognizer, Transcript, write};
use std::path::Path;

/// Tells what a file holds, and reads it where that is words.
///
/// # Errors
/// Where it can't be read.
pub fn open(path: &Path, name: &str) -> Result<Source, ReadError> {
    read::open(path, name)
}

/// Hears the words of a recording.
///
/// # Errors
/// Where it can't be heard.
pub fn hear(
    path: &Path,
    recognizer: &dyn Recognizer,
    progress: &mut dyn FnMut(Progress),
) -> Result<Transcript, HearError> {
    recognizer.hear(path, progress)
}

/// Drafts the scope of what was said.
pub fn draft(transcript: &Transcript, grammar: &Grammar) -> Draft {
    drafting::draft(transcript, grammar)
}

/// The words on paper.
pub fn words_on_paper(transcript: &Transcript) -> Vec<Paper> {
    let bytes = [write::json(transcript), write::webvtt(transcript)];
    write::ENDINGS.into_iter().zip(bytes).map(|(ending, bytes)| Paper { ending, bytes }).collect()
}

/// The draft on paper.
pub fn draft_on_paper(draft: &Draft) -> Vec<Paper> {
    drafted::ENDINGS
        .into_iter()
        .zip(drafted::papers(draft))
        .map(|(ending, bytes)| Paper { ending, bytes })
        .collect()
}
