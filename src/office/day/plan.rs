//! What is to be done with each visit: nothing where its draft was made of the same words by the same rules, else what is
//! lacking.

use super::event::{Event, Row, Skipped};
use super::find::{FoundFile, Stamp};
use super::visits::{Visit, VisitBy, visits};
use crate::model::digest;
use crate::office::retry::SkipList;
use crate::office::store::{Store, StoreError};
use crate::output::files::{self, Place};
use crate::pipeline;
use crate::speech::Transcript;
use crate::speech::read::{self, Source};
use anyhow::bail;
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};

/// The documents of a visit, by what ends their names.
pub(super) const SCOPE: [&str; 2] = ["scope.json", "scope.html"];

/// What ends the name of words.
pub(super) const WORDS: &str = "transcript.json";

/// A visit with something to be done.
#[derive(Debug)]
pub(super) struct Work {
    /// What it is known by.
    pub id: String,
    /// The property.
    pub name: String,
    /// Where its documents go.
    pub place: Place,
    /// Its recordings.
    pub clips: Vec<Clip>,
}

/// A recording, or stored words.
#[derive(Debug)]
pub(super) struct Clip {
    pub file: PathBuf,
    pub is_sound: bool,
    pub stamp: Stamp,
    /// SHA-256 of the recording.
    pub digest: String,
    /// Where its words go.
    pub place: Place,
}

/// All visits, by what is to be done with them.
#[derive(Debug, Default)]
pub(super) struct Plan {
    /// Those with something to be done.
    pub works: Vec<Work>,
    /// Those whose draft stands.
    pub done: Vec<Row>,
    /// Files that can't be worked on.
    pub skipped: Vec<Skipped>,
    /// Files that have the bytes of others, and which.
    pub same: Vec<(PathBuf, PathBuf)>,
    /// Files whose visit waits.
    pub waiting: Vec<FoundFile>,
    /// How many visits there are.
    pub visits: usize,
}

/// What plans are made with.
pub(super) struct Planner<'a> {
    pub store: &'a Store,
    /// The day's folder, and the folder that everything is written into, if not beside the recordings.
    pub folder: &'a Path,
    pub out: Option<&'a Path>,
    pub by: VisitBy,
    /// What all drafts depend on besides the words: rules, program and recognizer.
    pub stamp: &'a str,
}

impl Planner<'_> {
    /// Plans for `files`, of which those in `moving` are still being copied, and those in `skipped` are not tried again.
    pub fn plan(
        &self,
        files: &[FoundFile],
        moving: &HashSet<PathBuf>,
        skipped: &SkipList<Stamp>,
    ) -> anyhow::Result<Plan> {
        let mut plan = Plan::default();
        let (mut known, mut names) = (Known::new(), Names::default());
        // Words may be those of a recording that was renamed: recordings come first.
        for visit in self.visits(files, true).into_iter().chain(self.visits(files, false)) {
            let files: Vec<&FoundFile> = visit.clips.iter().map(|n| &files[*n]).collect();
            let known_bad = |file: &FoundFile| {
                let why = skipped.why(&file.path, &file.stamp)?;
                Some(Skipped { file: file.path.clone(), why: why.to_owned() })
            };
            if files.iter().any(|file| moving.contains(&file.path)) {
                plan.waiting.extend(files.into_iter().cloned());
            } else if let [file] = &files[..]
                && let Some(skipped) = known_bad(file)
            {
                // Of several clips the others are drafted without the one that fails.
                plan.skipped.push(skipped);
            } else {
                let clips = self.clips(&visit, &files, (&mut known, &mut names), &mut plan);
                self.sort(visit, clips, &mut names, &mut plan)?;
            }
        }
        Ok(plan)
    }

    /// The clips of a visit, without those that were met before.
    fn clips(
        &self,
        visit: &Visit,
        files: &[&FoundFile],
        (known, names): (&mut Known, &mut Names),
        plan: &mut Plan,
    ) -> Vec<Clip> {
        let mut clips = Vec::new();
        for &file in files {
            let digest = match identity(self.store, file) {
                Ok(digest) => digest,
                Err(error) => {
                    plan.skipped.push(Skipped { file: file.path.clone(), why: format!("{error:#}") });
                    continue;
                }
            };
            match known.get(&digest) {
                // Words of a recording that is here, too, under whatever name.
                Some((_, true)) if !file.is_sound => {}
                Some((other, _)) => plan.same.push((file.path.clone(), other.clone())),
                None => {
                    known.insert(digest.clone(), (file.path.clone(), file.is_sound));
                    let place = self.place(visit, names.of(file, &visit.folder));
                    let FoundFile { path, is_sound, stamp } = file.clone();
                    clips.push(Clip { file: path, is_sound, stamp, digest, place });
                }
            }
        }
        clips
    }

    /// The visits that recordings are of, or words; the two aren't mixed.
    fn visits(&self, files: &[FoundFile], is_sound: bool) -> Vec<Visit> {
        let these: Vec<usize> = (0..files.len()).filter(|n| files[*n].is_sound == is_sound).collect();
        let paths: Vec<PathBuf> = these.iter().map(|n| files[*n].path.clone()).collect();
        let mut visits = visits(&paths, self.folder, self.by);
        visits.iter_mut().flat_map(|visit| &mut visit.clips).for_each(|n| *n = these[*n]);
        visits
    }

    fn sort(
        &self,
        visit: Visit,
        clips: Vec<Clip>,
        names: &mut Names,
        plan: &mut Plan,
    ) -> Result<(), StoreError> {
        if clips.is_empty() {
            return Ok(());
        }
        plan.visits += 1;
        let alone = clips.len() == 1 && files::stem(&clips[0].file) == visit.name;
        let place = if alone { clips[0].place.clone() } else { self.place(&visit, names.of_visit(&visit)) };
        let work = Work { id: clips[0].digest.clone(), name: visit.name, place, clips };
        match self.row(&work)? {
            Some(row) => plan.done.push(row),
            None => plan.works.push(work),
        }
        Ok(())
    }

    fn place(&self, visit: &Visit, stem: String) -> Place {
        match self.out {
            None => Place::inside(&visit.folder, stem),
            Some(out) => {
                let within = visit.folder.strip_prefix(self.folder).unwrap_or(Path::new(""));
                Place::inside(&out.join(within), stem)
            }
        }
    }

    /// The summary's row of a visit whose draft stands.
    fn row(&self, work: &Work) -> Result<Option<Row>, StoreError> {
        let Some(made) = self.store.made(&work.id)? else { return Ok(None) };
        let there = SCOPE.iter().all(|ending| work.place.file(ending).exists());
        let fresh = there && made.of == work.made_of(self.stamp, self.store)?;
        let tally = serde_json::from_str(&made.told).ok().filter(|_| fresh);
        Ok(tally.map(|tally| work.row(tally)))
    }
}

