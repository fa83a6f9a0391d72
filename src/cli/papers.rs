//! `eavesdraft papers`: from scopes to what leaves the office.

use super::Outcome;
use super::args::PapersArgs;
use super::grammar;
use super::photos::Photos;
use crate::cli::terminal::Terminal;
use crate::language::rules::Grammar;
use crate::model::Draft;
use crate::model::wording::count;
use crate::office::store::{FILE, Store, drafts, take_in};
use crate::output::files::{self, Paper, Place, Register};
use crate::output::photos::Photo;
use crate::output::prices::{PriceList, priced};
use crate::output::{Beside, Job, Kind, photos as pictures, record};
use crate::scope::review::{Event, scope_and_strays};
use anyhow::Context;
use std::path::{Path, PathBuf};

/// Writes the papers of every scope that is named. One that fails is told and doesn't hold up the others.
pub(super) fn run(args: &PapersArgs, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    if args.schema {
        terminal.show(record::SCHEMA)?;
        return Ok(Outcome::Done);
    }
    let drafts = drafts(&args.target)?;
    let photos = Photos::new(&args.photos, args.with_location);
    let office = Office {
        args,
        grammar: grammar::load(args.grammar.as_deref())?,
        store: store(&args.target, &drafts)?,
        prices: None,
        photos: photos.map(|photos| Ok::<_, anyhow::Error>((photos.read()?, photos))).transpose()?,
    };
    let office = Office { prices: prices(args, &office.grammar)?, ..office };
    let mut register = Register::new(drafts.iter().map(PathBuf::as_path));
    let mut outcome = Outcome::Done;
    for draft in &drafts {
        match office.write(draft, &mut register) {
            Ok(written) => outcome = outcome.max(told(&written, args.strict, terminal)),
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
    /// Earlier ones that a person may have worked on, and where they are now.
    kept: Vec<PathBuf>,
    /// What keeps it a draft.
    open: Vec<String>,
}

fn told(written: &Written, strict: bool, terminal: &mut Terminal) -> Outcome {
    for kept in &written.kept {
        terminal.note(format_args!("Kept the earlier one as {}", kept.display()));
    }
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

fn prices(args: &PapersArgs, grammar: &Grammar) -> anyhow::Result<Option<PriceList>> {
    let Some(file) = &args.prices else { return Ok(None) };
    let name = file.display().to_string();
    let bytes = std::fs::read(file).with_context(|| format!("{name}: can't be read"))?;
    Ok(Some(PriceList::read(&name, &bytes, grammar)?))
}

/// What all papers of a run are made with.
struct Office<'a> {
    args: &'a PapersArgs,
    grammar: Grammar,
    store: Option<Store>,
    prices: Option<PriceList>,
    photos: Option<(Vec<Photo>, Photos)>,
}

impl Office<'_> {
    fn write(&self, file: &Path, register: &mut Register) -> anyhow::Result<Written> {
        let (draft, events) = self.scope(file)?;
        let (scope, strays) = scope_and_strays(&draft, &events);
        let job = Job::new(&draft, &scope, &events, &self.grammar);
        let (kinds, place) = (self.args.kinds(), self.place(file));
        let endings: Vec<&str> = kinds.iter().map(|kind| kind.ending()).collect();
        let folder = place.folder();
        std::fs::create_dir_all(folder).with_context(|| format!("{}: can't be made", folder.display()))?;
        register.claim(&place, &endings, &draft.source)?;
        let beside = self.beside(&job);
        let paper = |kind: &Kind| kind.paper(&job, &beside).transpose();
        let papers = kinds.iter().filter_map(paper).collect::<anyhow::Result<Vec<Paper>>>()?;
        let saved = files::save(&place, &papers)?;
        let mut open = job.open();
        if !strays.is_empty() {
            let lines = count(strays.len(), "reviewed line is", "reviewed lines are");
            open.push(format!("{lines} no longer in the draft: see the review page."));
        }
        let kept = saved.iter().filter_map(|saved| saved.kept.clone()).collect();
        Ok(Written { files: saved.into_iter().map(|saved| saved.file).collect(), kept, open })
    }

    /// Where the papers of a draft go: beside it, or into the same folder below another.
    fn place(&self, draft: &Path) -> Place {
        let Some(out) = &self.args.out else { return Place::beside(draft) };
        let below = draft.parent().and_then(|folder| folder.strip_prefix(&self.args.target).ok());
        Place::inside(&out.join(below.unwrap_or(Path::new(""))), files::stem(draft))
    }

    fn beside(&self, job: &Job) -> Beside {
        let photos = self
            .photos
            .as_ref()
            .and_then(|(photos, asked)| pictures::section(job, &asked.tie(job, photos), photos));
        let priced = self.prices.as_ref().map(|list| priced(job, list, &self.args.percent));
        Beside { priced, photos }
    }

    /// A draft with what people did to it: as the store has them, else as the file has it.
    fn scope(&self, file: &Path) -> anyhow::Result<(Draft, Vec<Event>)> {
        let text =
            std::fs::read_to_string(file).with_context(|| format!("{}: can't be read", file.display()))?;
        let draft: Draft = serde_json::from_str(&text)
            .with_context(|| format!("{}: this is no draft that eavesdraft wrote", file.display()))?;
        let (Some(store), Some(id)) = (&self.store, &draft.digest) else { return Ok((draft, Vec::new())) };
        match store.drafted(id)? {
            Some(kept) => Ok((kept.draft, store.events(id, 0)?)),
            None => Ok((draft, Vec::new())),
        }
    }
}
