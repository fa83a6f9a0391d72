//! What is to be done.

use serde::{Deserialize, Serialize};

/// Physical work on a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Work {
    /// Take a sound thing off, keep it, put it back.
    DetachReset,
    /// Take off, throw away, put new.
    RemoveReplace,
    /// Off and gone.
    Remove,
    /// New where none was.
    Install,
    /// Mend in place.
    Repair,
    /// Wash.
    Clean,
    /// Paint.
    Paint,
    /// Stain.
    Stain,
    /// Cover while others work.
    Protect,
}
