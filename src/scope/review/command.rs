//! What a person can do with a scope.

use crate::model::{Shape, Side, Unit, Work};
use crate::scope::questions::With;
use serde::{Deserialize, Serialize};

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "do", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Command {
    /// The lines are right as they stand.
    Accept {
        /// Which.
        lines: Vec<String>,
    },
    /// Some fields of a line are different.
    Change {
        /// Which.
        line: String,
        /// The fields as typed.
        fields: Fields,
    },
    /// A line is read as one of its other readings has it.
    ReadAs {
        /// Which.
        line: String,
        /// Which reading, from 0.
        reading: usize,
    },
    /// The lines are no part of the scope.
    Drop {
        /// Which.
        lines: Vec<String>,
        /// Why.
        reason: String,
    },
    /// One line is several.
    Split {
        /// Which.
        line: String,
        /// The parts: what is different in each.
        parts: Vec<Fields>,
    },
    /// Several lines are the same thing, said more than once: the first stays.
    Merge {
        /// Which.
        lines: Vec<String>,
    },
    /// A line that the draft lacks.
    Add {
        /// The first and the last word of the transcript it comes from.
        words: Option<[u32; 2]>,
        /// Its fields; what is left out is drafted from the words.
        fields: Fields,
    },
    /// The lines stand elsewhere.
    Move {
        /// Which.
        lines: Vec<String>,
        /// Where.
        side: Side,
        /// On which structure; where it is left out, on the one they are on.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        structure: Option<String>,
    },
    /// The condition of a line is met.
    Include {
        /// Which.
        line: String,
    },
    /// The condition of a line isn't met.
    LeaveOut {
        /// Which.
        line: String,
    },
    /// What was still to be measured was measured.
    EnterMeasurement {
        /// Which follow-up.
        follow_up: String,
        /// The line whose quantity it is.
        #[serde(default)]
        line: Option<String>,
        /// The measurement, as typed.
        measurement: String,
    },
    /// A wall, gable or slope was measured, or what was said of it is wrong.
    SetDimension {
        /// Which.
        dimension: DimensionName,
        /// What was measured.
        measurements: Measurements,
    },
    /// A photo was taken, something measured or checked.
    Done {
        /// Which follow-up.
        follow_up: String,
    },
    /// It wasn't, after all.
    NotDone {
        /// Which follow-up.
        follow_up: String,
    },
    /// A question about the house is answered.
    Answer {
        /// Which.
        question: String,
        /// What with.
        with: With,
    },
    // The braces make serde refuse fields that these don't have.
    /// The scope is signed off.
    SignOff {},
    /// It isn't, after all.
    Reopen {},
    /// The last event of this person is undone.
    Undo {},
    /// The event that was undone last is redone.
    Redo {},
}

/// Fields of a line as a person types them; what is left out stays as it is, what is empty is taken away.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fields {
    /// A number, a length, a range: `12`, `6' 6"`, `12-14 ft`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub quantity: Option<String>,
    /// What it counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<Unit>,
    /// A name or an id from the catalogue, or words of one's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub item: Option<String>,
    /// What is to be done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub work: Option<Work>,
    /// Where.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// On which structure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub structure: Option<String>,
    /// How large each is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<String>,
    /// Material and style.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub detail: Option<String>,
}

/// Which wall, gable or slope of a structure is meant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DimensionName {
    /// On which structure.
    pub structure: String,
    /// On which side.
    pub side: Side,
    /// What it is; an opening is measured by the size of its line.
    pub shape: Shape,
    /// Which of this shape on this side, from 1.
    pub number: usize,
}

/// Measurements as a person types them; what is left out stays as it is, what is empty is taken away.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measurements {
    /// Its width; of a roof slope along the eave, of a hip or valley the run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<String>,
    /// Its height; of a roof slope up the rafter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<String>,
    /// Inches of rise in twelve of run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slope: Option<String>,
}

impl Command {
    /// The lines and follow-ups that it touches, as far as it names them.
    pub fn touches(&self) -> Vec<&str> {
        match self {
            Command::Accept { lines }
            | Command::Drop { lines, .. }
            | Command::Merge { lines }
            | Command::Move { lines, .. } => lines.iter().map(String::as_str).collect(),
            Command::Change { line, .. }
            | Command::ReadAs { line, .. }
            | Command::Split { line, .. }
            | Command::Include { line }
            | Command::LeaveOut { line } => vec![line],
            Command::EnterMeasurement { follow_up, line, .. } => {
                [Some(follow_up), line.as_ref()].into_iter().flatten().map(String::as_str).collect()
            }
            Command::Done { follow_up } | Command::NotDone { follow_up } => vec![follow_up],
            Command::Add { .. }
            | Command::SetDimension { .. }
            | Command::Answer { .. }
            | Command::SignOff {}
            | Command::Reopen {}
            | Command::Undo {}
            | Command::Redo {} => Vec::new(),
        }
    }
}
