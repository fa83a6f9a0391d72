//! Our scope beside another party's list.

use super::{PAPERS, PhotoArgs, RULES};
use crate::model::Side;
use clap::{ValueEnum, ValueHint};
use std::path::PathBuf;

/// The examples that close its help.
const EXAMPLES: &str = "\
Examples:
  eavesdraft compare walk.m4a their-list.csv
  eavesdraft compare walk.scope.json list.xlsx --sheet Exterior
  eavesdraft compare walk.m4a list.csv --save-columns theirs.toml    then adjust it, and next time:
  eavesdraft compare walk.m4a list.csv --columns theirs.toml
  eavesdraft compare walk.m4a list.csv --photos pictures/            with photos of our lines
  eavesdraft compare walk.m4a list.csv --north front                 where they name sides by the compass

Exit codes:
  0 compared; 1 with --strict while anything is missing, short or unclear; 2 it could not be compared";

/// Hold our scope beside another party's list of work
///
/// OURS is a drafted recording, its words, or its NAME.scope.json. If the folder's eavesdraft.sqlite has it, the scope
/// counts as it was reviewed. THEIRS is a list of lines as CSV or XLSX, with whatever columns it has.
///
/// Shows what is missing from their list, where their quantity is short or over, what is only on their list, what is the
/// same, and what isn't clear. Where two lines may or may not be the same it asks, and it says which lines it took
/// together. Writes NAME.compare.pdf (a letter with room for the address), NAME.compare.html and NAME.compare.csv beside
/// OURS.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(in crate::cli) struct CompareArgs {
    /// A drafted recording, or its scope
    #[arg(value_name = "OURS", value_hint = ValueHint::FilePath)]
    pub ours: PathBuf,

    /// The other list: CSV or XLSX
    #[arg(value_name = "THEIRS", value_hint = ValueHint::FilePath)]
    pub theirs: PathBuf,

    /// Write the files into DIR, not beside OURS
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = PAPERS)]
    pub out: Option<PathBuf>,

    /// Print the comparison as JSON and nothing else; write no documents without --out
    #[arg(long, help_heading = PAPERS)]
    pub json: bool,

    /// Exit with 1 while anything is missing, short or unclear
    #[arg(long, help_heading = PAPERS)]
    pub strict: bool,

    /// Read the columns of THEIRS as FILE says
    ///
    /// A TOML file, as --save-columns writes it: under [columns] a line for each, such as "Qty" = "quantity".
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath, help_heading = RULES)]
    pub columns: Option<PathBuf>,

    /// Write into FILE how the columns of THEIRS were read, to be adjusted and given with --columns
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath, help_heading = PAPERS)]
    pub save_columns: Option<PathBuf>,

    /// Read this sheet of a spreadsheet that has several lists
    #[arg(long, value_name = "NAME", help_heading = RULES)]
    pub sheet: Option<String>,

    /// The side of the house that faces north, where THEIRS names sides by the compass
    #[arg(long, value_name = "SIDE", value_enum, help_heading = RULES)]
    pub north: Option<SideArg>,

    #[command(flatten)]
    pub photos: PhotoArgs,

    /// Lay the rules in DIR over the built-in ones
    #[arg(short, long, value_name = "DIR", value_hint = ValueHint::DirPath, help_heading = RULES)]
    pub grammar: Option<PathBuf>,
}

/// A side of the house.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(in crate::cli) enum SideArg {
    /// The one toward the street
    Front,
    /// The one on the right, as seen from the street
    Right,
    /// The one away from the street
    Rear,
    /// The one on the left, as seen from the street
    Left,
}

impl From<SideArg> for Side {
    fn from(arg: SideArg) -> Self {
        match arg {
            SideArg::Front => Side::Front,
            SideArg::Right => Side::Right,
            SideArg::Rear => Side::Rear,
            SideArg::Left => Side::Left,
        }
    }
}
