//! What the unit tests of these rooms share.

use crate::language::rules::Grammar;
use std::sync::LazyLock;

/// The built-in rules, read once.
pub(in crate::language) static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());
