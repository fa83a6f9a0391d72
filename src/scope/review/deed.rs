//! What a person can do with a scope.

use crate::model::{Shape, Side, Unit, Work};
use crate::scope::questions::With;
use serde::{Deserialize, Serialize};

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "do", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Deed {
    /// The lines are right as they stand.
    Accept {
        /// Which.
        lines: Vec<String>,
    },
    /// Some fields of a line are otherwise.
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
        /// The parts: what is otherwise in each.
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
    /// The condition of a line holds.
    Confirm {
        /// Which.
        line: String,
    },
    /// The condition of a line doesn't hold.
    Refuse {
        /// Which.
        line: String,
    },
    /// A tape was run.
    Tape {
        /// Which.
        todo: String,
        /// The line whose quantity it is.
        #[serde(default)]
        line: Option<String>,
        /// What it measured, as typed.
        measure: String,
    },
    /// A face was measured, or what was said of it is wrong.
    Measure {
        /// Which face.
        face: FaceName,
        /// What was measured.
        measures: Measures,
    },
    /// A photo was taken, a tape run, a thing looked into.
    Done {
        /// Which.
        todo: String,
    },
    /// It wasn't, after all.
    NotDone {
        /// Which.
        todo: String,
    },
    /// A question about the house is answered.
    Answer {
        /// Which.
        question: String,
        /// What with.
        with: With,
    },
    // The braces make serde refuse fields that these don't have.
    /// The scope is settled.
    Settle {},
    /// It isn't, after all.
    Reopen {},
    /// The last act of this person is taken back.
    Undo {},
    /// The act that was taken back last is done again.
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

/// Which face of a structure is meant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FaceName {
    /// On which structure.
    pub structure: String,
    /// On which side.
    pub side: Side,
    /// What it is; an opening is measured by the size of its line.
    pub shape: Shape,
    /// Which of this shape on this side, from 1.
    pub number: usize,
}

/// Measures of a face as a person types them; what is left out stays as it is, what is empty is taken away.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measures {
    /// Its width; of a roof slope along the eave, of a hip or valley the run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<String>,
    /// Its height; of a roof slope up the rafter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<String>,
    /// Inches of rise in twelve of run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rise: Option<String>,
}

impl Deed {
    /// The lines and tasks that it touches, as far as it names them.
    pub fn touches(&self) -> Vec<&str> {
        match self {
            Deed::Accept { lines }
            | Deed::Drop { lines, .. }
            | Deed::Merge { lines }
            | Deed::Move { lines, .. } => lines.iter().map(String::as_str).collect(),
            Deed::Change { line, .. }
            | Deed::ReadAs { line, .. }
            | Deed::Split { line, .. }
            | Deed::Confirm { line }
            | Deed::Refuse { line } => vec![line],
            Deed::Tape { todo, line, .. } => {
                [Some(todo), line.as_ref()].into_iter().flatten().map(String::as_str).collect()
            }
            Deed::Done { todo } | Deed::NotDone { todo } => vec![todo],
            Deed::Add { .. }
            | Deed::Measure { .. }
            | Deed::Answer { .. }
            | Deed::Settle {}
            | Deed::Reopen {}
            | Deed::Undo {}
            | Deed::Redo {} => Vec::new(),
        }
    }
}
