//! Our side of a comparison: the scope of a recording as it stands, with what people did to it.

use crate::language::rules::Grammar;
use crate::model::wording::{count, date};
use crate::model::{Draft, digest};
use crate::office::store::{self, Drafted, Recording, Store};
use crate::output::Job;
use crate::output::files::{Place, stem};
use crate::scope::review::{Event, Scope, scope_and_strays};
use anyhow::{Context, bail};
use std::path::Path;

/// What ends the name of a draft.
const ENDING: &str = "scope.json";

/// A scope, and what there is to tell of where it comes from.
pub(super) struct OurScope {
    /// As it was drafted.
    drafted: Draft,
    /// What people did to it.
    events: Vec<Event>,
    /// What became of it.
    scope: Scope,
    /// What a person should know, in sentences.
    pub notices: Vec<String>,
}

impl OurScope {
    /// As it was drafted, where nobody reviewed it.
    fn of(drafted: Draft) -> Self {
        Self { notices: open(&drafted), scope: Scope::of(&drafted), events: Vec::new(), drafted }
    }

    /// The lines that stand or are open, with all that papers tell of them; those that people dropped are gone.
    pub fn job<'a>(&'a self, grammar: &'a Grammar) -> Job<'a> {
        Job::new(&self.drafted, &self.scope, &self.events, grammar)
    }
}

/// The scope of a recording, its words or its draft: as reviewed where a store has it, else as drafted.
pub(super) fn our_scope(target: &Path) -> anyhow::Result<OurScope> {
    let name = target.display();
    if !target.exists() {
        bail!("`{name}`: there is no such file: check the name and the folder");
    }
    if target.is_dir() {
        bail!("`{name}`: this is a folder: name a recording in it, or its scope");
    }
    let drafted = drafted_beside(target)?;
    if let Some(scope) = reviewed(target, drafted.as_ref())? {
        return Ok(scope);
    }
    match drafted {
        Some(draft) => Ok(OurScope::of(draft)),
        None => bail!("`{name}` isn't drafted yet. Draft it first: eavesdraft draft {name}"),
    }
}

/// The draft itself, or the one beside a recording or its words; none where there is none.
fn drafted_beside(target: &Path) -> anyhow::Result<Option<Draft>> {
    let itself = target.to_string_lossy().ends_with(&format!(".{ENDING}"));
    let file = if itself { target.to_owned() } else { Place::beside(target).file(ENDING) };
    if !file.exists() {
        return Ok(None);
    }
    let name = file.display();
    let text = std::fs::read_to_string(&file).with_context(|| format!("`{name}`: it can't be read"))?;
    let draft = serde_json::from_str(&text)
        .with_context(|| format!("`{name}`: this is no draft that eavesdraft wrote"))?;
    Ok(Some(draft))
}

/// The scope as it was reviewed; none where no store in the folder, or in those above it, has the recording.
fn reviewed(target: &Path, drafted: Option<&Draft>) -> anyhow::Result<Option<OurScope>> {
    let place = target.canonicalize()?;
    for folder in place.ancestors().skip(1).filter(|folder| folder.join(store::FILE).is_file()) {
        let store = Store::open(folder)?;
        if let Some(found) = kept(&store, &place, drafted)? {
            let events = store.events(&found.recording.id, 0)?;
            let (scope, strays) = scope_and_strays(&found.draft, &events);
            let notices = as_reviewed(&found.draft, &scope, strays.len());
            return Ok(Some(OurScope { drafted: found.draft, events, scope, notices }));
        }
    }
    Ok(None)
}

/// What a person should know of a scope that was reviewed.
fn as_reviewed(drafted: &Draft, scope: &Scope, strays: usize) -> Vec<String> {
    let mut notices = vec![match &scope.signed_off {
        Some(done) => format!("our scope is as {} signed it off on {}", done.who, date(&done.at)),
        None => "our scope is as it stands in the review; it isn't signed off yet".to_owned(),
    }];
    notices.extend(open(&scope.draft(drafted)));
    if strays > 0 {
        let lines = count(strays, "reviewed line is", "reviewed lines are");
        notices.push(format!("{lines} no longer in the draft, and not compared: see the review page"));
    }
    notices
}

fn open(draft: &Draft) -> Vec<String> {
    let looks = draft.lines.iter().filter(|line| line.needs_look()).count();
    let told = || {
        format!(
            "{} review: finish that first if you can",
            count(looks, "line of ours still needs", "lines of ours still need")
        )
    };
    (looks > 0).then(told).into_iter().collect()
}

/// A recording as a store keeps it: known by its digest, else by its name where one only has it.
fn kept(store: &Store, target: &Path, drafted: Option<&Draft>) -> anyhow::Result<Option<Drafted>> {
    let of_draft = drafted.and_then(|draft| draft.digest.clone());
    let digests = of_draft.into_iter().chain(digest::of_file(target).ok());
    for id in digests {
        if let Some(found) = store.drafted(&id)? {
            return Ok(Some(found));
        }
    }
    let named = |recording: &&Recording| {
        let source = drafted.map_or_else(|| stem(target), |draft| stem(Path::new(&draft.source)));
        stem(Path::new(&recording.name)) == source && recording.path.parent() == target.parent()
    };
    let all = store.recordings()?;
    let mut found = all.iter().filter(named);
    match (found.next(), found.next()) {
        (Some(one), None) => Ok(store.drafted(&one.id)?),
        _ => Ok(None),
    }
}
