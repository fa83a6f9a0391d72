//! The record: everything that is known of a scope, as JSON for other programs, in a published form.
//!
//! `scope.schema.json` tells the form as JSON Schema (draft 2020-12). Its number goes up when a field is added, is taken
//! away or means something else. Records of the first form are read too: they lack the fractions that stand beside
//! numbers which three decimals can't hold.

mod figures;
mod lines;

pub use figures::{RecordFigure, RecordInput, RecordSum, RecordTakeoff};
pub use lines::{RecordEvent, RecordLine, RecordLines, RecordState};

use super::job::Job;
use super::parts::closing;
use crate::model::span::Moment;
use crate::model::{Caution, Cleared, Clip, Dimension, Measured, Slope};
use crate::scope::review::{FollowUpEntry, SignOff};
use serde::{Deserialize, Serialize};

/// The form's name and number.
pub const FORM: &str = "eavesdraft-scope/2";

/// The forms that are read: this one, and the first, which says less.
const READ: [&str; 2] = ["eavesdraft-scope/1", FORM];

/// The JSON Schema of the form.
pub const SCHEMA: &str = include_str!("../scope.schema.json");

/// A scope with all that stands beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// The form: [`FORM`].
    pub form: String,
    /// What the paper is called: a draft, until it is settled.
    pub kind: String,
    /// The property.
    pub property: String,
    /// The recording or text it comes from.
    pub source: String,
    /// SHA-256 of that file, in hexadecimal.
    pub digest: Option<String>,
    /// Length of the recording, in seconds.
    pub length: Option<Moment>,
    /// The clips of the visit, where there were several.
    pub clips: Vec<Clip>,
    /// What a person should know about the reading.
    pub notices: Vec<String>,
    /// Who settled it, and when.
    pub settled: Option<SignOff>,
    /// What keeps it a draft.
    pub open: Vec<String>,
    /// The lines.
    #[serde(flatten)]
    pub lines: RecordLines,
    /// Things looked at and cleared, or left alone.
    pub no_work: Vec<Cleared>,
    /// Things named in passing.
    pub mentioned: Vec<Cleared>,
    /// Said, and not used.
    pub unplaced: Vec<Cleared>,
    /// Photos, measurements and checks, done or not.
    pub follow_ups: Vec<FollowUpEntry>,
    /// What was measured.
    pub dimensions: Vec<Dimension>,
    /// How steep the roof was said to be.
    pub slopes: Vec<Slope>,
    /// What people measured in the review, in the place of what was said.
    pub measured: Vec<Measured>,
    /// What the measures come to.
    pub takeoff: RecordTakeoff,
    /// How much of each thing with each work.
    pub sums: Vec<RecordSum>,
    /// The cautions that the work calls for.
    pub cautions: Vec<Caution>,
    /// What people did.
    pub history: Vec<RecordEvent>,
    /// What every paper says at its end.
    pub closing: Vec<String>,
}

impl Record {
    /// The record of a job.
    pub fn of(job: &Job) -> Self {
        let now = job.now.clone();
        Self {
            form: FORM.to_owned(),
            kind: job.kind().to_owned(),
            property: job.property().to_owned(),
            source: now.source,
            digest: now.digest,
            length: now.length,
            clips: now.clips,
            notices: now.notices,
            settled: job.scope.signed_off.clone(),
            open: job.open(),
            lines: RecordLines::of(job),
            no_work: now.no_work,
            mentioned: now.mentioned,
            unplaced: now.unplaced,
            follow_ups: job.scope.follow_ups.clone(),
            dimensions: now.dimensions,
            slopes: now.slopes,
            measured: now.measured,
            takeoff: RecordTakeoff::of(job),
            sums: figures::sums(job),
            cautions: now.cautions,
            history: job.events.iter().map(RecordEvent::of).collect(),
            closing: closing(),
        }
    }
}

/// The record as JSON: a field a line, closed by a line end.
pub fn bytes(job: &Job) -> Vec<u8> {
    // Plain fields with text keys: there is nothing in them that JSON can't hold.
    let mut bytes = serde_json::to_vec_pretty(&Record::of(job)).unwrap_or_default();
    bytes.push(b'\n');
    bytes
}

/// A record that can't be read.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    /// It is no JSON, or not of this form.
    #[error("`{file}` is no record of a scope ({why}): write it anew")]
    NotOne {
        /// The file, as it was named.
        file: String,
        /// What is wrong, with line and column.
        why: serde_json::Error,
    },
    /// It is of another form.
    #[error("`{file}` is of the form “{form}”, and this program reads {FORM}: use the program that wrote it")]
    Other {
        /// The file, as it was named.
        file: String,
        /// Its form.
        form: String,
    },
}

/// Reads what [`bytes`] wrote; `file` is what it is called in an error.
///
/// # Errors
/// Anything that isn't a record of this form.
pub fn read(file: &str, bytes: &[u8]) -> Result<Record, RecordError> {
    let not_one = |why| RecordError::NotOne { file: file.to_owned(), why };
    let record: Record = serde_json::from_slice(bytes).map_err(not_one)?;
    match READ.contains(&record.form.as_str()) {
        true => Ok(record),
        false => Err(RecordError::Other { file: file.to_owned(), form: record.form }),
    }
}
