//! A comparison with another party's list as a paper: a letter, a page, a table.

mod findings;
mod page;
mod photos;
mod table;

pub use page::page;
pub use photos::name_photos;
pub use table::{TABLE_MARK, table};
