//! How far a day's run has come: one line that changes on a terminal, a line a visit in a pipe, or an event a line.

use super::Terminal;
use crate::model::wording::count;
use crate::office::day::{Event, Row};
use indicatif::{ProgressBar, ProgressStyle};
use std::collections::HashMap;
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// Less than this was heard or drafted, and nothing can be said of the time that is left.
const TOO_SOON: f64 = 20.0;

/// What is shown while a day's recordings are worked on.
pub struct DayProgress<'t, 'a> {
    terminal: &'t mut Terminal<'a>,
    json: bool,
    bar: ProgressBar,
    begun: Instant,
    to_do: usize,
    to_hear: f64,
    drafted: usize,
    skipped: usize,
    /// Seconds heard of each recording.
    heard: HashMap<PathBuf, f64>,
}

impl<'t, 'a> DayProgress<'t, 'a> {
    /// Nothing is done yet. `json`: events are the result, and nothing else is shown.
    pub fn new(terminal: &'t mut Terminal<'a>, json: bool) -> Self {
        let bar = if terminal.watched && !json { ProgressBar::no_length() } else { ProgressBar::hidden() };
        bar.set_style(
            ProgressStyle::with_template("{spinner} {wide_msg}")
                .unwrap_or_else(|_| ProgressStyle::default_bar()),
        );
        bar.enable_steady_tick(Duration::from_millis(200));
        Self {
            terminal,
            json,
            bar,
            begun: Instant::now(),
            to_do: 0,
            to_hear: 0.0,
            drafted: 0,
            skipped: 0,
            heard: HashMap::new(),
        }
    }

    /// Takes note of an event, and shows it.
    pub fn tell(&mut self, event: &Event) {
        match event {
            Event::Found { to_do, to_hear, .. } => {
                // A later round comes on top of what was done in the first.
                self.to_do = self.drafted + to_do;
                self.to_hear = self.heard.values().sum::<f64>() + to_hear;
            }
            Event::Hearing { file, done } => drop(self.heard.insert(file.clone(), *done)),
            Event::Heard { file, length, .. } => drop(self.heard.insert(file.clone(), *length)),
            Event::Drafted(_) => self.drafted += 1,
            Event::Skipped(_) => self.skipped += 1,
            _ => {}
        }
        if self.json {
            // A reader that went away is told by the last event.
            let _ = self.terminal.show(&(serde_json::to_string(event).unwrap_or_default() + "\n"));
        } else if let Some(line) = self.line(event) {
            let terminal = &mut self.terminal;
            self.bar.suspend(|| terminal.note(line));
        }
        self.bar.set_message(self.state());
    }

    /// Takes what changes off the terminal.
    pub fn end(&mut self) {
        self.bar.finish_and_clear();
    }

    /// The line that an event is told by; none for what the changing line shows.
    fn line(&self, event: &Event) -> Option<String> {
        match event {
            Event::Found { files, visits, to_do, to_hear } => Some(format!(
                "{}, {}; {to_do} to do{}",
                count(*files, "file", "files"),
                count(*visits, "visit", "visits"),
                if *to_hear > 0.0 { format!(", {} to hear", lasting(*to_hear)) } else { String::new() }
            )),
            Event::Note { note } => Some(note.clone()),
            Event::Waiting { file } => Some(format!("{} is still being copied", file.display())),
            Event::Same { file, other } => {
                Some(format!("{} is the same as {}", file.display(), other.display()))
            }
            Event::Skipped(skipped) => Some(format!("Skipped {}: {}", skipped.file.display(), skipped.why)),
            Event::Drafted(row) => (!self.terminal.watched).then(|| self.drafted_line(row)),
            Event::Hearing { .. } | Event::Heard { .. } | Event::Finished { .. } => None,
        }
    }

    fn drafted_line(&self, row: &Row) -> String {
        format!(
            "{} ({} of {}): {}, {} to review",
            row.property,
            self.drafted,
            self.to_do,
            count(row.tally.lines, "line", "lines"),
            row.tally.flagged
        )
    }

    /// Where everything stands, in one line.
    fn state(&self) -> String {
        let (heard, taken) = (self.heard.values().sum::<f64>(), self.begun.elapsed().as_secs_f64());
        let mut state = format!("{} of {}", self.drafted, count(self.to_do, "visit", "visits"));
        if self.to_hear > 0.0 {
            state += &format!(", {} of {} heard", lasting(heard), lasting(self.to_hear));
        }
        if heard > TOO_SOON && taken > 0.0 {
            let left = (self.to_hear - heard).max(0.0) * taken / heard;
            state += &format!(", {:.1} times as fast as spoken, {} left", heard / taken, lasting(left));
        }
        if self.skipped > 0 {
            state += &format!(", {} skipped", self.skipped);
        }
        state
    }
}

/// So many seconds, as far as anyone wants to know: `40 s`, `12 min`, `2.2 h`.
fn lasting(seconds: f64) -> String {
    match seconds {
        s if s < 90.0 => format!("{s:.0} s"),
        s if s < 5_400.0 => format!("{:.0} min", s / 60.0),
        s => format!("{:.1} h", s / 3_600.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_told_as_far_as_anyone_wants_to_know() {
        assert_eq!([40.0, 725.0, 7_900.0].map(lasting), ["40 s", "12 min", "2.2 h"]);
    }
}
