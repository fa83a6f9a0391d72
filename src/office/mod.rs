//! The office at work: what is kept, a day's recordings, many machines, the review page.

#[cfg(feature = "store")]
pub mod store;

#[cfg(feature = "papers")]
pub mod labels;

#[cfg(feature = "server")]
pub mod day;

#[cfg(feature = "pool")]
pub mod pool;

#[cfg(feature = "server")]
pub mod retry;

#[cfg(feature = "server")]
pub mod server;
