//! Says what a model file is, and whether it is whole.

use super::catalogue::{KNOWN, KnownModel};
use super::error::ModelError;
use super::inspect::{Kind, inspect};
use crate::model::digest;
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
    match KNOWN.into_iter().find(|model| is_in_place_of(model, path)) {
        Some(model) if known != Some(model) => Err(ModelError::Damaged {
            name: model.name,
            path: path.to_owned(),
            found: format!("SHA-256 {sha256}"),
            expected: model.sha256.to_owned(),
        }),
        _ => Ok(Verified { kind, sha256, known }),
    }
}

/// Whether the file bears that model's name. The names are those under which whisper.cpp's project
/// publishes the very same files, so another file of that name isn't what it claims to be.
fn is_in_place_of(model: &KnownModel, path: &Path) -> bool {
    path.file_name().is_some_and(|name| name == model.file)
}

#[cfg(test)]
mod tests {
    use super::super::catalogue::Precision;
    use super::super::synthetic::model_file;
    use super::*;

    #[test]
    fn a_model_from_elsewhere_is_described_but_not_vouched_for() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("mine.bin");
        let bytes = model_file(Precision::Bytes);
        std::fs::write(&path, &bytes).unwrap();
        let verified = verify(&path).unwrap();
        assert_eq!(verified.kind.size, "tiny");
        assert_eq!(verified.sha256, digest::of_bytes(&bytes));
        assert_eq!(verified.known, None);
    }

    #[test]
    fn a_file_that_only_bears_a_known_name_is_refused() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("ggml-base.bin");
        std::fs::write(&path, model_file(Precision::Half)).unwrap();
        assert!(matches!(verify(&path), Err(ModelError::Damaged { .. })));
    }

    #[test]
    fn a_file_that_is_no_model_is_refused_with_its_path() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("notes.txt");
        std::fs::write(&path, "front elevation").unwrap();
        assert_eq!(
            verify(&path).unwrap_err().to_string(),
            format!(
                "`{}` can't be used as a speech model: it begins with `fron`, expected a whisper.cpp model \
                 (`ggml-….bin`)",
                path.display()
            )
        );
    }
}
