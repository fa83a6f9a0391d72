//! All tests that see the crate from outside, in one binary.
//!
//! Where a new test goes: a test of one function stands in its own file under `src/`, below the code. Here go tests
//! of a whole stage, in the order data flows: files of sound in `sound`, what words are taken to mean in
//! `understanding`, sound heard with the real model in `hearing`, what documents show in `documents`, a scope
//! beside another party's list in `compare`, what people do with a draft in `review`, questions about the whole house in `questions`, the same over HTTP in `server` and on the page
//! in `browser`, what the program does with files and arguments in `cli`, recordings that several machines hear in
//! `pool`. What tests share is in `harness`.

// A test may unwrap: its failure is the message. It may print: what it measured, and why it was skipped.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod sound;

mod understanding;

#[cfg(feature = "whisper")]
mod hearing;

mod day;
mod documents;
mod questions;

mod compare;

mod review;

mod papers;
mod server;
mod takeoff;

mod browser;

mod cli;

mod pool;

mod harness;
