//! Reviewing: what people do to a draft until they can sign it off.
//!
//! Takes a draft, the events so far and a command, and gives the event that carries it out or says why not. The draft
//! as drafted is never changed: what stands now is the draft with all events applied. Pure; keeping events is the
//! business of `store`, showing them of `server`.
//!
//! `command` tells what can be asked for and `context` which part does it; each part (`lines`, `split_merge`, `add`,
//! `follow_ups`, `dimensions`, `answers`, `sign_off`, `undo`) gives the changes that make up the event.

mod add;
mod answers;
mod choices;
mod command;
mod context;
mod dimensions;
mod event;
mod fields;
mod follow_ups;
mod from_takeoff;
mod lines;
mod progress;
mod question_view;
mod redraft;
mod refusal;
mod scope;
mod sign_off;
mod split_merge;
mod stale;
mod summary;
pub mod typed;
mod undo;
pub mod view;

pub use choices::{Choice, choices};
pub use command::{Command, DimensionName, Fields, Measurements};
pub use context::{Actor, ReviewContext, Seen};
pub use dimensions::dimension_versions;
pub use event::{Change, Event, Stack};
pub use progress::ReviewProgress;
pub use question_view::{MissingView, QuestionView};
pub use redraft::{Stray, scope_and_strays};
pub use refusal::Refusal;
pub use scope::{Done, Entry, FollowUpEntry, LineState, Scope};
pub use sign_off::SignOff;
