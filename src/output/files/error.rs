//! Why a document can't be filed: what, where, and what to do.

use std::path::PathBuf;

/// A document that can't go where it should.
#[derive(Debug, thiserror::Error)]
pub enum FilingError {
    /// The document would replace something the user asked to be read.
    #[error("`{}` is given as input and would be overwritten: write elsewhere with --out", .0.display())]
    Input(PathBuf),
    /// Two inputs would write the same file.
    #[error("`{}` is where `{by}` goes already: rename one of them, or write elsewhere with --out", file.display())]
    Taken {
        /// The file.
        file: PathBuf,
        /// The input that has it.
        by: String,
    },
    /// A file of that name is there and came from elsewhere.
    #[error("`{}` is there already and isn't Eavesdraft's: move it, or write elsewhere with --out", .0.display())]
    Foreign(PathBuf),
    /// A file stands where a folder is needed.
    #[error("`{}` isn't a folder: name a folder to write into", .0.display())]
    NoFolder(PathBuf),
    /// The folder refuses.
    #[error("nothing can be written into `{}` ({why}): write elsewhere with --out", folder.display())]
    Closed {
        /// The folder.
        folder: PathBuf,
        /// What the system says.
        why: String,
    },
    /// Writing failed; whatever was there before is there still.
    #[error("`{}` couldn't be written ({why}): nothing was changed; check the disk's space", file.display())]
    Unwritten {
        /// The file.
        file: PathBuf,
        /// What the system says.
        why: String,
    },
}
