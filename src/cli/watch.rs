//! `eavesdraft watch`: a folder whose recordings are done as they arrive.

use super::Outcome;
use super::day::write_page;
use super::engine::Load;
use super::request::DayRequest;
use super::{interrupt, rules};
use crate::cli::terminal::{Log, Terminal};
use crate::office::day::{self, Event};
use crate::speech::Recognizer;
use std::cell::RefCell;
use std::sync::Arc;

/// Watches until it is asked to end.
pub(super) fn run(request: &DayRequest, terminal: &mut Terminal, load: Load) -> anyhow::Result<Outcome> {
    let stop = interrupt::flag();
    let rules = rules::load(request.grammar.as_deref())?;
    let log = Log::of(terminal);
    // Made ready once, for all that comes.
    let ready: RefCell<Option<Arc<dyn Recognizer>>> = RefCell::new(None);
    let load = || {
        if let Some(ready) = &*ready.borrow() {
            return Ok(Arc::clone(ready));
        }
        let recognizer: Arc<dyn Recognizer> = Arc::from(load(&request.hearing)?);
        *ready.borrow_mut() = Some(Arc::clone(&recognizer));
        Ok(recognizer)
    };
    log.begin(&request.day.folder);
    let mut news = false;
    let news = RefCell::new(&mut news);
    let mut tell = |event: &Event| {
        **news.borrow_mut() |= matches!(event, Event::Drafted(_) | Event::Skipped(_) | Event::Same { .. });
        log.event(event);
    };
    let mut first = true;
    day::watch(&request.day, &rules, &load, &stop, &mut tell, &mut |outcome| {
        // A page that says the same stays.
        if std::mem::take(*news.borrow_mut()) || std::mem::take(&mut first) {
            write_page(&request.day, outcome)?;
        }
        Ok(())
    })?;
    log.end();
    Ok(Outcome::Done)
}
