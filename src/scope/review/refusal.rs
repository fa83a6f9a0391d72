//! Why a command is refused.

use super::scope::Entry;
use super::sign_off::SignOff;
use crate::model::wording::count;

/// Why a command is refused; nothing changed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// Somebody changed the line after the person last saw it.
    #[error("{} changed this line in the meantime: look at it again, then decide", by(.now))]
    LineChanged {
        /// Which.
        id: String,
        /// As it is now; none where it is gone.
        now: Option<Box<Entry>>,
        /// As the person would have it; none where that can't be told.
        wanted: Option<Box<Entry>>,
    },
    /// Somebody changed the photo, measurement or check after the person last saw it.
    #[error("somebody changed this in the meantime: look at it again, then decide")]
    FollowUpChanged {
        /// Which.
        id: String,
    },
    /// Somebody measured it after the person last saw it.
    #[error("somebody changed this measurement in the meantime: look at it again, then decide")]
    DimensionChanged {
        /// Which.
        id: String,
    },
    /// No line, photo, measurement or check has this id.
    #[error("there is no “{0}” in this scope")]
    Unknown(String),
    /// The question was answered, or what it asked about was changed.
    #[error("this question is no longer open: look at the lines as they are now")]
    NotAsked,
    /// The scope is signed off.
    #[error("{} signed this scope off on {}: reopen it to make changes", .0.who, .0.at.get(..10).unwrap_or(&.0.at))]
    SignedOff(SignOff),
    /// Lines are still flagged.
    #[error("{}", count(*.0, "line still needs review", "lines still need review"))]
    StillFlagged(usize),
    /// A value can't be understood.
    #[error("{message}")]
    NotUnderstood {
        /// The field.
        field: &'static str,
        /// What is wrong with it.
        message: String,
    },
    /// What is asked for can't be done as things are.
    #[error("{0}")]
    Invalid(String),
    /// Nothing is there to be undone or redone.
    #[error("{who} has nothing to {what}")]
    NothingTo {
        /// Who asked.
        who: String,
        /// What for.
        what: &'static str,
    },
}

impl Refusal {
    /// The same refusal of a value that was typed into another field.
    pub(super) fn of_field(self, field: &'static str) -> Self {
        match self {
            Refusal::NotUnderstood { message, .. } => Refusal::NotUnderstood { field, message },
            other => other,
        }
    }
}

fn by(now: &Option<Box<Entry>>) -> &str {
    now.as_ref().and_then(|entry| entry.by.as_deref()).unwrap_or("somebody")
}
