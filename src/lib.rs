//! Eavesdraft turns a spoken walk-around of a house into a draft scope of work.

pub mod span;

pub mod digest;

pub mod phonetics;

pub mod grammar;

pub mod sound;

pub mod words;

pub mod tokens;

pub mod mishearing;

pub mod breaths;

pub mod numbers;

pub mod mentions;

pub mod narration;

pub mod draft;

pub mod documents;

pub mod checks;

pub mod review;

pub mod takeoff;

pub mod papers;

pub mod compare;

pub mod store;

pub mod server;

pub mod filing;

pub mod day;

pub mod terminal;

pub mod pipeline;

pub mod pool;

pub mod cli;
