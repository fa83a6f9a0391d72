//! What is meant by `compare`.

use super::{Filing, Looks, Show};
use crate::cli::args::CompareArgs;
use crate::cli::photos::Photos;
use crate::model::Side;
use std::path::PathBuf;

/// A request to hold a scope beside another list.
#[derive(Debug)]
pub(in crate::cli) struct CompareRequest {
    pub ours: PathBuf,
    pub theirs: PathBuf,
    pub filing: Filing,
    pub show: Show,
    pub looks: Looks,
    /// A file that says what the columns hold.
    pub columns: Option<PathBuf>,
    /// Where to write how they were read.
    pub save_columns: Option<PathBuf>,
    pub sheet: Option<String>,
    /// The side of the house that faces north, where that is told.
    pub north: Option<Side>,
    pub photos: Option<Photos>,
    /// A folder of rules to lay over the built-in ones.
    pub grammar: Option<PathBuf>,
}

impl From<CompareArgs> for CompareRequest {
    fn from(args: CompareArgs) -> Self {
        let show = if args.json { Show::Json } else { Show::Page };
        Self {
            ours: args.ours,
            theirs: args.theirs,
            filing: Filing::new(args.out, show),
            show,
            looks: if args.strict { Looks::Forbidden } else { Looks::Allowed },
            columns: args.columns,
            save_columns: args.save_columns,
            sheet: args.sheet,
            north: args.north.map(Side::from),
            // Where they were taken is nothing for another party.
            photos: Photos::new(&args.photos, false),
            grammar: args.grammar,
        }
    }
}
