//! Documents: a draft on paper.
//!
//! Takes a [`Draft`] and gives the bytes of a document. It adds nothing, leaves nothing out, never touches a file,
//! and the same draft always gives the same bytes.

mod html;
mod json;

pub(crate) use html::head;
pub use html::{Html, MARK};
pub use json::Json;

use crate::model::Draft;

/// A kind of document.
pub trait Format: Sync {
    /// What follows the recording's name in the document's file name.
    fn ending(&self) -> &'static str;

    /// The document's bytes.
    fn render(&self, draft: &Draft) -> Vec<u8>;
}

/// Every kind of document that a draft is written as.
pub const FORMATS: [&dyn Format; 2] = [&Json, &Html];
