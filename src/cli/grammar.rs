//! `eavesdraft grammar`: the rules, checked.

use super::Outcome;
use super::args::GrammarCommand;
use crate::cli::terminal::Terminal;
use crate::language::rules::{Grammar, GrammarError};
use std::path::Path;

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
