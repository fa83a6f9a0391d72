//! The terminal: the only place that prints.
//!
//! Takes papers, and text that is ready to be shown. Results go to standard output and all else to standard error; color is
//! left out where nobody sees it or `NO_COLOR` asks for none. A reader that goes away is not an error.

mod progress;

#[cfg(feature = "server")]
mod day;
#[cfg(feature = "server")]
mod log;

#[cfg(feature = "server")]
pub use day::DayProgress;
#[cfg(feature = "server")]
pub use log::Log;
pub use progress::Bar;

use crate::output::page::Page;
use crate::output::text::text;
use anstyle::AnsiColor;
use std::fmt::Display;
use std::io::{ErrorKind, IsTerminal, Write};

/// How wide a page is where the terminal doesn't say.
const USUAL_WIDTH: usize = 80;

/// Wider lines are hard to follow.
const WIDEST: usize = 120;

/// Where results are shown and where the user is told of everything else.
pub struct Terminal<'a> {
    out: Box<dyn Write + 'a>,
    err: Box<dyn Write + 'a>,
    /// The columns there are for text.
    width: usize,
    /// Whether someone sees progress as it is made.
    watched: bool,
}

impl<'a> Terminal<'a> {
    /// The terminal, file or pipe that the program was started in.
    pub fn of_process() -> Self {
        let width =
            terminal_size::terminal_size().map_or(USUAL_WIDTH, |(width, _)| usize::from(width.0).min(WIDEST));
        let watched = std::io::stderr().is_terminal();
        Self { out: Box::new(anstream::stdout()), err: Box::new(anstream::stderr()), width, watched }
    }

    /// Two writers in place of a terminal, for what is shown and what the user is told, with all colors.
    pub fn of_writers(out: impl Write + 'a, err: impl Write + 'a) -> Self {
        Self { out: Box::new(out), err: Box::new(err), width: USUAL_WIDTH, watched: false }
    }

    /// Shows a result: text, with its colors where they are seen.
    ///
    /// # Errors
    /// Where it can't be written, other than for want of a reader.
    pub fn show(&mut self, text: &str) -> std::io::Result<()> {
        match self.out.write_all(text.as_bytes()).and_then(|()| self.out.flush()) {
            Err(e) if e.kind() == ErrorKind::BrokenPipe => Ok(()),
            other => other,
        }
    }

    /// Shows a paper as a result, as wide as the terminal is.
    ///
    /// # Errors
    /// Where it can't be written, other than for want of a reader.
    pub fn show_page(&mut self, page: &Page) -> std::io::Result<()> {
        self.show(&text(page, self.width))
    }

    /// Tells the user something beside the result.
    pub fn note(&mut self, text: impl Display) {
        // Nowhere is left to tell of a failure to tell.
        let _ = writeln!(self.err, "{text}");
    }

    /// Tells the user what went wrong.
    pub fn error(&mut self, text: impl Display) {
        let style = AnsiColor::Red.on_default().bold();
        self.note(format_args!("{style}error:{style:#} {text}"));
    }

    /// A bar for the recording of that name; it draws nothing where nobody watches.
    pub fn bar(&self, name: &str) -> Bar {
        if self.watched { Bar::hearing(name) } else { Bar::hidden() }
    }
}
