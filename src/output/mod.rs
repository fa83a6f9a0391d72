//! Papers: what leaves the office.
//!
//! Takes a scope as it stands, with what its measures come to, and gives the bytes of papers: the scope to read and to
//! print, a workbook, plain tables, the list for the rep. They add nothing, and the same scope always gives the same
//! bytes.

pub mod chapters;
pub mod comparison;
pub mod documents;
pub mod field_list;
pub mod files;
pub mod html;
mod job;
mod kind;
mod page;
pub mod pdf;
pub mod photos;
mod plan;
pub mod prices;
pub mod record;
pub mod rows;
pub mod scope;
pub mod sums;
pub mod table;
mod unreadable;
pub mod workbook;

pub use job::Job;
pub use kind::{Beside, KINDS, Kind};
pub use page::{Block, Column, Drawing, Entry, Group, Label, Page, Picture, Row, Section, Table};
pub use unreadable::Unreadable;
