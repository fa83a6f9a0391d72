//! Which files are spoken for, asked before the slow work begins.

use super::{FilingError, Place, ours};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The inputs of a run, and the files that its outputs will be.
pub struct Register {
    inputs: BTreeSet<PathBuf>,
    /// The files spoken for, and the input each belongs to.
    taken: BTreeMap<PathBuf, String>,
}

impl Register {
    /// A register for a run that reads these files.
    pub fn new<'a>(inputs: impl Iterator<Item = &'a Path>) -> Self {
        Self { inputs: inputs.map(place).collect(), taken: BTreeMap::new() }
    }

    /// Keeps the documents of those endings for the input of that name, all or none.
    ///
    /// # Errors
    /// Where one would replace an input, another input's document or someone else's file, or where the folder
    /// can't be written into.
    pub fn claim(&mut self, to: &Place, endings: &[&str], name: &str) -> Result<(), FilingError> {
        check_folder(to.folder())?;
        for ending in endings {
            self.check(to.file(ending), ending)?;
        }
        self.taken.extend(endings.iter().map(|ending| (place(&to.file(ending)), name.to_owned())));
        Ok(())
    }

    fn check(&self, file: PathBuf, ending: &str) -> Result<(), FilingError> {
        let at = place(&file);
        if self.inputs.contains(&at) {
            return Err(FilingError::Input(file));
        }
        if let Some(by) = self.taken.get(&at) {
            return Err(FilingError::Taken { file, by: by.clone() });
        }
        match std::fs::read(&file) {
            Ok(bytes) if ours::is_ours(ending, &bytes) => Ok(()),
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => Ok(()),
            _ => Err(FilingError::Foreign(file)),
        }
    }
}

/// The one name of a file, there or not, whichever way it is written.
fn place(file: &Path) -> PathBuf {
    let parent = file.parent().filter(|parent| *parent != Path::new("")).unwrap_or(Path::new("."));
    let named = || Some(parent.canonicalize().ok()?.join(file.file_name()?));
    file.canonicalize().ok().or_else(named).unwrap_or_else(|| file.to_owned())
}

/// Whether a folder, or the nearest one above it that is there, takes files.
fn check_folder(folder: &Path) -> Result<(), FilingError> {
    let there = folder.ancestors().find(|folder| folder.exists()).filter(|there| *there != Path::new(""));
    let there = there.unwrap_or(Path::new("."));
    if !there.is_dir() {
        return Err(FilingError::NoFolder(there.to_owned()));
    }
    let closed = |e: std::io::Error| FilingError::Closed { folder: there.to_owned(), why: e.to_string() };
    tempfile::tempfile_in(there).map(drop).map_err(closed)
}
