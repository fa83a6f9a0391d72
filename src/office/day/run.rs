//! A run over a day's folder, from looking what there is to the last visit.

use super::event::{Event, Skipped};
use super::failure::FailedFile;
use super::find::{FoundFile, Stamp, find};
use super::lock::Lock;
use super::outcome::DayOutcome;
use super::plan::{Plan, Planner, Work, told};
use super::still;
use super::visits::VisitBy;
use super::work::{News, Ready, Workload, locked};
use crate::language::rules::Grammar;
use crate::office::retry::SkipList;
use crate::office::store::Store;
use crate::output::files::Register;
use crate::speech::{Recognizer, sound};
use anyhow::bail;
use std::collections::{HashMap, HashSet};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

/// Visits that are worked on at once: one is heard while the next is decoded and the last one drafted and written.
/// A third would only divide the same workers.
const WORKERS: usize = 2;

/// How often it is asked whether to stop.
const GLANCE: Duration = Duration::from_millis(100);

/// How long files that are still being copied are waited for once all else is done.
const PATIENCE: Duration = Duration::from_secs(120);

/// What is to be run over.
#[derive(Debug, Clone)]
pub struct Day {
    /// The folder with the recordings; its store is there.
    pub folder: PathBuf,
    /// The folder that documents go into; none for beside the recordings.
    pub out: Option<PathBuf>,
    /// What makes one visit of several recordings.
    pub by: VisitBy,
    /// How long a file must not have changed.
    pub still: Duration,
    /// Whether files that are still being copied are waited for in the end.
    pub patient: bool,
}

/// The rules that drafts are made by.
#[derive(Debug, Clone)]
pub struct Rules {
    /// The rules.
    pub grammar: Arc<Grammar>,
    /// The digest of rules and program: the same one gives the same draft of the same words.
    pub digest: String,
}

/// Gets a recognizer ready, once something has to be heard.
pub type Load<'a> = &'a dyn Fn() -> anyhow::Result<Arc<dyn Recognizer>>;

/// What one run leaves to the next, while the program runs.
#[derive(Debug, Clone, Default)]
pub struct Memory {
    /// The files that are skipped.
    skipped: SkipList<Stamp>,
}

/// Hears and drafts what is new in the day's folder, and tells of it as it goes. `stop` ends it: the visit in hand is
/// written whole or not at all.
///
/// # Errors
/// Where the folder or its store can't be used, or nothing more can be done: no model, no room on the disk. What was done
/// until then is kept.
pub fn run(
    day: &Day,
    rules: &Rules,
    load: Load,
    stop: &Arc<AtomicBool>,
    memory: &mut Memory,
    tell: &mut dyn FnMut(&Event),
) -> anyhow::Result<DayOutcome> {
    if !day.folder.is_dir() {
        bail!("{} is no folder: name one with recordings in it", day.folder.display());
    }
    let _lock = Lock::take(&day.folder)?;
    let begun = Instant::now();
    let mut run =
        Run { day, rules, load, stop, tell, recognizer: None, memory, outcome: DayOutcome::default() };
    let mut store = Store::open(&day.folder)?;
    let mut moving = HashSet::new();
    let mut seen: HashMap<PathBuf, Stamp> = HashMap::new();
    for round in 0.. {
        let files = find(&day.folder, day.out.as_deref())?;
        // What didn't move while it was watched stands, whatever its date says.
        let news = files.iter().filter(|file| seen.get(&file.path) != Some(&file.stamp));
        moving.extend(news.filter(|file| !still::is_still(file.stamp, day.still)).map(path));
        seen = files.iter().map(|file| (file.path.clone(), file.stamp)).collect();
        let (plan, back) = run.round(&files, &moving, store)?;
        store = back;
        if plan.waiting.is_empty() || !day.patient || round > 0 || run.stopped() {
            break;
        }
        let waiting: Vec<FoundFile> =
            plan.waiting.iter().filter(|file| moving.contains(&file.path)).cloned().collect();
        let still_moving = still::moving(&waiting, day.still, PATIENCE, &|| stop.load(Ordering::SeqCst));
        moving = still_moving.iter().map(path).collect();
    }
    let mut outcome = run.outcome;
    outcome.rows.sort_by(|a, b| alphanumeric_sort::compare_path(&a.files[0], &b.files[0]));
    outcome.skipped.sort_by(|a, b| alphanumeric_sort::compare_path(&a.file, &b.file));
    outcome.stopped = stop.load(Ordering::SeqCst);
    outcome.seconds = begun.elapsed().as_secs_f64();
    Ok(outcome)
}

fn path(file: &FoundFile) -> PathBuf {
    file.path.clone()
}

/// How many seconds of sound wasn't heard yet by the recognizer of that fingerprint, as far as the files tell.
fn seconds_to_hear(works: &[Work], store: &Store, fingerprint: &str) -> f64 {
    let sounds = works.iter().flat_map(|work| &work.clips).filter(|clip| clip.is_sound);
    let lengths = sounds.filter_map(|clip| {
        let heard = store.has_heard(&clip.digest, Some(fingerprint)).ok()?;
        sound::Recording::open(&clip.file).ok().filter(|_| !heard)?.expected_seconds()
    });
    lengths.sum()
}

struct Run<'a> {
    day: &'a Day,
    rules: &'a Rules,
    load: Load<'a>,
    stop: &'a Arc<AtomicBool>,
    tell: &'a mut dyn FnMut(&Event),
    recognizer: Option<Ready>,
    memory: &'a mut Memory,
    outcome: DayOutcome,
}

