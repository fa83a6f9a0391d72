//! `eavesdraft day`: a folder of recordings in one go.

use super::Outcome;
use super::engine::Load;
use super::request::{DayRequest, Looks, Show};
use super::{interrupt, rules};
use crate::cli::terminal::{DayProgress, Terminal};
use crate::office::day::{self, Day, DayOutcome, Event, Memory};
use crate::office::server;
use crate::output::files::{self, Paper, Place, Register};
use crate::output::html;
use crate::output::page::Page;
use std::sync::Arc;

/// Hears and drafts what is new, and tells what the day came to.
pub(super) fn run(request: &DayRequest, terminal: &mut Terminal, load: Load) -> anyhow::Result<Outcome> {
    let stop = interrupt::flag();
    let rules = rules::load(request.grammar.as_deref())?;
    let load = || Ok(Arc::from(load(&request.hearing)?));
    let outcome = {
        let mut progress = DayProgress::new(terminal, request.show == Show::Json);
        let ran = day::run(&request.day, &rules, &load, &stop, &mut Memory::default(), &mut |event| {
            progress.tell(event)
        });
        progress.end();
        ran?
    };
    let page = write_page(&request.day, &outcome)?;
    match request.show {
        Show::Json => terminal.show(&(serde_json::to_string(&Event::finished(&outcome, &page))? + "\n"))?,
        Show::Page => {
            terminal.show_page(&day_page(&request.day, &outcome))?;
            if outcome.heard > 0.0 {
                terminal.note(format_args!(
                    "Heard {:.0} min of sound in {:.1} min, {:.1} times as fast as spoken",
                    outcome.heard / 60.0,
                    outcome.seconds / 60.0,
                    outcome.heard / outcome.seconds.max(0.1)
                ));
            }
            terminal.note(format_args!("Wrote {}", page.display()));
        }
    }
    Ok(ended(&outcome, request.looks))
}

/// Writes the page of the day, where it belongs.
pub(super) fn write_page(day: &Day, outcome: &DayOutcome) -> anyhow::Result<std::path::PathBuf> {
    let folder = day.out.as_deref().unwrap_or(&day.folder);
    let place = Place::inside(folder, day::PAGE_NAME.to_owned());
    Register::new(std::iter::empty()).claim(&place, &["html"], "the page of the day")?;
    files::save(&place, &[Paper { ending: "html", bytes: html::html(&day_page(day, outcome)) }])?;
    Ok(place.file("html"))
}

fn day_page(day: &Day, outcome: &DayOutcome) -> Page {
    day::page(day, outcome, &format!("http://127.0.0.1:{}/", server::USUAL_PORT))
}

fn ended(outcome: &DayOutcome, looks: Looks) -> Outcome {
    if outcome.stopped || !outcome.skipped.is_empty() || !outcome.waiting.is_empty() {
        return Outcome::Failed;
    }
    let open = outcome.rows.iter().any(|row| row.tally.flagged > 0);
    if open && looks == Looks::Forbidden { Outcome::NeedsLook } else { Outcome::Done }
}
