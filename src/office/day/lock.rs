//! One run at a time in a folder: two would hear the same recordings twice.

use anyhow::{Context, bail};
use std::fs::{File, OpenOptions, TryLockError};
use std::path::Path;

/// The file that is locked. It stays behind, empty; the lock goes with the process, however that ends.
const FILE: &str = ".eavesdraft.lock";

/// That this process works in a folder, until it is dropped.
pub struct Lock(#[expect(dead_code, reason = "held open, which is what holds the lock")] File);

impl Lock {
    /// Takes the folder.
    ///
    /// # Errors
    /// Where another run has it, or the folder can't be written into.
    pub fn take(folder: &Path) -> anyhow::Result<Self> {
        let file = OpenOptions::new().create(true).truncate(false).write(true).open(folder.join(FILE));
        let file = file.with_context(|| {
            format!("nothing can be written into {}: choose a folder that you may write in", folder.display())
        })?;
        match file.try_lock() {
            Ok(()) => Ok(Self(file)),
            Err(TryLockError::WouldBlock) => {
                bail!("another run is at work in {}: let it finish, or end it first", folder.display())
            }
            Err(TryLockError::Error(error)) => {
                Err(error).with_context(|| format!("{}: can't be locked", folder.display()))
            }
        }
    }
}
