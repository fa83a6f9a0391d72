//! `eavesdraft hear`: from recordings to words.

use super::Outcome;
use super::engine::Load;
use super::jobs::{Job, jobs};
use super::json::json;
use super::recognizer::LazyRecognizer;
use super::request::{HearRequest, Show};
use crate::cli::terminal::Terminal;
use crate::output::heard;
use crate::pipeline;
use crate::speech::read::Source;
use crate::speech::{Transcript, write};
use anyhow::bail;

/// Hears every input. One that fails is told of and doesn't hold up the others.
pub(super) fn run(request: &HearRequest, terminal: &mut Terminal, load: Load) -> anyhow::Result<Outcome> {
    let (jobs, mut outcome) = jobs(&request.inputs, &request.filing, endings, terminal);
    let mut recognizer = LazyRecognizer::new(load, &request.hearing);
    let mut transcripts = Vec::new();
    for job in jobs {
        match hear(&job, &mut recognizer, terminal) {
            Ok((transcript, filed)) => {
                if request.show == Show::Page {
                    terminal.show_page(&heard::page(&transcript))?;
                }
                filed.iter().for_each(|told| terminal.note(told));
                transcripts.push(transcript);
            }
            Err(error) => {
                terminal.error(format_args!("{error:#}"));
                outcome = Outcome::Failed;
            }
        }
    }
    if request.show == Show::Json {
        terminal.show(&json(&transcripts, request.inputs.len())?)?;
    }
    Ok(outcome)
}

fn endings(source: &Source) -> anyhow::Result<Vec<&'static str>> {
    match source {
        Source::Sound => Ok(write::ENDINGS.to_vec()),
        Source::Words(_) => bail!("there are words in it already: give it to `eavesdraft draft` as it is"),
    }
}

/// The words of one recording, on paper already, and what there is to tell of the papers.
fn hear(
    job: &Job,
    recognizer: &mut LazyRecognizer,
    terminal: &mut Terminal,
) -> anyhow::Result<(Transcript, Vec<String>)> {
    let transcript = recognizer.hear(&job.opened, terminal)?;
    let filed = job.file(&pipeline::words_on_paper(&transcript))?;
    Ok((transcript, filed))
}
