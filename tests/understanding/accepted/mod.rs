//! What the program drafts of every narration and recording, as it was accepted.
//!
//! A page in `tests/narrations` shows what is drafted for a person, and the JSON beside it holds every byte. Code that
//! is only moved or renamed changes neither. How to accept a change is told where the test fails.

mod changes;
mod layout;
mod verdicts;

use crate::harness::narration::{self, Narration, Recording};
use changes::{Change, an_entry_a_line, compare};
use eavesdraft::language::rules::Grammar;
use eavesdraft::model::Draft;
use eavesdraft::scope::drafting;
use eavesdraft::speech::{Transcript, read};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// The most lines that are told of changes.
const MOST_TOLD: usize = 300;

const HOW_TO_ACCEPT: &str = "Drafts changed. What they are now stands beside each file as `.new`. \
    If that is what they should be, run the test again with INSTA_UPDATE=always, and commit what it writes.";

/// Words with what is stored beside them.
struct Case {
    /// The page, or the text alone where nothing is labelled.
    path: PathBuf,
    transcript: Transcript,
    page: Option<Page>,
}

/// What a person reads: all that stands before the draft, and the labels.
struct Page {
    head: String,
    wanted: serde_json::Value,
}

impl Case {
    fn of_narration(narration: Narration) -> Self {
        let head = layout::narration(&narration);
        let transcript = Transcript::from_plain(&narration.text);
        Self { path: narration.path, transcript, page: Some(Page { head, wanted: narration.wanted }) }
    }

    fn of_recording(recording: Recording) -> Self {
        let name = recording.path.display().to_string();
        let transcript = read::transcript(&std::fs::read(recording.transcript()).unwrap(), &name).unwrap();
        let heard = layout::quoted(std::iter::once(transcript.text().0.replace('\n', " ").as_str()));
        let Recording { path, id, spoken_at, spoken } = recording;
        let head = format!("# {}\n\nid: {id}\nspoken: {spoken_at}\n\n## Heard\n\n{heard}", spoken.scenario);
        Self { path, transcript, page: Some(Page { head, wanted: spoken.wanted }) }
    }

    fn of_text(path: PathBuf) -> Self {
        let text = std::fs::read_to_string(narration::root().join(&path)).unwrap();
        Self { path, transcript: Transcript::from_plain(&text), page: None }
    }

    /// What is stored of it and differs from what is drafted now: the page, or else the JSON alone.
    fn changed(&self, grammar: &Grammar) -> Option<Change> {
        let draft = drafting::by_rules(&self.transcript, grammar);
        let json = serde_json::to_string_pretty(&draft).unwrap();
        let in_json = compare(&stored(&self.path, "draft.json"), an_entry_a_line(&json));
        let draft = serde_json::to_value(&draft).unwrap();
        let page =
            self.page.as_ref().map(|page| page.head.clone() + &verdicts::drafted(&draft, &page.wanted));
        page.and_then(|page| compare(&stored(&self.path, "md"), page)).or(in_json)
    }
}

/// A file beside a case.
fn stored(path: &Path, ending: &str) -> PathBuf {
    narration::root().join(path).with_extension(ending)
}

fn cases() -> Vec<Case> {
    let narrations = ["clean", "captions"].into_iter().flat_map(|kind| narration::narrations(kind).unwrap());
    let recordings = ["quiet", "noisy"].into_iter().flat_map(|kind| narration::recordings(kind).unwrap());
    let texts = narration::files("marked", "txt").unwrap();
    let read = narrations.map(Case::of_narration).chain(recordings.map(Case::of_recording));
    read.chain(texts.into_iter().map(Case::of_text)).collect()
}

#[test]
fn every_draft_is_as_it_was_accepted() {
    let grammar = Grammar::built_in().unwrap();
    let changes: Vec<Change> = cases().iter().filter_map(|case| case.changed(&grammar)).collect();
    let told: Vec<String> = changes.iter().map(Change::told).collect();
    let told = told.join("\n");
    let lines: Vec<&str> = told.lines().take(MOST_TOLD).collect();
    let more = told.lines().count() - lines.len();
    let more = if more > 0 { format!("\n… and {more} lines more") } else { String::new() };
    assert!(changes.is_empty(), "{HOW_TO_ACCEPT}\n\n{}{more}\n\n{} cases", lines.join("\n"), changes.len());
}

#[test]
fn laid_out_anew_a_draft_loses_nothing() {
    for case in cases().iter().step_by(20) {
        let draft = drafting::by_rules(&case.transcript, &Grammar::built_in().unwrap());
        let pretty = serde_json::to_string_pretty(&draft).unwrap();
        let back: Draft = serde_json::from_str(&an_entry_a_line(&pretty)).unwrap();
        assert_eq!(serde_json::to_string_pretty(&back).unwrap(), pretty);
    }
}

#[test]
fn nothing_is_stored_that_belongs_to_no_case() {
    let known: BTreeSet<PathBuf> = cases().into_iter().map(|case| case.path.with_extension("")).collect();
    let kinds = ["clean", "captions", "recogniser/quiet", "recogniser/noisy", "marked"];
    for path in kinds.iter().flat_map(|kind| narration::files(kind, "json").unwrap()) {
        assert!(known.contains(&path.with_extension("").with_extension("")), "{}", path.display());
    }
}
