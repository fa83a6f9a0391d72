//! Eavesdraft turns a spoken walk-around of a house into a draft scope of work.

pub mod model;

pub mod speech;

pub mod language;

pub mod scope;

pub mod output;

pub mod pipeline;

pub mod office;

pub mod cli;
