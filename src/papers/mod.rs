//! Papers: what leaves the office.
//!
//! Takes a scope as it stands, with what its measures come to, and gives the bytes of papers: the scope to read and to
//! print, a workbook, plain tables, the list for the rep. They add nothing, and the same scope always gives the same
//! bytes.

pub mod field_list;
pub mod html;
mod job;
mod kind;
mod page;
pub mod pdf;
mod plan;
pub mod scope;
pub mod sums;

pub use job::Job;
pub use kind::{KINDS, Kind};
pub use page::{Block, Column, Drawing, Entry, Group, Label, Page, Row, Section, Table};
