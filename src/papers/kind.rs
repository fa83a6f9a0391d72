//! The kinds of paper, and how each is made.

use super::{Job, field_list, html, pdf, scope};
use crate::filing::Paper;

/// A kind of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// The scope to send and to print, as PDF.
    Pdf,
    /// The same for a browser.
    Html,
    /// What the rep still has to photograph, measure and look into.
    FieldList,
}

/// All kinds, in the order in which they are told.
pub const KINDS: [Kind; 3] = [Kind::Pdf, Kind::Html, Kind::FieldList];

impl Kind {
    /// What follows the recording's name in the paper's file name.
    pub fn ending(self) -> &'static str {
        match self {
            Self::Pdf => "work.pdf",
            Self::Html => "work.html",
            Self::FieldList => "field.html",
        }
    }

    /// The paper of a job.
    ///
    /// # Errors
    /// Where it can't be made of this one.
    pub fn paper(self, job: &Job) -> anyhow::Result<Paper> {
        let bytes = match self {
            Self::Pdf => pdf::pdf(&scope::page(job))?,
            Self::Html => html::html(&scope::page(job)),
            Self::FieldList => html::html(&field_list::page(job)),
        };
        Ok(Paper { ending: self.ending(), bytes })
    }
}
