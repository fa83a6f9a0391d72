//! Eavesdraft turns a spoken walk-around of a storm-damaged house into a draft scope of work. It hears the recording,
//! understands what was said of which thing on which side of the house, and writes a line for each, with the words that it
//! came from and a flag wherever a person should look. People review the draft on a page, sign it, and send it out on
//! paper; all of it runs on the office's own machines.
//!
//! The way from a recording to paper, room by room:
//!
//! 1. [`model`]: the vocabulary of all rooms: a line, its side, unit, work and flags, a draft, and how each is worded.
//! 2. [`speech`]: a recording, or stored words, becomes a transcript: words with times and the recognizer's doubt.
//! 3. [`language`]: the transcript is cut into tokens and read by the rules in `grammars/`; what was said is followed from
//!    sentence to sentence, until it is known which thing, where, how many and what to do.
//! 4. [`scope`]: what is known becomes the draft; it is asked about, measured up, reviewed, and held beside another list.
//! 5. [`output`]: a scope becomes bytes: a page, a PDF, a workbook, a table.
//! 6. [`pipeline`]: the way through all of these, a function a stage.
//! 7. [`office`]: what is kept in the folder's database, a day's recordings in one go, hearing on many machines, and the
//!    server of the review page.
//! 8. [`cli`]: the commands, and what the terminal shows.
//!
//! Each room knows only those before it; a test holds that.
//!
//! ```
//! use eavesdraft::language::rules::Grammar;
//! use eavesdraft::model::{Side, Work};
//! use eavesdraft::pipeline;
//! use eavesdraft::speech::Transcript;
//!
//! let said = Transcript::from_plain("On the front, detach and reset two coach lights.");
//! let draft = pipeline::draft(&said, &Grammar::built_in()?);
//!
//! let line = &draft.lines[0];
//! assert_eq!(line.said, "coach lights");
//! assert_eq!(line.item.as_deref(), Some("light-fixture"));
//! assert_eq!(line.quantity.map(|quantity| quantity.value().decimal()), Some(2.0));
//! assert_eq!(line.work, Some(Work::DetachReset));
//! assert_eq!(line.side, Side::Front);
//! # Ok::<(), eavesdraft::language::rules::GrammarError>(())
//! ```

pub mod model;

pub mod speech;

pub mod language;

pub mod scope;

pub mod output;

pub mod pipeline;

pub mod office;

pub mod cli;
