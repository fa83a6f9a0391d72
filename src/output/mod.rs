//! Papers: what leaves the office.
//!
//! Takes a scope as it stands, with what its measures come to, and gives the bytes of papers: the scope to read and to
//! print, a workbook, plain tables, the list for the rep. They add nothing, and the same scope always gives the same
//! bytes.

pub mod documents;
pub mod files;
pub mod html;
mod page;

#[cfg(feature = "compare")]
pub mod comparison;

#[cfg(feature = "papers")]
pub mod chapters;
#[cfg(feature = "papers")]
pub mod field_list;
#[cfg(feature = "papers")]
mod job;
#[cfg(feature = "papers")]
mod kind;
#[cfg(feature = "papers")]
pub mod pdf;
#[cfg(feature = "papers")]
pub mod photos;
#[cfg(feature = "papers")]
mod plan;
#[cfg(feature = "papers")]
pub mod prices;
#[cfg(feature = "papers")]
pub mod record;
#[cfg(feature = "papers")]
pub mod rows;
#[cfg(feature = "papers")]
pub mod scope;
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
pub use kind::{Beside, KINDS, Kind};
pub use page::{Block, Column, Drawing, Entry, Group, Label, Page, Picture, Row, Section, Table};
#[cfg(feature = "papers")]
pub use unreadable::Unreadable;
