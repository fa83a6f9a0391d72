//! What all requests share: the store, the rules, and the recordings that are open.

use super::own_words::{OwnWords, Taught};
use super::problem::Problem;
use super::sound::Sounds;
use super::teach::{Redrafted, differences, faulty, no_folder};
use crate::language::rules::Grammar;
use crate::model::Draft;
use crate::model::span::Moment;
use crate::office::store::{Drafted, Origin, Recording, RecordingProgress, Store};
use crate::scope::drafting::draft;
use crate::scope::review::view::ViewContext;
use crate::scope::review::{
    Actor, Command, Event, ReviewContext, ReviewProgress, Scope, SignOff, Stray, scope_and_strays,
};
use crate::speech::Transcript;
use std::collections::{HashMap, HashSet};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::broadcast;

/// How many changes a slow page may lag behind before it has to look at everything again.
const BACKLOG: usize = 256;

/// That an event was done.
#[derive(Debug, Clone, serde::Serialize)]
pub(super) struct Changed {
    /// On which recording.
    pub recording: String,
    /// Which.
    pub event: u64,
}

/// What the server keeps while it runs.
pub(super) struct AppState {
    store: Mutex<Store>,
    grammar: Mutex<Arc<Grammar>>,
    /// Where words are taught to; none where the office has no rules of its own.
    own_words: Option<OwnWords>,
    open: Mutex<HashMap<String, Arc<Mutex<Open>>>>,
    /// The recordings that are shown, by id, in the order they are listed.
    shown: Vec<String>,
    /// The same, to look one up.
    ids: HashSet<String>,
    /// Told of every event.
    pub changes: broadcast::Sender<Changed>,
    /// The sound of recordings.
    pub sounds: Sounds,
}

/// A recording that is open.
pub(super) struct Open {
    /// Its words and its draft.
    pub drafted: Drafted,
    /// Every event.
    pub events: Vec<Event>,
    /// What stands now.
    pub scope: Scope,
    /// What the latest draft no longer has.
    pub strays: Vec<Stray>,
}

impl Open {
    fn new(drafted: Drafted, events: Vec<Event>) -> Self {
        let (scope, strays) = scope_and_strays(&drafted.draft, &events);
        Self { drafted, events, scope, strays }
    }

    fn take(&mut self, events: Vec<Event>) {
        for event in events {
            self.scope.apply(&event);
            self.events.push(event);
        }
    }

    /// What views are made from.
    pub fn views<'a>(&'a self, grammar: &'a Grammar) -> ViewContext<'a> {
        ViewContext { draft: &self.drafted.draft, scope: &self.scope, events: &self.events, grammar }
    }
}

/// A recording in the queue.
#[derive(Debug, serde::Serialize)]
pub(super) struct Queued {
    id: String,
    name: String,
    length: Option<f64>,
    lines: usize,
    flagged: usize,
    follow_ups: usize,
    photos: usize,
    measurements: usize,
    signed_off: Option<SignOff>,
    missing: bool,
}

impl Queued {
    fn of(recording: &Recording, progress: ReviewProgress) -> Self {
        let files = recording.files(progress.clips.iter().map(String::as_str));
        let ReviewProgress { length, lines, flagged, follow_ups, photos, measurements, signed_off, .. } =
            progress;
        Self {
            id: recording.id.clone(),
            name: recording.name.clone(),
            length: length.map(Moment::seconds),
            lines,
            flagged,
            follow_ups,
            photos,
            measurements,
            signed_off,
            missing: !files.iter().all(|file| file.exists()),
        }
    }
}