impl Run<'_> {
    fn stopped(&self) -> bool {
        self.stop.load(Ordering::SeqCst)
    }

    /// Works on everything that doesn't move. Takes the store, and gives it back.
    fn round(
        &mut self,
        files: &[FoundFile],
        moving: &HashSet<PathBuf>,
        store: Store,
    ) -> anyhow::Result<(Plan, Store)> {
        let recognizer = self.recognizer(files);
        let fingerprint =
            recognizer.as_ref().map(|(_, fingerprint)| fingerprint.as_str()).unwrap_or_default();
        let stamp = format!("{} {fingerprint}", self.rules.digest);
        let Day { folder, out, by, .. } = self.day;
        let planner = Planner { store: &store, folder, out: out.as_deref(), by: *by, stamp: &stamp };
        let mut plan = planner.plan(files, moving, &self.memory.skipped)?;
        let works = std::mem::take(&mut plan.works);
        let to_hear = seconds_to_hear(&works, &store, fingerprint);
        self.announce(&plan, files.len(), works.len(), to_hear);
        let workload = Workload {
            store: Mutex::new(store),
            grammar: Arc::clone(&self.rules.grammar),
            stamp,
            recognizer,
            register: Mutex::new(Register::new(files.iter().map(|file| file.path.as_path()))),
            queue: Mutex::new(works.into()),
            skipped: self.memory.skipped.clone(),
            keeping: Mutex::default(),
            stop: Arc::clone(self.stop),
        };
        let store = self.work(Arc::new(workload))?;
        Ok((plan, store))
    }

    /// Tells what there is to be done, and what is done already.
    fn announce(&mut self, plan: &Plan, files: usize, to_do: usize, to_hear: f64) {
        (self.tell)(&Event::Found { files, visits: plan.visits, to_do, to_hear });
        told(plan).iter().for_each(|event| (self.tell)(event));
        self.outcome.rows.clone_from(&plan.done);
        self.outcome.same.clone_from(&plan.same);
        self.outcome.skipped.clone_from(&plan.skipped);
        self.outcome.waiting = plan.waiting.iter().map(path).collect();
    }

    /// Works until all is done, the run is stopped, or nothing more can be done. Gives the store back.
    fn work(&mut self, workload: Arc<Workload>) -> anyhow::Result<Store> {
        let (news, told) = channel();
        let worker = |_| {
            let (workload, news) = (Arc::clone(&workload), news.clone());
            thread::spawn(move || workload.work(&news))
        };
        let workers: Vec<_> = (0..WORKERS).map(worker).collect();
        drop(news);
        let fatal = self.listen(&told);
        if self.stopped() && fatal.is_none() {
            // What is being written is written to its end. The workers themselves are left behind: a chunk takes the
            // recognizer seconds, and nothing of it is kept.
            drop(locked(&workload.keeping));
            return Ok(Store::open(&self.day.folder)?);
        }
        for worker in workers {
            // A panic was told by the worker.
            let _ = worker.join();
        }
        if let Some(error) = fatal {
            bail!("{error:#}. What was done so far is kept: run it again to go on");
        }
        match Arc::into_inner(workload) {
            Some(workload) => Ok(workload.store.into_inner().unwrap_or_else(PoisonError::into_inner)),
            None => Ok(Store::open(&self.day.folder)?),
        }
    }

    /// The recognizer, made ready where there is a recording.
    fn recognizer(&mut self, files: &[FoundFile]) -> Ready {
        if !files.iter().any(|file| file.is_sound) {
            return Err("nothing was to be heard".to_owned());
        }
        let (load, mut lacks) = (self.load, None);
        let mut ready = || {
            let recognizer = load()?;
            let fingerprint = recognizer.fingerprint()?;
            lacks = recognizer.lacks();
            Ok((recognizer, fingerprint))
        };
        let recognizer = self
            .recognizer
            .get_or_insert_with(|| ready().map_err(|error: anyhow::Error| format!("{error:#}")));
        let recognizer = recognizer.clone();
        lacks.into_iter().for_each(|note| (self.tell)(&Event::Note { note }));
        recognizer
    }

    /// Tells what the workers tell, until they are done or the run is stopped; gives what ended it before its time.
    fn listen(&mut self, told: &Receiver<News>) -> Option<anyhow::Error> {
        loop {
            match told.recv_timeout(GLANCE) {
                Ok(News::Event(event)) => self.take(event),
                Ok(News::Failed(FailedFile { file, stamp, failed })) => {
                    self.memory.skipped.add(&file, stamp, &failed);
                    let skipped = Skipped { file, why: failed.why };
                    (self.tell)(&Event::Skipped(skipped.clone()));
                    self.outcome.skipped.push(skipped);
                }
                Ok(News::Fatal(error)) => return Some(error),
                Err(RecvTimeoutError::Disconnected) => return None,
                Err(RecvTimeoutError::Timeout) if self.stopped() => return self.rest(told),
                Err(RecvTimeoutError::Timeout) => {}
            }
        }
    }

    /// What was told before the stop.
    fn rest(&mut self, told: &Receiver<News>) -> Option<anyhow::Error> {
        let until = Instant::now() + GLANCE;
        while let Ok(news) = told.recv_timeout(until.saturating_duration_since(Instant::now())) {
            match news {
                News::Event(event) => self.take(event),
                News::Fatal(error) => return Some(error),
                News::Failed(_) => {}
            }
        }
        None
    }

    fn take(&mut self, event: Event) {
        match &event {
            Event::Drafted(row) => {
                self.outcome.drafted += 1;
                self.outcome.rows.push(row.clone());
            }
            Event::Heard { length, .. } => self.outcome.heard += length,
            _ => {}
        }
        (self.tell)(&event);
    }
}
