//! `eavesdraft grammar`: the rules, checked.

use super::Outcome;
use super::args::GrammarCommand;
use crate::cli::terminal::Terminal;
use crate::language::rules::{Grammar, GrammarError};
use crate::office::day::Rules;
use std::path::Path;
use std::sync::Arc;

/// Does what a `grammar` subcommand asks.
pub(super) fn run(command: &GrammarCommand, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    let GrammarCommand::Check { folder } = command;
    crate::language::trial::check(folder.as_deref())?;
    match folder {
        Some(folder) => {
            terminal.show(&format!("{} over the built-in rules: nothing wrong\n", folder.display()))?
        }
        None => terminal.show("the built-in rules: nothing wrong\n")?,
    }
    Ok(Outcome::Done)
}

/// The built-in rules, with a folder's laid over them where one is given.
pub(super) fn load(folder: Option<&Path>) -> Result<Grammar, GrammarError> {
    folder.map_or_else(Grammar::built_in, Grammar::with_folder)
}

/// The rules, and the digest of them and of this program: the built-in ones are part of it.
pub(super) fn rules(folder: Option<&Path>) -> anyhow::Result<Rules> {
    let grammar = Arc::new(load(folder)?);
    let own = folder.map(crate::language::rules::folder_digest).transpose()?.unwrap_or_default();
    let all = format!("{} {} {own}", env!("CARGO_PKG_VERSION"), program().unwrap_or_default());
    Ok(Rules { grammar, digest: crate::model::digest::of_bytes(all.as_bytes()) })
}

/// What tells this build from others, without reading the whole of it.
fn program() -> Option<String> {
    let file = std::env::current_exe().ok()?.metadata().ok()?;
    let (size, changed) = crate::office::store::size_and_change(&file);
    Some(format!("{size} {changed}"))
}
