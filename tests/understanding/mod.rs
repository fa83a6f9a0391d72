//! Understanding: from words to lines, without any sound.

mod accepted;
mod asr_correction;
mod assignment;
mod grammars;
mod heard;
mod judged;
mod narrations;
mod numbers;
mod outside;
mod properties;
mod punctuation;
pub mod scoring;
mod second_hearing;
mod sentences;
mod units;
