//! From inputs to work: each looked into, and its documents' places kept, before the slow part begins.

use super::Outcome;
use super::inputs::{Input, Opened};
use super::request::Filing;
use crate::cli::terminal::Terminal;
use crate::output::files::{self, Paper, Place, Register};
use crate::speech::read::Source;
use std::path::Path;

/// An input that can be worked on.
pub(super) struct Job {
    pub opened: Opened,
    /// Where its documents go; none where none are written.
    place: Option<Place>,
}

/// The documents that come of an input, or why it is no input for this subcommand.
pub(super) type Endings = fn(&Source) -> anyhow::Result<Vec<&'static str>>;

/// Looks into every input. What is wrong with one is told, and doesn't hold up the others.
pub(super) fn jobs(
    inputs: &[Input],
    filing: &Filing,
    endings: Endings,
    terminal: &mut Terminal,
) -> (Vec<Job>, Outcome) {
    let mut register = Register::new(inputs.iter().filter_map(Input::path));
    let mut outcome = Outcome::Done;
    let mut jobs = Vec::new();
    for input in inputs {
        match job(input, filing, endings, &mut register) {
            Ok(job) => jobs.push(job),
            Err(error) => {
                terminal.error(format_args!("{error:#}"));
                outcome = Outcome::Failed;
            }
        }
    }
    (jobs, outcome)
}

fn job(input: &Input, filing: &Filing, endings: Endings, register: &mut Register) -> anyhow::Result<Job> {
    let opened = input.open()?;
    let endings = endings(&opened.source).map_err(|e| e.context(format!("`{}`", opened.name)))?;
    let place = place(input, filing, &opened);
    if let Some(place) = &place {
        register.claim(place, &endings, &opened.name)?;
    }
    Ok(Job { opened, place })
}

fn place(input: &Input, filing: &Filing, opened: &Opened) -> Option<Place> {
    match (filing, input) {
        (Filing::Nowhere, _) | (Filing::Beside, Input::Stdin) => None,
        (Filing::Beside, Input::File(file)) => Some(Place::beside(file)),
        (Filing::Into(folder), Input::File(file)) => Some(Place::inside(folder, files::stem(file))),
        (Filing::Into(folder), Input::Stdin) => Some(Place::inside(folder, origin(opened))),
    }
}

/// A name for what came through standard input: that of the recording it tells it was heard from.
fn origin(opened: &Opened) -> String {
    let source = match &opened.source {
        Source::Words(transcript) => files::stem(Path::new(&transcript.source)),
        Source::Sound => String::new(),
    };
    if source.is_empty() || opened.spool.is_none() { opened.name.clone() } else { source }
}

impl Job {
    /// Writes the documents where they belong, and gives what there is to tell of it.
    pub fn file(&self, papers: &[Paper]) -> anyhow::Result<Vec<String>> {
        let Some(place) = &self.place else { return Ok(Vec::new()) };
        let saved = files::save(place, papers)?;
        let kept = saved.iter().filter_map(|saved| saved.kept.as_ref());
        let kept = kept.map(|kept| format!("Kept the earlier words as {}", kept.display()));
        let names: Vec<String> = saved.iter().map(|saved| saved.file.display().to_string()).collect();
        Ok(kept.chain([format!("Wrote {}", names.join(", "))]).collect())
    }
}
