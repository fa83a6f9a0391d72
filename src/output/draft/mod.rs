//! A draft on paper: as JSON for programs, and as a page for people.
//!
//! It adds nothing, leaves nothing out, and the same draft always gives the same bytes.

mod page;

pub use page::page;

use super::html::html;
use super::parts::Depth;
use crate::model::Draft;

/// What follows the recording's name in the names of a draft's two files.
pub const ENDINGS: [&str; 2] = ["scope.json", "scope.html"];

/// The bytes of the two files, in that order.
pub fn papers(draft: &Draft) -> [Vec<u8>; 2] {
    [json(draft), html(&page(draft, Depth::Words))]
}

/// The draft as JSON: a field a line, closed by a line end.
pub fn json(draft: &Draft) -> Vec<u8> {
    // Plain fields with text keys: there is nothing in them that JSON can't hold.
    let mut bytes = serde_json::to_vec_pretty(draft).unwrap_or_default();
    bytes.push(b'\n');
    bytes
}
