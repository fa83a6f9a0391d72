//! Drafts in a folder: what `draft` has written beside the recordings.

use super::Recording;
use crate::draft::Draft;
use crate::filing::Place;
use crate::pipeline;
use crate::words::Transcript;
use crate::words::read::Source;
use anyhow::{Context, bail};
use std::path::{Path, PathBuf};

/// What ends the name of a draft.
const ENDING: &str = "scope.json";

/// A draft with its words.
#[derive(Debug)]
pub struct Found {
    /// The recording.
    pub recording: Recording,
    /// Its words.
    pub transcript: Transcript,
    /// Its draft.
    pub draft: Draft,
}

/// The drafts of a folder and of the folders in it, or the one of a recording, text or draft; and why others can't be
/// read. Recordings that aren't beside their draft are looked for in `recordings`.
///
/// # Errors
/// Where the folder can't be read, or nothing is drafted there.
pub fn find(target: &Path, recordings: Option<&Path>) -> anyhow::Result<(Vec<Found>, Vec<anyhow::Error>)> {
    let mut drafts = Vec::new();
    if target.is_dir() {
        walk(target, &mut drafts)?;
        drafts.sort();
        if drafts.is_empty() {
            bail!(
                "{}: no drafts here. Draft the recordings first: eavesdraft draft RECORDING …",
                target.display()
            );
        }
    } else {
        let draft = Place::beside(target).file(ENDING);
        if !draft.exists() {
            if !target.exists() {
                bail!("{}: no such file or folder", target.display());
            }
            bail!("{} isn't drafted yet. Draft it first: eavesdraft draft {0}", target.display());
        }
        drafts.push(draft);
    }
    let (mut found, mut failed) = (Vec::new(), Vec::new());
    for draft in drafts {
        match read(&draft, recordings) {
            Ok(one) => found.push(one),
            Err(error) => failed.push(error),
        }
    }
    Ok((found, failed))
}

fn walk(folder: &Path, drafts: &mut Vec<PathBuf>) -> anyhow::Result<()> {
    let unreadable = || format!("{}: can't be read", folder.display());
    for entry in std::fs::read_dir(folder).with_context(unreadable)? {
        let entry = entry.with_context(unreadable)?;
        let path = entry.path();
        // A link to a folder above would never end.
        if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
            walk(&path, drafts)?;
        } else if path.to_string_lossy().ends_with(&format!(".{ENDING}")) {
            drafts.push(path);
        }
    }
    Ok(())
}

fn read(file: &Path, recordings: Option<&Path>) -> anyhow::Result<Found> {
    let text = std::fs::read_to_string(file).with_context(|| format!("{}: can't be read", file.display()))?;
    let draft: Draft = serde_json::from_str(&text)
        .with_context(|| format!("{}: this is no draft that eavesdraft wrote", file.display()))?;
    let beside = Place::beside(file);
    let name = Path::new(&draft.source).file_name().unwrap_or_default();
    let near = file.parent().unwrap_or(Path::new("")).join(name);
    let elsewhere = recordings.map(|folder| folder.join(name)).filter(|path| path.exists() && !near.exists());
    let source = elsewhere.unwrap_or(near);
    let stored = beside.file("transcript.json");
    let words = if stored.exists() { &stored } else { &source };
    let transcript = match pipeline::open(words, &words.to_string_lossy()) {
        Ok(Source::Words(transcript)) => transcript,
        _ => bail!(
            "{}: its words are missing: {} belongs beside it. Draft the recording again.",
            file.display(),
            stored.file_name().unwrap_or_default().to_string_lossy()
        ),
    };
    let id = draft.digest.clone().unwrap_or_else(|| crate::digest::of_bytes(transcript.text().0.as_bytes()));
    let recording = Recording { id, name: draft.source.clone(), path: source };
    Ok(Found { recording, transcript, draft })
}
