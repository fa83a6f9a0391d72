//! All tests that see the crate from outside, in one binary.
//!
//! Where a new test goes: a test of one function stands in its own file under `src/`, below the code. Here go
//! tests of a whole stage, in the order data flows: what the documents show in `documents`, what the program does
//! with files and arguments in `cli`. What they share is in `harness`.

mod documents;
mod harness;
