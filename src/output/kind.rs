//! The kinds of paper, and how each is made.

use super::scope::Beside;
use super::{Job, chapters, field_list, html, pdf, record, scope, table, workbook};
use crate::model::Draft;
use crate::output::files::Paper;

/// A kind of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// The scope to send and to print, as PDF.
    Pdf,
    /// The same for a browser.
    Html,
    /// What the rep still has to photograph, measure and check.
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

    /// What it is, to choose it by.
    pub fn says(self) -> &'static str {
        match self {
            Self::Pdf => "Scope of work, to send or print (PDF)",
            Self::Html => "Scope of work, for a browser",
            Self::FieldList => "Field list: photos and measurements still needed",
            Self::Workbook => "Workbook with formulas (XLSX)",
            Self::Table => "Lines, for a spreadsheet (CSV)",
            Self::Record => "Everything, for other programs (JSON)",
            Self::Chapters => "Chapters by side, for a player (WebVTT)",
        }
    }

    /// Its media type.
    pub fn media(self) -> &'static str {
        match self {
            Self::Pdf => "application/pdf",
            Self::Html | Self::FieldList => "text/html; charset=utf-8",
            Self::Workbook => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
            Self::Table => "text/csv; charset=utf-8",
            Self::Record => "application/json",
            Self::Chapters => "text/vtt; charset=utf-8",
        }
    }

    /// Whether a browser shows it; the others are saved.
    pub fn is_shown(self) -> bool {
        matches!(self, Self::Pdf | Self::Html | Self::FieldList)
    }

    /// Whether there is one of a draft: text without times has no chapters.
    pub fn is_made_of(self, draft: &Draft) -> bool {
        self != Self::Chapters || draft.lines.iter().any(|line| line.start.is_some())
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
