//! Keeping at it: whenever recordings arrive in the folder, what is new is done.

use super::event::Event;
use super::find::may_be_one;
use super::outcome::DayOutcome;
use super::run::{Day, Load, Memory, Rules, run};
use anyhow::Context;
use notify::{RecursiveMode, Watcher};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// How often it is asked whether to stop, and whether there is news.
const GLANCE: Duration = Duration::from_millis(200);

/// The folder is looked over after so long without news, too: a network drive sends none.
const ROUND: Duration = Duration::from_secs(60);

/// News that come so soon after others are of the same recordings.
const TOGETHER: Duration = Duration::from_secs(1);

/// Does what is new, waits for news, and begins again, until `stop`. `done` gets what each run came to.
///
/// # Errors
/// Where the folder can't be watched, or a run can't go on at all.
pub fn watch(
    day: &Day,
    rules: &Rules,
    load: Load,
    stop: &Arc<AtomicBool>,
    tell: &mut dyn FnMut(&Event),
    done: &mut dyn FnMut(&DayOutcome) -> anyhow::Result<()>,
) -> anyhow::Result<()> {
    let (told, news) = channel();
    let mut watcher = notify::recommended_watcher(move |event: notify::Result<notify::Event>| {
        // What can't be told of in detail is looked for.
        let is_news = event.map_or(true, |event| {
            event.kind.is_create() && event.paths.iter().any(|path| path.is_dir())
                || !event.kind.is_access() && event.paths.iter().any(|path| may_be_one(path))
        });
        if is_news {
            // The watch is over where nobody listens.
            let _ = told.send(());
        }
    })
    .context("files can't be watched on this system")?;
    watcher
        .watch(&day.folder, RecursiveMode::Recursive)
        .with_context(|| format!("{} can't be watched", day.folder.display()))?;
    let mut memory = Memory::default();
    while !stop.load(Ordering::SeqCst) {
        let outcome = run(day, rules, load, stop, &mut memory, tell)?;
        done(&outcome)?;
        let patience = if outcome.waiting.is_empty() { ROUND } else { day.still.max(GLANCE) };
        wait(&news, patience, stop);
    }
    Ok(())
}

/// Waits for news, and until no more come for a moment; no longer than `patience` for the first.
fn wait(news: &Receiver<()>, patience: Duration, stop: &Arc<AtomicBool>) {
    let begun = Instant::now();
    let mut last = None;
    while !stop.load(Ordering::SeqCst) {
        if news.recv_timeout(GLANCE).is_ok() {
            last = Some(Instant::now());
        }
        let quiet = last.is_some_and(|last| last.elapsed() >= TOGETHER);
        if quiet || (last.is_none() && begun.elapsed() >= patience) {
            return;
        }
    }
}
