//! What leaves the office.

use super::{BESIDE, PAPERS, PhotoArgs, RULES};
use crate::output::prices::Percent;
use crate::output::{KINDS, Kind};
use clap::{ValueEnum, ValueHint};
use std::path::PathBuf;

/// The examples that close its help.
const EXAMPLES: &str = "\
Examples:
  eavesdraft papers monday/                            of all that is drafted there
  eavesdraft papers walk.m4a --only pdf,field          of one recording, two kinds
  eavesdraft papers monday/ --out letters/             written elsewhere, in the same folders
  eavesdraft papers walk.m4a --photos pictures/        with the photos, where they belong
  eavesdraft papers walk.m4a --prices ours.csv --percent overhead=8 --percent profit=12

Exit codes:
  0 written; 1 with --strict, while a scope is still a draft; 2 the papers of a scope could not be written";

/// Make the documents that leave the office: the scope to send, a workbook, tables, the rep's list
///
/// Takes scopes as they stand, with what was decided in the review if the folder has a store. A scope that isn't signed
/// off says DRAFT and lists what is open. Beside each draft it writes NAME.work.pdf and NAME.work.html (the scope with its
/// takeoff, totals, photos and measurements still needed, and cautions), NAME.field.html (the rep's list), NAME.work.xlsx,
/// NAME.work.csv, NAME.work.json and NAME.sides.vtt (chapters by side).
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct PapersArgs {
    /// A folder with drafts, or a drafted recording
    #[arg(value_name = "FOLDER or FILE", default_value = ".", value_hint = ValueHint::AnyPath)]
    pub target: PathBuf,

    /// Write the files into DIR, in the same folders as in FOLDER, not beside the drafts
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = PAPERS)]
    pub out: Option<PathBuf>,

    /// Write these kinds only; without it all of them
    #[arg(long, value_name = "KIND", value_enum, value_delimiter = ',', help_heading = PAPERS)]
    pub only: Vec<KindArg>,

    /// Exit with 1 while a scope is still a draft
    #[arg(long, help_heading = PAPERS)]
    pub strict: bool,

    /// Print the JSON Schema of NAME.work.json, and write nothing
    #[arg(long, exclusive = true, help_heading = PAPERS)]
    pub schema: bool,

    /// Extend the totals with your own prices from this CSV: columns item, work, unit, price
    ///
    /// What has no price is listed and counts for nothing.
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath, help_heading = BESIDE)]
    pub prices: Option<PathBuf>,

    /// Add a percentage of the total: overhead=8; of everything above it with :compound, as in tax=6.5:compound
    #[arg(long, value_name = "NAME=PERCENT", requires = "prices", help_heading = BESIDE)]
    pub percent: Vec<Percent>,

    #[command(flatten)]
    pub photos: PhotoArgs,

    /// Print where each photo was taken, too
    #[arg(long, requires = "photos", help_heading = BESIDE)]
    pub with_location: bool,

    /// Lay the rules in DIR over the built-in ones
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = RULES)]
    pub grammar: Option<PathBuf>,
}

impl PapersArgs {
    /// The kinds that are asked for.
    pub fn kinds(&self) -> Vec<Kind> {
        if self.only.is_empty() {
            KINDS.to_vec()
        } else {
            self.only.iter().map(|kind| (*kind).into()).collect()
        }
    }
}

/// A kind of paper.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(in crate::cli) enum KindArg {
    /// The scope as PDF
    Pdf,
    /// The scope as a page for a browser
    Html,
    /// The rep's list: photos, measurements and checks still needed
    Field,
    /// A workbook with live formulas
    Xlsx,
    /// The lines as comma-separated values
    Csv,
    /// All of it for other programs
    Json,
    /// Where in the recording each side is spoken of
    Chapters,
}

impl From<KindArg> for Kind {
    fn from(arg: KindArg) -> Self {
        match arg {
            KindArg::Pdf => Kind::Pdf,
            KindArg::Html => Kind::Html,
            KindArg::Field => Kind::FieldList,
            KindArg::Xlsx => Kind::Workbook,
            KindArg::Csv => Kind::Table,
            KindArg::Json => Kind::Record,
            KindArg::Chapters => Kind::Chapters,
        }
    }
}
