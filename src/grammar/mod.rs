//! What the rule files mean.

use std::path::Path;

/// Every rule the program drafts by.
#[derive(Debug, Clone, Default)]
pub struct Grammar;

/// Rules that can't be used: a sentence for a person.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
pub struct GrammarError(pub String);

impl Grammar {
    /// The rules that come with the program.
    ///
    /// # Errors
    /// A sentence that names file, line and field.
    pub fn built_in() -> Result<Self, GrammarError> {
        Ok(Self)
    }

    /// The rules that come with the program, with those of a folder laid over them.
    ///
    /// # Errors
    /// A sentence that names file, line and field.
    pub fn with_folder(folder: &Path) -> Result<Self, GrammarError> {
        if folder.is_dir() {
            Ok(Self)
        } else {
            Err(GrammarError(format!("`{}` isn't a folder", folder.display())))
        }
    }
}