/// A lock whose holder panicked still holds what it held: every change is put in its place whole.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl AppState {
    pub fn new(store: Store, grammar: Grammar, own_words: Option<OwnWords>, shown: Vec<String>) -> Self {
        Self {
            store: Mutex::new(store),
            grammar: Mutex::new(Arc::new(grammar)),
            own_words,
            open: Mutex::default(),
            ids: shown.iter().cloned().collect(),
            shown,
            changes: broadcast::channel(BACKLOG).0,
            sounds: Sounds::default(),
        }
    }

    /// The rules that typed values are read by, as they are now.
    pub fn grammar(&self) -> Arc<Grammar> {
        Arc::clone(&locked(&self.grammar))
    }

    /// Looks at a recording, with everything that was done so far, by other programs too.
    pub fn with<T>(&self, id: &str, look: impl FnOnce(&Open) -> T) -> Result<T, Problem> {
        let open = self.opened(id)?;
        let mut open = locked(&open);
        let newer = locked(&self.store).events(id, open.scope.version)?;
        open.take(newer);
        Ok(look(&open))
    }

    fn opened(&self, id: &str) -> Result<Arc<Mutex<Open>>, Problem> {
        if !self.ids.contains(id) {
            return Err(Problem::no_recording());
        }
        let open = self.at_hand(id)?;
        Ok(Arc::clone(locked(&self.open).entry(id.to_owned()).or_insert(open)))
    }

    /// A recording that is open, or one that is read from the store and not kept: who looks through all doesn't open
    /// them.
    fn at_hand(&self, id: &str) -> Result<Arc<Mutex<Open>>, Problem> {
        if let Some(open) = locked(&self.open).get(id) {
            return Ok(Arc::clone(open));
        }
        let store = locked(&self.store);
        let drafted = store.drafted(id)?.ok_or_else(Problem::no_recording)?;
        Ok(Arc::new(Mutex::new(Open::new(drafted, store.events(id, 0)?))))
    }

    /// Does what a person asks for, and gives `answer`'s view of it.
    pub fn event<T>(
        &self,
        id: &str,
        actor: &Actor,
        command: Command,
        answer: impl FnOnce(&Open, &Event, &Grammar) -> T,
    ) -> Result<T, Problem> {
        let grammar = self.grammar();
        let open = self.opened(id)?;
        let mut open = locked(&open);
        let done = locked(&self.store).add_event(id, open.scope.version, |newer| {
            open.take(newer);
            let Open { drafted, events, scope, .. } = &*open;
            let Drafted { transcript, draft, .. } = drafted;
            ReviewContext { draft, scope, events, transcript, grammar: &grammar }.decide(actor, command)
        })?;
        let event = done.map_err(|refusal| {
            let views = open.views(&grammar);
            Problem::refused(refusal, |entry| serde_json::json!(views.line(entry)))
        })?;
        open.take(vec![event.clone()]);
        let answered = answer(&open, &event, &grammar);
        // Nobody may be listening.
        let _ = self.changes.send(Changed { recording: id.to_owned(), event: event.number });
        Ok(answered)
    }

    /// What was taught so far; none where nothing can be.
    pub fn taught(&self) -> Result<Option<Vec<Taught>>, Problem> {
        self.own_words.as_ref().map(OwnWords::all).transpose().map_err(Problem::from)
    }

    /// Changes what is taught, drafts all that is open again, and tells which lines come out differently. `only_try`:
    /// nothing is kept. Scopes that are signed off stay as they are.
    pub fn teach(
        &self,
        only_try: bool,
        change: impl FnOnce(&mut Vec<Taught>) -> Result<(), Problem>,
    ) -> Result<Vec<Redrafted>, Problem> {
        let words = self.own_words.as_ref().ok_or_else(no_folder)?;
        // Held to the end: of two who teach at once the second sees what the first did.
        let mut grammar = locked(&self.grammar);
        let mut all = words.all()?;
        change(&mut all)?;
        let new = words.grammar(&all, &grammar).map_err(|error| faulty(&all, error))?;
        let mut changes = Vec::new();
        let mut drafts = Vec::new();
        for id in &self.shown {
            let open = self.at_hand(id)?;
            let open = locked(&open);
            if open.scope.signed_off.is_some() {
                continue;
            }
            let Drafted { transcript, recording, .. } = &open.drafted;
            let (before, after) = (draft(transcript, &grammar), draft(transcript, &new));
            let differ = differences(id, &recording.name, &before, &after);
            if !differ.is_empty() {
                changes.extend(differ);
                drafts.push((recording.clone(), transcript.clone(), after));
            }
        }
        if !only_try {
            words.keep(&all, &grammar)?;
            *grammar = Arc::new(new);
            for (recording, transcript, draft) in drafts {
                self.redraft(&recording, &transcript, &draft)?;
            }
        }
        Ok(changes)
    }

    fn redraft(&self, recording: &Recording, transcript: &Transcript, draft: &Draft) -> Result<(), Problem> {
        let id = &recording.id;
        let (drafted, events) = {
            let mut store = locked(&self.store);
            store.put(recording, transcript, draft, Origin::Here, &jiff::Timestamp::now().to_string())?;
            (store.drafted(id)?.ok_or_else(Problem::no_recording)?, store.events(id, 0)?)
        };
        let event = events.last().map_or(0, |event| event.number);
        let open = locked(&self.open).get(id).cloned();
        if let Some(open) = open {
            *locked(&open) = Open::new(drafted, events);
        }
        let _ = self.changes.send(Changed { recording: id.clone(), event });
        Ok(())
    }

    /// Every recording that is shown.
    pub fn queue(&self) -> Result<Vec<Queued>, Problem> {
        let mut progress = self.progress()?;
        let queued = |id: &String| {
            let RecordingProgress { recording, progress } = progress.remove(id)?;
            Some(Queued::of(&recording, progress?))
        };
        Ok(self.shown.iter().filter_map(queued).collect())
    }

    /// How far the review of all that is shown has come. What nobody counted since the last draft or event is counted, and kept.
    fn progress(&self) -> Result<HashMap<String, RecordingProgress>, Problem> {
        let mut store = locked(&self.store);
        let mut counted = Vec::new();
        let mut all = HashMap::new();
        for mut listed in store.progress()? {
            let id = listed.recording.id.clone();
            if !self.ids.contains(&id) {
                continue;
            }
            if listed.progress.is_none()
                && let Some(count) = store.count(&id)?
            {
                listed.progress = Some(count.progress.clone());
                counted.push((id.clone(), count));
            }
            all.insert(id, listed);
        }
        let keep = |store: &Store| counted.iter().try_for_each(|(id, count)| store.keep_count(id, count));
        if !counted.is_empty() {
            // Where the disk is full, or somebody else writes just now, it is counted once more the next time.
            let _ = store.at_once(keep);
        }
        Ok(all)
    }
}
