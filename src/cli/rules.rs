//! The rules that a day's work is done by, with what tells them from others.

use super::grammar;
use crate::language::rules::folder_digest;
use crate::model::digest;
use crate::office::day::Rules;
use crate::office::store::size_and_change;
use std::path::Path;
use std::sync::Arc;

/// The rules, and the digest of them and of this program: the built-in ones are part of it.
pub(super) fn load(folder: Option<&Path>) -> anyhow::Result<Rules> {
    let grammar = Arc::new(grammar::load(folder)?);
    let own = folder.map(folder_digest).transpose()?.unwrap_or_default();
    let all = format!("{} {} {own}", env!("CARGO_PKG_VERSION"), program().unwrap_or_default());
    Ok(Rules { grammar, digest: digest::of_bytes(all.as_bytes()) })
}

/// What tells this build from others, without reading the whole of it.
fn program() -> Option<String> {
    let file = std::env::current_exe().ok()?.metadata().ok()?;
    let (size, changed) = size_and_change(&file);
    Some(format!("{size} {changed}"))
}
