//! A day's recordings in one go: everything new or changed in a folder is heard, drafted, put into the folder's store
//! and written beside its recording.
//!
//! `find` and `visits` tell what there is, `plan` what is to be done with it, `work` does it with several at once, and
//! `run` goes through all of that and tells what comes of it, event by event. Nothing is done twice: words are kept by
//! the digests of recording and recognizer, drafts by those of words, rules and program. Each step is kept whole or not at
//! all, so a run that was ended at any moment goes on where it was.

mod event;
mod failure;
mod find;
mod lock;
mod outcome;
mod page;
mod plan;
mod run;
mod still;
mod visits;
mod watch;
mod work;

pub use event::{Event, Row, Skipped, Tally};
pub use find::{FoundFile, Stamp, find, may_be_one};
pub use lock::Lock;
pub use outcome::DayOutcome;
pub use page::{NAME as PAGE_NAME, page};
pub use run::{Day, Load, Memory, Rules, run};
pub use visits::{Visit, VisitBy, visits};
pub use watch::watch;
