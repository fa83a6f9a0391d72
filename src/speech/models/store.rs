//! The user's cache folder, where finished models are kept and nothing else.

use super::catalogue::{BASE_F16, BASE_Q8_0, KNOWN, KnownModel};
use super::error::ModelError;
use crate::model::digest;
use etcetera::BaseStrategy;
use std::ffi::OsString;
use std::fs::{self, File, TryLockError};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// Names the folder instead of the usual cache folder.
const FOLDER_VARIABLE: &str = "EAVESDRAFT_CACHE";
/// Work in progress has names that begin so; what is left of a fetch that was killed is found by it.
const WORK_PREFIX: &str = ".fetch-";
/// Held while a model is being fetched or built.
const LOCK: &str = "fetch.lock";

/// A folder of models.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Store {
    folder: PathBuf,
}

/// How a known model stands in the store.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// There, and as long as it should be.
    Present,
    /// There, but not as long as it should be.
    Damaged,
    /// Not there.
    Absent,
}

/// A known model and how it stands in the store.
#[derive(Debug, PartialEq, Eq)]
pub struct Listed {
    /// The model.
    pub model: &'static KnownModel,
    /// Where it is, or would be.
    pub path: PathBuf,
    /// Whether it is there.
    pub state: State,
}

impl Store {
    /// The user's own store: the folder that `EAVESDRAFT_CACHE` names, or `eavesdraft` in the cache folder
    /// that the system gives the user (`~/.cache` on Linux). The folder need not exist yet.
    ///
    /// # Errors
    /// The user has no home folder.
    pub fn of_user() -> Result<Self, ModelError> {
        let folder = match std::env::var_os(FOLDER_VARIABLE).filter(|name| !name.is_empty()) {
            Some(folder) => folder.into(),
            None => {
                let system = etcetera::choose_base_strategy().map_err(|_| ModelError::NoHome)?;
                system.cache_dir().join("eavesdraft")
            }
        };
        Ok(Self { folder })
    }

    /// A store in that folder, which need not exist yet.
    pub fn at(folder: impl Into<PathBuf>) -> Self {
        Self { folder: folder.into() }
    }

    /// Where that model is kept, whether it is there or not.
    pub fn path(&self, model: &KnownModel) -> PathBuf {
        self.folder.join(model.file)
    }

    /// Every known model and whether it is there. Looks at names and lengths only.
    pub fn list(&self) -> Vec<Listed> {
        KNOWN.map(|model| Listed { model, path: self.path(model), state: self.state(model) }).into()
    }

    /// The model to use where none was named: the default one, or else the same in 16-bit floats.
    ///
    /// # Errors
    /// Neither is there, or the one that is there has the wrong length.
    pub fn find_default(&self) -> Result<PathBuf, ModelError> {
        match (self.state(&BASE_Q8_0), self.state(&BASE_F16)) {
            (State::Absent, State::Present) => Ok(self.path(&BASE_F16)),
            _ => self.find(&BASE_Q8_0),
        }
    }

    /// That model, by a quick look at its length.
    ///
    /// # Errors
    /// It isn't there, or has the wrong length.
    pub fn find(&self, model: &KnownModel) -> Result<PathBuf, ModelError> {
        let path = self.path(model);
        match fs::metadata(&path) {
            Err(_) => Err(ModelError::Missing { name: model.name, path }),
            Ok(found) if found.len() != model.bytes => Err(ModelError::Damaged {
                name: model.name,
                path,
                found: format!("{} bytes", found.len()),
                expected: format!("{} bytes", model.bytes),
            }),
            Ok(_) => Ok(path),
        }
    }

    /// That model, with every byte checked. Takes a fraction of a second.
    ///
    /// # Errors
    /// It isn't there, can't be read, or isn't what was put there.
    pub fn find_checked(&self, model: &KnownModel) -> Result<PathBuf, ModelError> {
        let path = self.find(model)?;
        let found = digest::of_file(&path).map_err(ModelError::file("read", &path))?;
        if found != model.sha256 {
            let (found, expected) = (format!("SHA-256 {found}"), model.sha256.to_owned());
            return Err(ModelError::Damaged { name: model.name, path, found, expected });
        }
        Ok(path)
    }

    fn state(&self, model: &KnownModel) -> State {
        match self.find(model) {
            Ok(_) => State::Present,
            Err(ModelError::Missing { .. }) => State::Absent,
            Err(_) => State::Damaged,
        }
    }

    /// A folder to work in, on the same disk as the store. Waits, after calling `waits`, while another
    /// process works there, and clears away what a killed one left.
    pub(super) fn workshop(&self, waits: impl FnOnce()) -> Result<Workshop, ModelError> {
        fs::create_dir_all(&self.folder).map_err(ModelError::file("make the folder", &self.folder))?;
        let lock = self.lock(waits)?;
        self.clear();
        let folder = tempfile::Builder::new()
            .prefix(WORK_PREFIX)
            .tempdir_in(&self.folder)
            .map_err(ModelError::file("make a folder in", &self.folder))?;
        Ok(Workshop { folder, _lock: lock })
    }

