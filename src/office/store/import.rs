//! Drafts in a folder: what `draft` has written beside the recordings. Files that are as they were are not read again.

use super::{Origin, Put, Recording, Store, StoreError, size_and_change};
use crate::model::Draft;
use crate::output::files::Place;
use crate::pipeline;
use crate::speech::Transcript;
use crate::speech::read::Source;
use anyhow::{Context, bail};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// What ends the name of a draft.
const ENDING: &str = "scope.json";

/// What ends the name of the words it was made from.
const WORDS_ENDING: &str = "transcript.json";

/// How many drafts are put into the store in one transaction: so few that others who write hardly wait.
const AT_ONCE: usize = 256;

/// A file that was changed so lately may be changed once more without its time telling.
const STILL: Duration = Duration::from_secs(2);

/// What became of the drafts of a folder.
#[derive(Debug, Default)]
pub struct Taken {
    /// The recordings that are drafted there, by id, in the order of their drafts.
    pub shown: Vec<String>,
    /// How many have a new draft.
    pub redrafted: usize,
    /// Why others can't be read.
    pub failed: Vec<anyhow::Error>,
}

/// A draft with its words.
struct Found {
    recording: Recording,
    transcript: Transcript,
    draft: Draft,
    /// The files, as they were before they were read; none where they can't be told from later ones.
    state: Option<FileStates>,
}

/// A draft's file and that of its words, each with its size and time of change.
type FileStates = [(PathBuf, (u64, i64)); 2];

/// A draft that the store has already, or one that was read.
enum One {
    /// By id, and where the recording is now where that is elsewhere than the last time.
    Known(String, Option<PathBuf>),
    Read(Box<Found>),
}

/// The drafts of a folder and of the folders in it, or the one of a recording, text or draft.
///
/// # Errors
/// Where the folder can't be read, or nothing is drafted there.
pub fn drafts(target: &Path) -> anyhow::Result<Vec<PathBuf>> {
    if target.is_dir() {
        let mut drafts = Vec::new();
        walk(target, &mut drafts)?;
        drafts.sort();
        if drafts.is_empty() {
            bail!(
                "{}: no drafts here. Draft the recordings first: eavesdraft draft RECORDING …",
                target.display()
            );
        }
        return Ok(drafts);
    }
    let draft = Place::beside(target).file(ENDING);
    if !draft.exists() {
        if !target.exists() {
            bail!("{}: no such file or folder", target.display());
        }
        bail!("{} isn't drafted yet. Draft it first: eavesdraft draft {0}", target.display());
    }
    Ok(vec![draft])
}

/// Why not one of the drafts can be read; none where one can. Where nothing can be reviewed no store is made.
pub fn unreadable(drafts: &[PathBuf], recordings: Option<&Path>) -> Option<Vec<anyhow::Error>> {
    let mut faults = Vec::new();
    for draft in drafts {
        match read(draft, recordings, None) {
            Ok(_) => return None,
            Err(fault) => faults.push(fault),
        }
    }
    Some(faults)
}

/// Puts drafts into the store, those that it doesn't have yet. Recordings that aren't beside their draft are looked for
/// in `recordings`.
///
/// # Errors
/// Where the store can't be read or written.
pub fn take_in(
    store: &mut Store,
    drafts: &[PathBuf],
    recordings: Option<&Path>,
    at: &str,
) -> Result<Taken, StoreError> {
    let mut taken = Taken::default();
    let mut seen = std::collections::HashSet::new();
    for some in drafts.chunks(AT_ONCE) {
        let (mut found, mut moved) = (Vec::new(), Vec::new());
        for draft in some {
            let id = match one(store, draft, recordings)? {
                Ok(One::Known(id, elsewhere)) => {
                    moved.extend(elsewhere.map(|path| (id.clone(), path)));
                    id
                }
                Ok(One::Read(read)) => {
                    let id = read.recording.id.clone();
                    found.push(read);
                    id
                }
                Err(error) => {
                    taken.failed.push(error);
                    continue;
                }
            };
            if seen.insert(id.clone()) {
                taken.shown.push(id);
            }
        }
        if !found.is_empty() || !moved.is_empty() {
            taken.redrafted += store.at_once(|store| {
                moved.iter().try_for_each(|(id, path)| store.moved(id, path))?;
                put(store, &found, at)
            })?;
        }
    }
    Ok(taken)
}

