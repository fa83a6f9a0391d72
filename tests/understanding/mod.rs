//! Understanding: from words to lines, without any sound.

mod accepted;
mod assignment;
mod breaths;
mod grammars;
mod heard;
mod mishearings;
mod narrations;
mod numbers;
mod outside;
mod properties;
pub mod scoring;
mod second_hearing;
mod sentences;
mod units;
