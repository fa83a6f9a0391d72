//! The office at work: what is kept, a day's recordings, many machines, the review page.

pub mod store;

pub mod day;

pub mod pool;

pub mod server;
