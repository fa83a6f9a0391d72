//! What all requests share: the store, the rules, and the recordings that are open.

use super::own_words::{OwnWords, Taught};
use super::problem::Problem;
use super::sound::Sounds;
use super::teach::{Redrafted, differences, faulty, no_folder};
use crate::language::rules::Grammar;
use crate::model::Draft;
use crate::model::span::Moment;
use crate::office::store::{Drafted, Origin, Recording, Stands, Store};
use crate::scope::drafting::draft;
use crate::scope::review::view::Sight;
use crate::scope::review::{Act, Deed, Desk, Done, Hand, Scope, Standing, Stray, scope_and_strays};
use crate::speech::Transcript;
use std::collections::{HashMap, HashSet};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::broadcast;

/// How many changes a slow page may lag behind before it has to look at everything anew.
const BACKLOG: usize = 256;

/// That an act was done.
#[derive(Debug, Clone, serde::Serialize)]
pub(super) struct Changed {
    /// On which recording.
    pub recording: String,
    /// Which.
    pub act: u64,
}

/// The server's memory.
pub(super) struct Office {
    store: Mutex<Store>,
    grammar: Mutex<Arc<Grammar>>,
    /// Where words are taught to; none where the office has no rules of its own.
    own_words: Option<OwnWords>,
    open: Mutex<HashMap<String, Arc<Mutex<Open>>>>,
    /// The recordings that are shown, by id, in the order they are listed.
    shown: Vec<String>,
    /// The same, to look one up.
    ids: HashSet<String>,
    /// Told of every act.
    pub changes: broadcast::Sender<Changed>,
    /// The sound of recordings.
    pub sounds: Sounds,
}

/// A recording that is open.
pub(super) struct Open {
    /// Its words and its draft.
    pub drafted: Drafted,
    /// Every act.
    pub acts: Vec<Act>,
    /// What stands now.
    pub scope: Scope,
    /// What the latest draft no longer has.
    pub strays: Vec<Stray>,
}

impl Open {
    fn new(drafted: Drafted, acts: Vec<Act>) -> Self {
        let (scope, strays) = scope_and_strays(&drafted.draft, &acts);
        Self { drafted, acts, scope, strays }
    }

    fn take(&mut self, acts: Vec<Act>) {
        for act in acts {
            self.scope.apply(&act);
            self.acts.push(act);
        }
    }

    /// What views are made from.
    pub fn sight<'a>(&'a self, grammar: &'a Grammar) -> Sight<'a> {
        Sight { draft: &self.drafted.draft, scope: &self.scope, acts: &self.acts, grammar }
    }
}

/// A recording in the queue.
#[derive(Debug, serde::Serialize)]
pub(super) struct Queued {
    id: String,
    name: String,
    length: Option<f64>,
    lines: usize,
    open: usize,
    todos: usize,
    photos: usize,
    tapes: usize,
    settled: Option<Done>,
    missing: bool,
}

impl Queued {
    fn of(recording: &Recording, standing: Standing) -> Self {
        let files = recording.files(standing.clips.iter().map(String::as_str));
        let Standing { length, lines, open, todos, photos, tapes, settled, .. } = standing;
        Self {
            id: recording.id.clone(),
            name: recording.name.clone(),
            length: length.map(Moment::seconds),
            lines,
            open,
            todos,
            photos,
            tapes,
            settled,
            missing: !files.iter().all(|file| file.exists()),
        }
    }
}

/// A lock whose holder panicked still holds what it held: every change is put in its place whole.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Office {
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
        let newer = locked(&self.store).acts(id, open.scope.version)?;
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
        Ok(Arc::new(Mutex::new(Open::new(drafted, store.acts(id, 0)?))))
    }

    /// Does what a person asks for, and gives `answer`'s view of it.
    pub fn act<T>(
        &self,
        id: &str,
        hand: &Hand,
        deed: Deed,
        answer: impl FnOnce(&Open, &Act, &Grammar) -> T,
    ) -> Result<T, Problem> {
        let grammar = self.grammar();
        let open = self.opened(id)?;
        let mut open = locked(&open);
        let done = locked(&self.store).act(id, open.scope.version, |newer| {
            open.take(newer);
            let Open { drafted, acts, scope, .. } = &*open;
            let Drafted { transcript, draft, .. } = drafted;
            Desk { draft, scope, acts, transcript, grammar: &grammar }.act(hand, deed)
        })?;
        let act = done.map_err(|refusal| {
            let sight = open.sight(&grammar);
            Problem::refused(refusal, |entry| serde_json::json!(sight.line(entry)))
        })?;
        open.take(vec![act.clone()]);
        let answered = answer(&open, &act, &grammar);
        // Nobody may be listening.
        let _ = self.changes.send(Changed { recording: id.to_owned(), act: act.number });
        Ok(answered)
    }

    /// What was taught so far; none where nothing can be.
    pub fn taught(&self) -> Result<Option<Vec<Taught>>, Problem> {
        self.own_words.as_ref().map(OwnWords::all).transpose().map_err(Problem::from)
    }

    /// Changes what is taught, drafts all that is open anew, and tells which lines come out otherwise. `only_try`:
    /// nothing is kept. Settled scopes stay as they are.
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
            if open.scope.settled.is_some() {
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
        let (drafted, acts) = {
            let mut store = locked(&self.store);
            store.put(recording, transcript, draft, Origin::Here, &jiff::Timestamp::now().to_string())?;
            (store.drafted(id)?.ok_or_else(Problem::no_recording)?, store.acts(id, 0)?)
        };
        let act = acts.last().map_or(0, |act| act.number);
        let open = locked(&self.open).get(id).cloned();
        if let Some(open) = open {
            *locked(&open) = Open::new(drafted, acts);
        }
        let _ = self.changes.send(Changed { recording: id.clone(), act });
        Ok(())
    }

    /// Every recording that is shown.
    pub fn queue(&self) -> Result<Vec<Queued>, Problem> {
        let mut stands = self.standings()?;
        let queued = |id: &String| {
            let Stands { recording, standing } = stands.remove(id)?;
            Some(Queued::of(&recording, standing?))
        };
        Ok(self.shown.iter().filter_map(queued).collect())
    }

    /// How far all that is shown is settled. What nobody counted since the last draft or act is counted, and kept.
    fn standings(&self) -> Result<HashMap<String, Stands>, Problem> {
        let mut store = locked(&self.store);
        let mut counted = Vec::new();
        let mut all = HashMap::new();
        for mut stands in store.standings()? {
            let id = stands.recording.id.clone();
            if !self.ids.contains(&id) {
                continue;
            }
            if stands.standing.is_none()
                && let Some(count) = store.count(&id)?
            {
                stands.standing = Some(count.standing.clone());
                counted.push((id.clone(), count));
            }
            all.insert(id, stands);
        }
        let keep = |store: &Store| counted.iter().try_for_each(|(id, count)| store.keep_count(id, count));
        if !counted.is_empty() {
            // Where the disk is full, or somebody else writes just now, it is counted once more the next time.
            let _ = store.at_once(keep);
        }
        Ok(all)
    }
}
