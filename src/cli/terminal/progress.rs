//! How far the slow part has come: a bar on a terminal, nothing in a pipe.

use crate::speech::Progress;
use indicatif::{ProgressBar, ProgressStyle};
use std::time::Duration;

/// How the bar looks where the recording's length is known, and where not.
const KNOWN: &str = "{prefix} {bar:30} {percent:>3} %, {eta} left\n{wide_msg}";
const UNKNOWN: &str = "{spinner} {prefix}, {elapsed}\n{wide_msg}";

/// So many characters of what was heard are shown.
const LINE: usize = 70;

/// A bar on standard error with the words heard last below it, gone when it is dropped.
pub struct Bar(ProgressBar);

impl Bar {
    /// A bar for one recording.
    pub fn hearing(name: &str) -> Self {
        let bar = ProgressBar::no_length().with_prefix(format!("Hearing {name}"));
        bar.set_style(style(UNKNOWN));
        bar.enable_steady_tick(Duration::from_millis(200));
        Self(bar)
    }

    /// A bar that draws nothing.
    pub fn hidden() -> Self {
        Self(ProgressBar::hidden())
    }

    /// Moves the bar on, and shows what was heard.
    pub fn show(&self, progress: &Progress) {
        if let (Some(total), None) = (progress.total, self.0.length()) {
            self.0.set_length(thousandths(total));
            self.0.set_style(style(KNOWN));
        }
        self.0.set_position(thousandths(progress.done));
        if !progress.heard.is_empty() {
            self.0.set_message(last_words(&progress.heard));
        }
    }
}

impl Drop for Bar {
    fn drop(&mut self) {
        self.0.finish_and_clear();
    }
}

/// The end of what was heard, in whole words, as much as a line takes.
fn last_words(heard: &str) -> String {
    let from = heard.char_indices().rev().nth(LINE).map_or(0, |(at, _)| at);
    match heard[from..].split_once(' ') {
        Some((_, whole)) if from > 0 => format!("… {whole}"),
        _ => heard.to_owned(),
    }
}

fn thousandths(seconds: f64) -> u64 {
    (seconds.max(0.0) * 1000.0) as u64
}

fn style(template: &str) -> ProgressStyle {
    ProgressStyle::with_template(template).unwrap_or_else(|_| ProgressStyle::default_bar())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_end_of_what_was_heard_is_shown_in_whole_words() {
        assert_eq!(last_words("Two lights."), "Two lights.");
        let heard = "Front elevation, vinyl. ".repeat(4) + "The garage’s door, remove and replace.";
        let shown = last_words(&heard);
        assert!(shown.starts_with("… ") && shown.ends_with("remove and replace."), "{shown}");
        assert!(shown.chars().count() <= LINE + 3 && heard.ends_with(&shown["… ".len()..]), "{shown}");
    }
}
