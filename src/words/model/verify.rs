//! Says what a model file is, and whether it is whole.

use super::catalogue::{KNOWN, KnownModel};
use super::digest;
use super::error::ModelError;
use super::inspect::{Kind, inspect};
use std::path::Path;

/// A model file that was looked at from end to end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Verified {
    /// What it is.
    pub kind: Kind,
    /// Its SHA-256.
    pub sha256: String,
    /// The known model that it is, byte for byte; none for any other model.
    pub known: Option<&'static KnownModel>,
}

/// Reads the whole file at `path` and says what it is. A model from elsewhere can't be vouched for, but is
/// looked over all the same.
///
/// # Errors
/// It can't be read, isn't a model, is cut off, or bears a known model's name and isn't that model.
pub fn verify(path: &Path) -> Result<Verified, ModelError> {
    let kind = inspect(path).map_err(|why| ModelError::Unfit { path: path.to_owned(), why })?;
    let sha256 = digest::of_file(path).map_err(ModelError::file("read", path))?;
    let known = KNOWN.into_iter().find(|model| model.sha256 == sha256);
    Ok(Verified { kind, sha256, known })
}
