//! Why an act is refused.

use super::scope::{Done, Entry};

/// Why an act is refused; nothing changed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// Somebody changed the line after the person last saw it.
    #[error("this line was changed meanwhile{}: look at it as it is now, then decide again", by(.now))]
    LineChanged {
        /// Which.
        id: String,
        /// As it is now; none where it is gone.
        now: Option<Box<Entry>>,
        /// As the person would have it; none where that can't be told.
        wanted: Option<Box<Entry>>,
    },
    /// Somebody changed the photo, tape or check after the person last saw it.
    #[error("this was changed meanwhile: look at it as it is now, then decide again")]
    TaskChanged {
        /// Which.
        id: String,
    },
    /// Somebody measured the face after the person last saw it.
    #[error("this face was measured meanwhile: look at it as it is now, then decide again")]
    FaceChanged {
        /// Which.
        id: String,
    },
    /// No line, photo, tape or check has this id.
    #[error("there is no “{0}” in this scope")]
    Unknown(String),
    /// The question was answered, or what it asked about was changed.
    #[error("this question isn't asked any more: look at what stands now")]
    NotAsked,
    /// The scope is settled.
    #[error("{} settled this scope on {}: reopen it to change it", .0.who, .0.at.get(..10).unwrap_or(&.0.at))]
    Settled(Done),
    /// Lines still need a look.
    #[error("{}: settle them first", crate::model::wording::count(*.0, "line still needs a look", "lines still need a look"))]
    StillOpen(usize),
    /// A value can't be understood.
    #[error("{message}")]
    NotUnderstood {
        /// The field.
        field: &'static str,
        /// What is wrong with it.
        message: String,
    },
    /// What is asked for makes no sense as it is.
    #[error("{0}")]
    Senseless(String),
    /// Nothing is there to be undone or done again.
    #[error("there is nothing of {who}'s to {deed}")]
    Nothing {
        /// Who asked.
        who: String,
        /// What for.
        deed: &'static str,
    },
}

fn by(now: &Option<Box<Entry>>) -> String {
    let who = now.as_ref().and_then(|entry| entry.by.as_deref());
    who.map(|who| format!(" by {who}")).unwrap_or_default()
}
