//! Shell completions and manual pages, made from the command line itself.

use super::{Args, Outcome};
use crate::cli::terminal::Terminal;
use anyhow::Context;
use clap::CommandFactory;
use clap_complete::Shell;

/// Shows the completions for a shell.
pub(super) fn completions(shell: Shell, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Args::command(), "eavesdraft", &mut script);
    terminal.show(&String::from_utf8(script)?)?;
    Ok(Outcome::Done)
}

/// Shows the manual page of the program, or of one of its subcommands, for `man -l -`.
pub(super) fn man(name: Option<&str>, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    let mut command = Args::command();
    command.build();
    if let Some(name) = name {
        let found =
            command.find_subcommand(name).with_context(|| format!("there is no subcommand `{name}`"))?;
        command = found.clone();
    }
    let mut page = Vec::new();
    clap_mangen::Man::new(command).render(&mut page)?;
    terminal.show(&String::from_utf8(page)?)?;
    Ok(Outcome::Done)
}
