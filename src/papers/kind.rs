//! The kinds of paper, and how each is made.

use super::prices::Priced;
use super::{Job, Section, chapters, field_list, html, pdf, record, scope, table, workbook};
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
    /// A workbook with live formulas.
    Workbook,
    /// The lines as comma-separated values.
    Table,
    /// All of it for other programs, as JSON.
    Record,
    /// Where in the recording each side is spoken of, as WebVTT.
    Chapters,
}

/// All kinds, in the order in which they are told.
pub const KINDS: [Kind; 7] =
    [Kind::Pdf, Kind::Html, Kind::FieldList, Kind::Workbook, Kind::Table, Kind::Record, Kind::Chapters];

/// What stands beside a scope on its papers.
#[derive(Debug, Default)]
pub struct Beside {
    /// What it costs by the office's own price list.
    pub priced: Option<Priced>,
    /// The photos.
    pub photos: Option<Section>,
}

impl Kind {
    /// What follows the recording's name in the paper's file name.
    pub fn ending(self) -> &'static str {
        match self {
            Self::Pdf => "work.pdf",
            Self::Html => "work.html",
            Self::FieldList => "field.html",
            Self::Workbook => "work.xlsx",
            Self::Table => "work.csv",
            Self::Record => "work.json",
            Self::Chapters => "sides.vtt",
        }
    }

    /// The paper of a job; none where there is nothing to write on it, as there are no chapters of a text.
    ///
    /// # Errors
    /// Where it can't be made of this one.
    pub fn paper(self, job: &Job, beside: &Beside) -> anyhow::Result<Option<Paper>> {
        let page = || scope::page(job, beside);
        let bytes = match self {
            Self::Pdf => Some(pdf::pdf(&page())?),
            Self::Html => Some(html::html(&page())),
            Self::FieldList => Some(html::html(&field_list::page(job))),
            Self::Workbook => Some(workbook::bytes(job, beside.priced.as_ref())?),
            Self::Table => Some(table::bytes(job)),
            Self::Record => Some(record::bytes(job)),
            Self::Chapters => chapters::bytes(job),
        };
        Ok(bytes.map(|bytes| Paper { ending: self.ending(), bytes }))
    }
}
