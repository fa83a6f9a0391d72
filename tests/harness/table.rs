//! A draft that people event on.

use eavesdraft::language::rules::Grammar;
use eavesdraft::model::Draft;
#[cfg(feature = "papers")]
use eavesdraft::model::span::Moment;
#[cfg(feature = "papers")]
use eavesdraft::output::Job;
use eavesdraft::scope::drafting::by_rules as draft;
use eavesdraft::scope::review::{
    Actor, Command, Entry, Event, Refusal, ReviewContext, Scope, Seen, dimension_versions,
};
use eavesdraft::speech::Transcript;
use std::sync::LazyLock;

/// The rules that the program carries.
pub static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());

/// A scope on its way, and all that it is made from.
pub struct Table {
    pub transcript: Transcript,
    pub draft: Draft,
    pub events: Vec<Event>,
    pub scope: Scope,
}

impl Table {
    /// What was said, without times.
    pub fn new(words: &str) -> Self {
        Self::of(Transcript::from_plain(words))
    }

    /// What was said, a word every half second from the start.
    #[cfg(feature = "papers")]
    pub fn timed(words: &str) -> Self {
        let mut transcript = Transcript::from_plain(words);
        let mut at = 0;
        for word in transcript.utterances.iter_mut().flat_map(|utterance| &mut utterance.words) {
            (word.start, word.end) = (Some(Moment(at)), Some(Moment(at + 400)));
            at += 500;
        }
        transcript.length = Some(Moment(at + 5_000));
        Self::of(transcript)
    }

    /// What was heard.
    pub fn of(transcript: Transcript) -> Self {
        let transcript = Transcript { source: "14 Elm Street.m4a".to_owned(), ..transcript };
        let draft = draft(&transcript, &GRAMMAR);
        Self { scope: Scope::of(&draft), transcript, draft, events: Vec::new() }
    }

    /// Somebody does something and has seen everything as it is.
    pub fn does(&mut self, who: &str, command: Command) -> Result<&Event, Refusal> {
        let seen = self.versions();
        self.does_having_seen(who, seen, command)
    }

    pub fn does_having_seen(&mut self, who: &str, seen: Seen, command: Command) -> Result<&Event, Refusal> {
        let actor = Actor { who: who.to_owned(), at: "2026-01-02T03:04:05Z".to_owned(), seen };
        let Self { transcript, draft, events, scope } = self;
        let event =
            ReviewContext { draft, scope, events, transcript, grammar: &GRAMMAR }.decide(&actor, command)?;
        self.scope.apply(&event);
        self.events.push(event);
        Ok(self.events.last().unwrap())
    }

    pub fn versions(&self) -> Seen {
        let lines = self.scope.entries.iter().map(|entry| (entry.id().to_owned(), entry.version));
        let tasks = self.scope.follow_ups.iter().map(|task| (task.id.clone(), task.version));
        lines.chain(tasks).chain(dimension_versions(&self.events)).collect()
    }

    /// The first line of an item.
    pub fn entry(&self, item: &str) -> &Entry {
        let found = self.scope.entries.iter().find(|entry| entry.line.item.as_deref() == Some(item));
        found.unwrap_or_else(|| panic!("no {item} in {:#?}", self.scope.entries))
    }

    /// Its id.
    pub fn id(&self, item: &str) -> String {
        self.entry(item).id().to_owned()
    }

    /// What papers are made from.
    #[cfg(feature = "papers")]
    pub fn job(&self) -> Job<'_> {
        Job::new(&self.draft, &self.scope, &self.events, &GRAMMAR)
    }
}
