//! All tests that see the crate from outside, in one binary.
//!
//! Where a new test goes: a test of one function stands in its own file under `src/`, below the code. Here go tests
//! of a whole stage, in the order data flows: files of sound in `sound`, what words are taken to mean in
//! `understanding`, sound heard with the real model in `hearing`, what documents show in `documents`, a scope
//! beside another party's list in `compare`, what people do with a draft in `review`, questions about the whole house in
//! `questions`, the same over HTTP in `server` and on the page in `browser`, what the program does with files and
//! arguments in `cli`, recordings that several machines hear in `pool`. What holds for the code as a whole stands in
//! `house`. What tests share is in `harness`.

// A test may unwrap: its failure is the message. It may print: what it measured, and why it was skipped.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod sound;

mod understanding;

#[cfg(feature = "whisper")]
mod hearing;

mod documents;
mod questions;
mod takeoff;

mod review;

#[cfg(feature = "papers")]
mod papers;

#[cfg(feature = "compare")]
mod compare;

#[cfg(feature = "server")]
mod day;
#[cfg(feature = "server")]
mod server;

#[cfg(feature = "server")]
mod browser;

mod cli;

mod house;

#[cfg(feature = "pool")]
mod pool;

mod harness;