/// How many have a new draft.
fn put(store: &Store, found: &[Box<Found>], at: &str) -> Result<usize, StoreError> {
    let mut redrafted = 0;
    for one in found {
        let put = store.put_one(&one.recording, &one.transcript, &one.draft, Origin::Folder, at)?;
        redrafted += usize::from(put == Put::Redrafted);
        for (path, (size, changed)) in one.state.iter().flatten() {
            store.take_file(path, *size, *changed, &one.recording.id)?;
        }
    }
    Ok(redrafted)
}

fn one(store: &Store, file: &Path, recordings: Option<&Path>) -> Result<anyhow::Result<One>, StoreError> {
    let state = states(file);
    if let Some(id) = state.as_ref().map(|state| known(store, state)).transpose()?.flatten()
        && let Some(path) = store.path(&id)?
    {
        let name = path.file_name().unwrap_or_default();
        let now = place(file, name, recordings);
        return Ok(Ok(One::Known(id, (now != path).then_some(now))));
    }
    Ok(read(file, recordings, state).map(|found| One::Read(Box::new(found))))
}

/// The recording that unchanged files are of: for a draft and its words that is the digest that is remembered.
fn known(store: &Store, [draft, words]: &FileStates) -> Result<Option<String>, StoreError> {
    let of = |(path, (size, changed)): &(PathBuf, (u64, i64))| store.taken_file(path, *size, *changed);
    let id = of(draft)?;
    Ok(if id.is_some() && of(words)? == id { id } else { None })
}

/// The files of a draft as they are now; none where one isn't there, or was changed a moment ago.
fn states(file: &Path) -> Option<FileStates> {
    let state = |path: PathBuf| {
        let metadata = path.metadata().ok()?;
        let age = SystemTime::now().duration_since(metadata.modified().ok()?).ok()?;
        (age > STILL).then(|| (path, size_and_change(&metadata)))
    };
    let words = Place::beside(file).file(WORDS_ENDING);
    Some([state(file.to_owned())?, state(words)?])
}

/// Where a draft's recording is: beside it, or in the folder of the recordings.
fn place(file: &Path, name: &OsStr, recordings: Option<&Path>) -> PathBuf {
    let near = file.parent().unwrap_or(Path::new("")).join(name);
    let elsewhere = recordings.map(|folder| folder.join(name)).filter(|path| path.exists() && !near.exists());
    elsewhere.unwrap_or(near)
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

fn read(file: &Path, recordings: Option<&Path>, state: Option<FileStates>) -> anyhow::Result<Found> {
    let text = std::fs::read_to_string(file).with_context(|| format!("{}: can't be read", file.display()))?;
    let draft: Draft = serde_json::from_str(&text)
        .with_context(|| format!("{}: this isn't a draft that eavesdraft wrote", file.display()))?;
    let beside = Place::beside(file);
    // Of a visit in several clips the first is looked for; the others lie beside it.
    let name = draft.clips.first().map_or(&draft.source, |clip| &clip.source);
    let source = place(file, Path::new(name).file_name().unwrap_or_default(), recordings);
    let stored = beside.file(WORDS_ENDING);
    let words = if stored.exists() { &stored } else { &source };
    let transcript = match pipeline::open(words, &words.to_string_lossy()) {
        Ok(Source::Words(transcript)) => transcript,
        _ => bail!(
            "{}: its words are missing: {} belongs beside it. Draft the recording again.",
            file.display(),
            stored.file_name().unwrap_or_default().to_string_lossy()
        ),
    };
    let id = draft
        .digest
        .clone()
        .unwrap_or_else(|| crate::model::digest::of_bytes(transcript.text().0.as_bytes()));
    let recording = Recording { id, name: draft.source.clone(), path: source };
    Ok(Found { recording, transcript, draft, state })
}
