//! What can go wrong with a store.

use std::path::PathBuf;

/// Why a store can't be used.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// SQLite can't open, read or write it.
    #[error("{}: {cause}{}", file.display(), advice(cause))]
    Unusable {
        /// The store.
        file: PathBuf,
        /// What SQLite says.
        cause: rusqlite::Error,
    },
    /// Something in it isn't as this program writes it.
    #[error("{}: something in this store can't be read ({cause}): restore it from a backup", file.display())]
    Unreadable {
        /// The store.
        file: PathBuf,
        /// What is wrong.
        cause: serde_json::Error,
    },
    /// It was made by a later program.
    #[error("{}: this store was made by a later Eavesdraft (form {form}; this one knows {known}): update the program", file.display())]
    Later {
        /// The store.
        file: PathBuf,
        /// Its form.
        form: usize,
        /// The latest form this program knows.
        known: usize,
    },
}

impl StoreError {
    /// Whether another program was writing, and trying again will do.
    pub fn is_busy(&self) -> bool {
        use rusqlite::ErrorCode::{DatabaseBusy, DatabaseLocked};
        matches!(self, Self::Unusable { cause, .. }
            if matches!(cause.sqlite_error_code(), Some(DatabaseBusy | DatabaseLocked)))
    }
}

fn advice(cause: &rusqlite::Error) -> &'static str {
    use rusqlite::ErrorCode;
    match cause.sqlite_error_code() {
        Some(ErrorCode::DiskFull) => ". Nothing was changed: make room, then try again",
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => {
            ". Another program is writing: try again in a moment"
        }
        Some(ErrorCode::NotADatabase) => ". This file isn't an Eavesdraft store: move it away or restore it",
        Some(ErrorCode::DatabaseCorrupt) => ". The store is damaged: restore it from a backup",
        Some(ErrorCode::CannotOpen | ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => {
            ". Choose a folder that you can write in"
        }
        Some(ErrorCode::SystemIoFailure) => {
            ". Nothing was changed: check that the disk is connected and has room, then try again"
        }
        _ => "",
    }
}
