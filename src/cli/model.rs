//! `eavesdraft model`: the speech model, fetched, built, verified and listed.

use super::Outcome;
use super::args::ModelCommand;
use crate::cli::terminal::Terminal;
use crate::speech::models::{
    self, BASE_Q8_0, KNOWN, KnownModel, Listed, State, Store, TINY_EN_Q8_0, Verified,
};
use std::path::PathBuf;

/// Does what a `model` subcommand asks.
pub(super) fn run(command: &ModelCommand, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    match command {
        ModelCommand::Fetch { name } => fetch(name.as_deref(), terminal)?,
        ModelCommand::Build { files, name } => build(files, name.as_deref(), terminal)?,
        ModelCommand::Verify { file } => verify(file.clone(), terminal)?,
        ModelCommand::List => list(terminal)?,
    }
    Ok(Outcome::Done)
}

/// Fetches the model of that name; the usual one and that of the second pass where none is given.
fn fetch(name: Option<&str>, terminal: &mut Terminal) -> anyhow::Result<()> {
    let models = match name {
        Some(name) => vec![chosen(Some(name))?],
        None => vec![&BASE_Q8_0, &TINY_EN_Q8_0],
    };
    for model in models {
        let path = Store::of_user()?.fetch(model, &mut |step| terminal.note(step))?;
        terminal.show(&format!("{}\n", path.display()))?;
    }
    Ok(())
}

fn build(files: &[PathBuf], name: Option<&str>, terminal: &mut Terminal) -> anyhow::Result<()> {
    let model = chosen(name)?;
    let path = Store::of_user()?.build_from(files, model, &mut |step| terminal.note(step))?;
    Ok(terminal.show(&format!("{}\n", path.display()))?)
}

/// The model of that name; the default where none is given.
fn chosen(name: Option<&str>) -> anyhow::Result<&'static KnownModel> {
    let Some(name) = name else { return Ok(&BASE_Q8_0) };
    let known = || KNOWN.map(|m| m.name).join(", ");
    models::named(name).ok_or_else(|| anyhow::anyhow!("there is no model `{name}`; known are {}", known()))
}

fn verify(file: Option<PathBuf>, terminal: &mut Terminal) -> anyhow::Result<()> {
    let path = match file {
        Some(path) => path,
        None => Store::of_user()?.find_default()?,
    };
    let Verified { kind, sha256, known } = models::verify(&path)?;
    let what = match known {
        Some(model) => format!("{}, every byte as it should be", model.name),
        None => format!("Whisper {} in {}, whole, from elsewhere", kind.size, kind.stored),
    };
    Ok(terminal.show(&format!("{}: {what}\nSHA-256 {sha256}\n", path.display()))?)
}

fn list(terminal: &mut Terminal) -> anyhow::Result<()> {
    let all = Store::of_user()?.list();
    let lines: String = all.iter().map(row).collect();
    Ok(terminal.show(&lines)?)
}

fn row(listed: &Listed) -> String {
    let Listed { model, path, state } = listed;
    let here = match state {
        State::Present => format!("here, {}", path.display()),
        State::Damaged => format!("damaged, fetch it again, {}", path.display()),
        State::Absent => "not fetched".to_owned(),
    };
    format!("{:<12} {:>4} MB  {}\n{:20} {here}\n", model.name, model.bytes / 1_000_000, model.about, "")
}
