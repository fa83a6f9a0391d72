//! `eavesdraft papers`: from scopes to what leaves the office.

use super::Outcome;
use super::args::PapersArgs;
use super::grammar;
use crate::documents::wording::count;
use crate::draft::Draft;
use crate::filing::{self, Paper, Place, Register};
use crate::grammar::Grammar;
use crate::papers::{Job, Kind};
use crate::review::{Act, scope_and_strays};
use crate::store::{FILE, Store, drafts, take_in};
use crate::terminal::Terminal;
use anyhow::Context;
use std::path::{Path, PathBuf};

/// Writes the papers of every scope that is named. One that fails is told and doesn't hold up the others.
pub(super) fn run(args: &PapersArgs, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    let grammar = grammar::load(args.grammar.as_deref())?;
    let drafts = drafts(&args.target)?;
    let store = store(&args.target, &drafts)?;
    let kinds: Vec<Kind> = args.kinds();
    let mut register = Register::new(drafts.iter().map(PathBuf::as_path));
    let mut outcome = Outcome::Done;
    for draft in &drafts {
        let place = place(draft, &args.target, args.out.as_deref());
        match one(draft, &place, store.as_ref(), &grammar, &kinds, &mut register) {
            Ok(written) => {
                outcome = outcome.max(told(&written, args.strict, terminal));
            }
            Err(error) => {
                terminal.error(format_args!("{error:#}"));
                outcome = Outcome::Failed;
            }
        }
    }
    Ok(outcome)
}

/// What became of a scope.
struct Written {
    files: Vec<PathBuf>,
    /// What keeps it a draft.
    open: Vec<String>,
}

fn told(written: &Written, strict: bool, terminal: &mut Terminal) -> Outcome {
    let names: Vec<String> = written.files.iter().map(|file| file.display().to_string()).collect();
    terminal.note(format_args!("Wrote {}", names.join(", ")));
    if written.open.is_empty() {
        return Outcome::Done;
    }
    terminal.note(format_args!("  still a draft: {}", written.open.join(" ")));
    if strict { Outcome::NeedsLook } else { Outcome::Done }
}

/// The folder's store, brought up to its drafts; none where nobody reviews there. None is made.
fn store(target: &Path, drafts: &[PathBuf]) -> anyhow::Result<Option<Store>> {
    let folder = if target.is_dir() { target } else { target.parent().unwrap_or(Path::new("")) };
    if !folder.join(FILE).exists() {
        return Ok(None);
    }
    let mut store = Store::open(folder)?;
    take_in(&mut store, drafts, None, &jiff::Timestamp::now().to_string())?;
    Ok(Some(store))
}

/// Where the papers of a draft go: beside it, or into the same folder below another.
fn place(draft: &Path, target: &Path, out: Option<&Path>) -> Place {
    let Some(out) = out else { return Place::beside(draft) };
    let below = draft.parent().and_then(|folder| folder.strip_prefix(target).ok()).unwrap_or(Path::new(""));
    Place::inside(&out.join(below), filing::stem(draft))
}

fn one(
    file: &Path,
    place: &Place,
    store: Option<&Store>,
    grammar: &Grammar,
    kinds: &[Kind],
    register: &mut Register,
) -> anyhow::Result<Written> {
    let (draft, acts) = scope(file, store)?;
    let (scope, strays) = scope_and_strays(&draft, &acts);
    let job = Job::new(&draft, &scope, &acts, grammar);
    let endings: Vec<&str> = kinds.iter().map(|kind| kind.ending()).collect();
    std::fs::create_dir_all(place.folder()).with_context(|| format!("{}", place.folder().display()))?;
    register.claim(place, &endings, &draft.source)?;
    let papers = kinds.iter().map(|kind| kind.paper(&job)).collect::<anyhow::Result<Vec<Paper>>>()?;
    let saved = filing::save(place, &papers)?;
    let mut open = job.open();
    if !strays.is_empty() {
        open.push(format!(
            "{} no longer drafted: look at it in the review.",
            count(strays.len(), "settled line is", "settled lines are")
        ));
    }
    Ok(Written { files: saved.into_iter().map(|saved| saved.file).collect(), open })
}

/// A draft with what people did to it: as the store has them, else as the file has it.
fn scope(file: &Path, store: Option<&Store>) -> anyhow::Result<(Draft, Vec<Act>)> {
    let text = std::fs::read_to_string(file).with_context(|| format!("{}: can't be read", file.display()))?;
    let draft: Draft = serde_json::from_str(&text)
        .with_context(|| format!("{}: this is no draft that eavesdraft wrote", file.display()))?;
    let (Some(store), Some(id)) = (store, &draft.digest) else { return Ok((draft, Vec::new())) };
    match store.drafted(id)? {
        Some(kept) => Ok((kept.draft, store.acts(id, 0)?)),
        None => Ok((draft, Vec::new())),
    }
}