impl Work {
    /// Whether it is one recording that the property is named after: its documents are those of the recording.
    pub fn is_alone(&self) -> bool {
        self.clips.len() == 1 && self.place == self.clips[0].place
    }

    /// The summary's row.
    pub fn row(&self, tally: super::Tally) -> Row {
        Row {
            id: self.id.clone(),
            property: self.name.clone(),
            files: self.clips.iter().map(|clip| clip.file.clone()).collect(),
            page: self.place.file("scope.html"),
            tally,
        }
    }

    /// The digest of everything that the draft is made of: words as they lie beside the recordings, so that those a
    /// person corrects count, and `stamp`.
    pub fn made_of(&self, stamp: &str, store: &Store) -> Result<String, StoreError> {
        let mut all = format!("{stamp} {}", self.name);
        for clip in &self.clips {
            let words = if clip.is_sound { clip.words_digest(store)? } else { None };
            all += &format!(" {} {} {}", files::stem(&clip.file), clip.digest, words.unwrap_or_default());
        }
        Ok(digest::of_bytes(all.as_bytes()))
    }
}

impl Clip {
    /// The digest of the words beside the recording; none where there are none.
    pub fn words_digest(&self, store: &Store) -> Result<Option<String>, StoreError> {
        let file = self.place.file(WORDS);
        let Ok(stamp) = Stamp::of(&file) else { return Ok(None) };
        known_digest(store, &file, stamp)
    }
}

/// A file's digest, read only where it isn't known of this size and time; none where it can't be read.
pub(super) fn known_digest(store: &Store, file: &Path, stamp: Stamp) -> Result<Option<String>, StoreError> {
    if let Some(known) = store.known_file(file, stamp.size, stamp.changed)? {
        return Ok(Some(known));
    }
    let Ok(digest) = digest::of_file(file) else { return Ok(None) };
    // One that is written meanwhile is not what was read.
    if Stamp::of(file).is_ok_and(|now| now == stamp) {
        store.remember_file(file, stamp.size, stamp.changed, &digest)?;
    }
    Ok(Some(digest))
}

/// What a file is known by: of a recording or a text the digest of its bytes, of stored words that of their recording.
fn identity(store: &Store, file: &FoundFile) -> anyhow::Result<String> {
    if !file.is_sound {
        let told = read::head(&file.path).digest.map(Ok);
        let found =
            told.unwrap_or_else(|| words(&file.path).map(|words| words.digest.unwrap_or_default()))?;
        if !found.is_empty() {
            return Ok(found);
        }
    }
    match known_digest(store, &file.path, file.stamp)? {
        Some(digest) => Ok(digest),
        None => bail!("it can't be read: check that you may, and that the drive is there"),
    }
}

/// The files that were met, by their digests, and whether each is a recording.
type Known = HashMap<String, (PathBuf, bool)>;

/// The words that a file holds.
pub(super) fn words(file: &Path) -> anyhow::Result<Transcript> {
    match pipeline::open(file, &file.to_string_lossy())? {
        Source::Words(transcript) => Ok(transcript),
        Source::Sound => bail!("{}: there are no words in it", file.display()),
    }
}

/// Names of documents that are taken.
#[derive(Default)]
struct Names(HashSet<PathBuf>);

impl Names {
    /// The name for the words of a file: its own without the ending, or with it where that is another's.
    fn of(&mut self, file: &FoundFile, folder: &Path) -> String {
        let stem = files::stem(&file.path);
        let whole = file.path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if self.0.insert(folder.join(&stem)) { stem } else { whole }
    }

    /// The name for a visit's documents.
    fn of_visit(&mut self, visit: &Visit) -> String {
        let taken = !self.0.insert(visit.folder.join(&visit.name));
        if taken { format!("{}, whole visit", visit.name) } else { visit.name.clone() }
    }
}

/// What a plan tells at once.
pub(super) fn told(plan: &Plan) -> Vec<Event> {
    let same = plan.same.iter().map(|(file, other)| Event::Same { file: file.clone(), other: other.clone() });
    let waiting = plan.waiting.iter().map(|file| Event::Waiting { file: file.path.clone() });
    same.chain(waiting).chain(plan.skipped.iter().cloned().map(Event::Skipped)).collect()
}
