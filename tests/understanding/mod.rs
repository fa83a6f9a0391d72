//! Understanding: from words to lines, without any sound.

mod grammars;
mod narrations;
mod numbers;
mod outside;
mod properties;
pub mod scoring;
mod units;
