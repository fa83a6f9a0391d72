//! Working through the visits, several at once: while one is decoded, another is heard and a third drafted and written.
//! They share the recognizer's workers, so that none is idle while a recording begins or ends.

use super::event::{Event, Tally};
use super::failure::{FailedFile, Failure};
use super::find::Stamp;
use super::plan::{Clip, WORDS, Work, known_digest, words};
use crate::language::rules::Grammar;
use crate::model::{Draft, digest};
use crate::office::retry::{Failed, SkipList};
use crate::office::store::{Heard, Made, Origin, Recording, Store};
use crate::output::files::{self, FilingError, Paper, Place, Register};
use crate::pipeline;
use crate::speech::{Recognizer, Transcript, clips, write};
use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Instant;

/// A recognizer with its fingerprint, or why there is none.
pub(super) type Ready = Result<(Arc<dyn Recognizer>, String), String>;

/// All that those who work on the visits of a round share.
pub(super) struct Workload {
    pub store: Mutex<Store>,
    pub grammar: Arc<Grammar>,
    /// What all drafts depend on besides the words.
    pub stamp: String,
    pub recognizer: Ready,
    /// The documents that are spoken for.
    pub register: Mutex<Register>,
    pub queue: Mutex<VecDeque<Work>>,
    /// The files that are skipped.
    pub skipped: SkipList<Stamp>,
    /// Held while a visit is written and kept, so that whoever stops the run can wait for that.
    pub keeping: Mutex<()>,
    /// No more is begun.
    pub stop: Arc<AtomicBool>,
}

/// What a worker tells.
pub(super) enum News {
    Event(Event),
    /// A recording, or a visit for one of its recordings, failed.
    Failed(FailedFile),
    /// Nothing more can be done at all.
    Fatal(anyhow::Error),
}

