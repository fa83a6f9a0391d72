//! From words to what was understood: rules, tokens, numbers, phrases, mentions, and who and where the talk is.
//!
//! Takes a transcript and the rules of `grammars/`. Nothing here knows whether the words came from sound, and nothing
//! from `tokens` on can fail: the outcome is a value with its doubts. Each of these rooms knows only those before it;
//! [`pieces::find`] runs all up to the mentions.

pub mod phonetics;

pub mod vocabulary;

pub mod tokens;

pub mod rules;

pub mod numbers;

pub mod phrases;

pub mod asr_correction;

pub mod punctuation;

pub mod mentions;

pub mod pieces;

pub mod discourse;

pub mod reader;

pub mod trial;

#[cfg(test)]
mod tests;
