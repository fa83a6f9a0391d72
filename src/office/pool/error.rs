//! Why a pool can't be used: what, where, and what to do.

use std::path::PathBuf;

/// What can go wrong with a pool.
#[derive(Debug, thiserror::Error)]
pub enum PoolError {
    /// There is nothing at that place.
    #[error("there is no pool `{0}`: check the name, or make it with `eavesdraft pool put FOLDER {0}`")]
    Missing(String),
    /// It isn't the address of anything that a pool can be in.
    #[error(
        "`{pool}` is no place for a pool ({why}): give a folder, or a bucket as s3://BUCKET or s3://BUCKET/FOLDER"
    )]
    Address {
        /// The pool as it was named.
        pool: String,
        /// What is wrong with the name.
        why: String,
    },
    /// This build has folders only.
    #[error("`{0}` is a bucket, and this build knows folders only: build with `--features bucket`")]
    NoBuckets(String),
    /// The folder or the bucket refuses.
    #[error(
        "the pool `{pool}` failed at `{object}` ({why}): what was done before is kept; see that it can be reached and written, then run this again"
    )]
    Refused {
        /// The pool as it was named.
        pool: String,
        /// The object, or the beginning of names that was asked for.
        object: String,
        /// What the store says.
        why: String,
    },
    /// An object isn't as this program writes it.
    #[error(
        "`{object}` in the pool `{pool}` can't be read ({why}): remove it, then hear that recording again"
    )]
    Odd {
        /// The pool as it was named.
        pool: String,
        /// The object.
        object: String,
        /// What is wrong with it.
        why: String,
    },
    /// A file of this machine can't be read or written.
    #[error("`{}` can't be used ({why}): check that it is there and may be opened, and that the disk has room", file.display())]
    File {
        /// The file.
        file: PathBuf,
        /// What the system says.
        why: String,
    },
    /// A recording isn't finished yet.
    #[error("`{}` changed while it was read: put it into the pool again once it is written", .0.display())]
    Changed(PathBuf),
    /// The folder has nothing to hear.
    #[error("there is no recording in `{}`: name the folder that the recordings are in", .0.display())]
    Empty(PathBuf),
}

/// What went wrong, with every cause behind it that isn't told yet.
pub(super) fn why(error: &dyn std::error::Error) -> String {
    let mut told = error.to_string();
    let mut cause = error.source();
    while let Some(error) = cause {
        let text = error.to_string();
        if !told.contains(&text) {
            told = format!("{told}: {text}");
        }
        cause = error.source();
    }
    told
}