    fn lock(&self, waits: impl FnOnce()) -> Result<File, ModelError> {
        let path = self.folder.join(LOCK);
        let file = File::create(&path).map_err(ModelError::file("create", &path))?;
        match file.try_lock() {
            Ok(()) => return Ok(file),
            Err(TryLockError::WouldBlock) => waits(),
            Err(TryLockError::Error(why)) => return Err(ModelError::file("lock", &path)(why)),
        }
        file.lock().map_err(ModelError::file("lock", &path))?;
        Ok(file)
    }

    /// Removes the work of processes that were killed. Only done while the lock is held. What can't be
    /// removed is no hindrance, and is tried again next time.
    fn clear(&self) {
        let entries = fs::read_dir(&self.folder).into_iter().flatten().flatten();
        for work in entries.filter(|entry| is_work(&entry.file_name())) {
            let _ = fs::remove_dir_all(work.path());
        }
    }
}

/// A folder for work in progress; gone when dropped. No other process has one in the same store.
pub(super) struct Workshop {
    folder: TempDir,
    _lock: File,
}

impl Workshop {
    /// Where the work lies.
    pub(super) fn folder(&self) -> &Path {
        self.folder.path()
    }
}

fn is_work(name: &OsString) -> bool {
    name.to_string_lossy().starts_with(WORK_PREFIX)
}

#[cfg(test)]
mod tests {
    use super::super::synthetic::{known, model_file};
    use super::*;

    fn put(store: &Store, model: &KnownModel, length: u64) {
        File::create(store.path(model)).unwrap().set_len(length).unwrap();
    }

    #[test]
    fn an_empty_store_says_how_to_get_a_model() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::at(folder.path());
        let path = folder.path().join("ggml-base-q8_0.bin");
        assert_eq!(
            store.find_default().unwrap_err().to_string(),
            format!(
                "there is no speech model at `{}`: get it with `eavesdraft model fetch base-q8_0`, or \
                 name one with `--model PATH`",
                path.display()
            )
        );
        assert!(store.list().iter().all(|listed| listed.state == State::Absent));
    }

    #[test]
    fn the_default_is_the_quantised_one_and_else_the_other() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::at(folder.path());
        // Files of the right length with nothing in them take no room on the disk.
        put(&store, &BASE_F16, BASE_F16.bytes);
        assert_eq!(store.find_default().unwrap(), store.path(&BASE_F16));
        put(&store, &BASE_Q8_0, BASE_Q8_0.bytes);
        assert_eq!(store.find_default().unwrap(), store.path(&BASE_Q8_0));
    }

    #[test]
    fn a_model_of_the_wrong_length_is_damaged() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::at(folder.path());
        put(&store, &BASE_Q8_0, 5);
        let why = store.find_default().unwrap_err().to_string();
        assert!(why.contains("is damaged (5 bytes, expected 81768585 bytes)"), "{why}");
        assert_eq!(store.list()[0].state, State::Damaged);
    }

    #[test]
    fn a_changed_byte_is_found_when_every_byte_is_checked() {
        let folder = tempfile::tempdir().unwrap();
        let (store, model) = (Store::at(folder.path()), known());
        let mut bytes = model_file(model.precision);
        fs::write(store.path(model), &bytes).unwrap();
        assert_eq!(store.find_checked(model).unwrap(), store.path(model));

        bytes[9_999] ^= 1;
        fs::write(store.path(model), &bytes).unwrap();
        assert!(store.find(model).is_ok());
        assert!(matches!(store.find_checked(model), Err(ModelError::Damaged { .. })));
    }

    #[test]
    fn what_a_killed_fetch_left_is_cleared_away_and_nothing_else_is() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::at(folder.path());
        let left = folder.path().join(".fetch-abc123");
        fs::create_dir(&left).unwrap();
        fs::write(left.join("part.whl"), "half").unwrap();
        fs::write(folder.path().join("mine.bin"), "kept").unwrap();

        let workshop = store.workshop(|| panic!("nobody else is here")).unwrap();
        assert!(!left.exists());
        assert!(workshop.folder().is_dir());
        drop(workshop);
        let names: Vec<_> = fs::read_dir(folder.path()).unwrap().map(|f| f.unwrap().file_name()).collect();
        assert_eq!(names.len(), 2, "{names:?}");
        assert!(folder.path().join("mine.bin").exists());
    }

    #[test]
    fn a_second_workshop_waits_for_the_first() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::at(folder.path());
        let first = store.workshop(|| ()).unwrap();
        let place = first.folder().to_owned();
        // The first is given up only once the second says that it waits.
        let mut first = Some(first);
        let second = store.workshop(|| drop(first.take())).unwrap();
        assert!(!place.exists());
        assert!(second.folder().is_dir());
        assert!(first.is_none());
    }
}
