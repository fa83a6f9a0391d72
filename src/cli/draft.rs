//! `eavesdraft draft`: from recordings or words to scopes.

use super::Outcome;
use super::engine::Load;
use super::grammar;
use super::jobs::{Job, jobs};
use super::json::json;
use super::recognizer::LazyRecognizer;
use super::request::{DraftRequest, Looks, Show};
use crate::cli::terminal::Terminal;
use crate::language::rules::Grammar;
use crate::model::Draft;
use crate::output::draft::{ENDINGS, page};
use crate::pipeline;
use crate::speech::read::Source;
use crate::speech::write;

/// Drafts every input. One that fails is told of and doesn't hold up the others.
pub(super) fn run(request: &DraftRequest, terminal: &mut Terminal, load: Load) -> anyhow::Result<Outcome> {
    let grammar = grammar::load(request.grammar.as_deref())?;
    let (jobs, mut outcome) = jobs(&request.inputs, &request.filing, endings, terminal);
    let mut recognizer = LazyRecognizer::new(load, &request.hearing);
    let mut drafts = Vec::new();
    for job in jobs {
        match draft(job, &grammar, &mut recognizer, terminal) {
            Ok((draft, filed)) => {
                show(&draft, drafts.len(), request, terminal)?;
                filed.iter().for_each(|told| terminal.note(told));
                drafts.push(draft);
            }
            Err(error) => {
                terminal.error(format_args!("{error:#}"));
                outcome = Outcome::Failed;
            }
        }
    }
    if request.show == Show::Json {
        terminal.show(&json(&drafts, request.inputs.len())?)?;
    }
    Ok(outcome.max(looks(request.looks, &drafts)))
}

/// The documents that come of an input: of a recording the words too.
fn endings(source: &Source) -> anyhow::Result<Vec<&'static str>> {
    let words: &[&str] = match source {
        Source::Words(_) => &[],
        Source::Sound => &write::ENDINGS,
    };
    Ok(words.iter().copied().chain(ENDINGS).collect())
}

/// The draft of one input, on paper already, and what there is to tell of the papers.
fn draft(
    mut job: Job,
    grammar: &Grammar,
    recognizer: &mut LazyRecognizer,
    terminal: &mut Terminal,
) -> anyhow::Result<(Draft, Vec<String>)> {
    let mut papers = Vec::new();
    let transcript = match std::mem::replace(&mut job.opened.source, Source::Sound) {
        Source::Words(transcript) => transcript,
        Source::Sound => {
            let transcript = recognizer.hear(&job.opened, terminal)?;
            papers.extend(pipeline::words_on_paper(&transcript));
            transcript
        }
    };
    let draft = pipeline::draft(&transcript, grammar);
    papers.extend(pipeline::draft_on_paper(&draft));
    let filed = job.file(&papers)?;
    Ok((draft, filed))
}

fn show(draft: &Draft, before: usize, request: &DraftRequest, terminal: &mut Terminal) -> anyhow::Result<()> {
    if request.show == Show::Json {
        return Ok(());
    }
    let gap = if before > 0 { "\n\n" } else { "" };
    terminal.show(gap)?;
    Ok(terminal.show_page(&page(draft, request.depth))?)
}

fn looks(looks: Looks, drafts: &[Draft]) -> Outcome {
    let open = drafts.iter().flat_map(|draft| &draft.lines).any(|line| line.needs_look());
    if open && looks == Looks::Forbidden { Outcome::NeedsLook } else { Outcome::Done }
}
