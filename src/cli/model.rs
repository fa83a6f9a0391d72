//! `eavesdraft model`: the speech model, fetched, built, verified and listed.

use super::Outcome;
use super::args::ModelCommand;
use crate::terminal::Terminal;

/// Does what a `model` subcommand asks.
pub(super) fn run(command: &ModelCommand, _terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    anyhow::bail!("this build has no speech models ({command:?})")
}