/// A lock whose holder panicked still holds what it held.
pub(super) fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Workload {
    /// Works until the queue is empty, the run is stopped, or nothing more can be done.
    pub fn work(&self, news: &Sender<News>) {
        while !self.stopped() {
            let Some(work) = locked(&self.queue).pop_front() else { return };
            let first = &work.clips[0];
            let done = catch_unwind(AssertUnwindSafe(|| self.visit(&work, news))).unwrap_or_else(|_| {
                let why = "the program crashed on it. That is a fault of the program: please report it";
                Err(Failure::of(first, Failed::permanent(why)))
            });
            let told = match done {
                Ok(()) => continue,
                Err(Failure::Stopped) => return,
                Err(Failure::Own(failed)) => News::Failed(failed),
                Err(Failure::Everyones(error)) => {
                    self.stop.store(true, Ordering::SeqCst);
                    News::Fatal(error)
                }
            };
            // Nobody listens any more only where the run is over.
            let _ = news.send(told);
        }
    }

    fn stopped(&self) -> bool {
        self.stop.load(Ordering::SeqCst)
    }

    fn visit(&self, work: &Work, news: &Sender<News>) -> Result<(), Failure> {
        let Some(Spoken { transcript, seconds, mut papers, whole }) = self.spoken(work, news)? else {
            return Ok(());
        };
        let draft = pipeline::draft(&transcript, &self.grammar);
        let mut scope = pipeline::draft_on_paper(&draft);
        if !work.is_alone() {
            scope.push(Paper { ending: WORDS, bytes: write::json(&transcript) });
        }
        papers.push((work.place.clone(), scope));
        let tally = Tally::of(&draft, seconds);
        let keeping = locked(&self.keeping);
        if self.stopped() {
            return Err(Failure::Stopped);
        }
        self.file(work, papers)?;
        self.keep(work, &transcript, &draft, whole.then_some(tally))?;
        drop(keeping);
        let _ = news.send(News::Event(Event::Drafted(work.row(tally))));
        Ok(())
    }

    /// What was said on a visit; none where nothing of it can be heard. A clip that fails is told, and the others are
    /// taken without it.
    fn spoken(&self, work: &Work, news: &Sender<News>) -> Result<Option<Spoken>, Failure> {
        let (mut heard, mut seconds, mut papers, mut lacking) = (Vec::new(), None, Vec::new(), Vec::new());
        for clip in &work.clips {
            if self.stopped() {
                return Err(Failure::Stopped);
            }
            match self.words(clip, news) {
                Ok(Words::Given(transcript)) => heard.push(transcript),
                Ok(Words::Heard(words)) => {
                    *seconds.get_or_insert(0.0) += words.seconds;
                    papers.push((clip.place.clone(), pipeline::words_on_paper(&words.transcript)));
                    heard.push(words.transcript);
                }
                Err(Failure::Own(failed)) => {
                    let name = failed.file.file_name().unwrap_or_default().to_string_lossy();
                    lacking.push(format!("{name} is not in this draft: {}", failed.failed.why));
                    let _ = news.send(News::Failed(failed));
                }
                Err(other) => return Err(other),
            }
        }
        if heard.is_empty() {
            return Ok(None);
        }
        let mut transcript = if work.is_alone() { heard.remove(0) } else { clips::join(&work.name, heard) };
        let whole = lacking.is_empty();
        transcript.notices.extend(lacking);
        Ok(Some(Spoken { transcript, seconds, papers, whole }))
    }

    /// The words of a recording: those that a person corrected, or that were heard already, or now.
    fn words(&self, clip: &Clip, news: &Sender<News>) -> Result<Words, Failure> {
        let own = |error: anyhow::Error| Failure::permanent(clip, &error);
        if let Some(why) = self.skipped.why(&clip.file, &clip.stamp) {
            return Err(Failure::of(clip, Failed::permanent(why)));
        }
        if !clip.is_sound {
            return words(&clip.file).map(Words::Given).map_err(own);
        }
        let fingerprint = self.recognizer.as_ref().ok().map(|(_, fingerprint)| fingerprint.as_str());
        let store = locked(&self.store);
        let kept = store.heard(&clip.digest, fingerprint)?;
        let any = if kept.is_some() { kept.clone() } else { store.heard(&clip.digest, None)? };
        let beside = clip.words_digest(&store)?;
        drop(store);
        let ours = any.map(|any| digest::of_bytes(&write::json(&any.transcript)));
        if beside.is_some() && beside != ours {
            let given = words(&clip.place.file(WORDS)).map_err(own)?;
            if given.digest.as_ref() == Some(&clip.digest) && given.clips.is_empty() {
                return Ok(Words::Given(given));
            }
        }
        match kept {
            Some(kept) => Ok(Words::Heard(renamed(kept, clip))),
            None => self.hear(clip, news).map(Words::Heard),
        }
    }

    fn hear(&self, clip: &Clip, news: &Sender<News>) -> Result<Heard, Failure> {
        let (recognizer, fingerprint) = match &self.recognizer {
            Ok(ready) => ready,
            Err(why) => return Err(Failure::Everyones(anyhow::anyhow!("{why}"))),
        };
        let begun = Instant::now();
        let transcript = pipeline::hear(&clip.file, &**recognizer, &mut |progress| {
            let _ = news.send(News::Event(Event::Hearing { file: clip.file.clone(), done: progress.done }));
        });
        let transcript = transcript.map_err(|error| Failure::of(clip, Failed::from(&error)))?;
        if transcript.digest.as_ref() != Some(&clip.digest) {
            let why = "it was changed while it was heard: run again once it stays as it is";
            return Err(Failure::of(clip, Failed::passing(why)));
        }
        let seconds = if recognizer.repeats() { 0.0 } else { begun.elapsed().as_secs_f64() };
        let heard = Heard { transcript, seconds };
        locked(&self.store).keep_heard(&clip.digest, fingerprint, &heard, &now())?;
        let length = heard.transcript.length.unwrap_or_default().seconds();
        let told = Event::Heard { file: clip.file.clone(), length, seconds: heard.seconds };
        let _ = news.send(News::Event(told));
        Ok(heard)
    }

    fn file(&self, work: &Work, papers: Vec<(Place, Vec<Paper>)>) -> Result<(), Failure> {
        let (first, mut register) = (&work.clips[0], locked(&self.register));
        for (place, papers) in &papers {
            let endings: Vec<&str> = papers.iter().map(|paper| paper.ending).collect();
            let claimed = register.claim(place, &endings, &work.name);
            claimed.map_err(|error| Failure::permanent(first, &error.into()))?;
        }
        drop(register);
        for (place, papers) in &papers {
            files::save(place, papers).map_err(|error| match error {
                FilingError::Unwritten { .. } => Failure::Everyones(error.into()),
                other => Failure::permanent(first, &other.into()),
            })?;
        }
        Ok(())
    }

    /// Puts the draft into the store. `tally`: its numbers where it is finished; none where a clip is lacking, which is
    /// tried again the next time.
    fn keep(
        &self,
        work: &Work,
        transcript: &Transcript,
        draft: &Draft,
        tally: Option<Tally>,
    ) -> Result<(), Failure> {
        let mut store = locked(&self.store);
        let path = work.clips[0].file.clone();
        let id = transcript.digest.clone().unwrap_or_else(|| work.id.clone());
        let recording = Recording { id, name: draft.source.clone(), path };
        store.put(&recording, transcript, draft, Origin::Here, &now())?;
        // Known from now on, so that a later run needn't read them.
        for clip in work.clips.iter().filter(|clip| clip.is_sound) {
            let words = clip.place.file(WORDS);
            if let Ok(stamp) = Stamp::of(&words) {
                known_digest(&store, &words, stamp)?;
            }
        }
        for file in [work.place.file("scope.json"), work.place.file(WORDS)] {
            if let Ok(Stamp { size, changed }) = Stamp::of(&file) {
                store.take_file(&file, size, changed, &recording.id)?;
            }
        }
        let Some(tally) = tally else { return Ok(()) };
        let of = work.made_of(&self.stamp, &store)?;
        let told = serde_json::to_string(&tally).unwrap_or_default();
        Ok(store.keep_made(&work.id, &Made { of, told })?)
    }
}

/// What was said on a visit.
struct Spoken {
    transcript: Transcript,
    /// How long hearing took; none where nothing was heard.
    seconds: Option<f64>,
    /// The words of each clip, to be written.
    papers: Vec<(Place, Vec<Paper>)>,
    /// No clip is lacking.
    whole: bool,
}

/// Words, and where they come from.
enum Words {
    /// A file of words: it stays as it is.
    Given(Transcript),
    /// The recording.
    Heard(Heard),
}

/// A recording may have another name by now than when it was heard.
fn renamed(mut heard: Heard, clip: &Clip) -> Heard {
    let name = clip.file.file_name().unwrap_or_default().to_string_lossy();
    heard.transcript.source = name.into_owned();
    heard
}

fn now() -> String {
    jiff::Timestamp::now().to_string()
}
