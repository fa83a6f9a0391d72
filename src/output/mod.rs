//! Papers: what leaves the office.
//!
//! Takes a draft, or a scope as it stands with what its measurements come to, and gives the bytes of papers: pages to read
//! and to print, a workbook, plain tables, the list for the rep. They add nothing, and the same scope always gives the
//! same bytes.
//!
//! A paper that people read is first a [`page::Page`], and then drawn: as [`html`], as `pdf` or as [`text`] for a
//! terminal. No drawer knows what a draft is, and no paper how it is drawn.

pub mod page;

pub mod html;
#[cfg(feature = "papers")]
pub mod pdf;
pub mod text;

pub mod parts;

#[cfg(feature = "compare")]
pub mod comparison;
pub mod draft;
#[cfg(feature = "papers")]
pub mod field_list;
pub mod heard;
#[cfg(feature = "papers")]
pub mod scope;

#[cfg(feature = "papers")]
pub mod chapters;
pub mod files;
#[cfg(feature = "papers")]
mod job;
#[cfg(feature = "papers")]
mod kind;
#[cfg(feature = "papers")]
pub mod photos;
#[cfg(feature = "papers")]
pub mod prices;
#[cfg(feature = "papers")]
pub mod record;
#[cfg(feature = "papers")]
pub mod rows;
#[cfg(feature = "papers")]
pub mod sums;
#[cfg(feature = "papers")]
pub mod table;
#[cfg(feature = "papers")]
mod unreadable;
#[cfg(feature = "papers")]
pub mod workbook;

#[cfg(feature = "papers")]
pub use job::Job;
#[cfg(feature = "papers")]
pub use kind::{KINDS, Kind};
#[cfg(feature = "papers")]
pub use scope::Beside;
#[cfg(feature = "papers")]
pub use unreadable::Unreadable;
