//! The terminal: the only place that prints.
//!
//! Takes text that is ready to be shown. Results go to standard output and all else to standard error; colour is
//! left out where nobody sees it or `NO_COLOR` asks for none. A reader that goes away is not an error.

mod progress;
pub mod sheet;

pub use progress::Bar;

use std::fmt::Display;
use std::io::{self, ErrorKind, Write};

/// How wide a page is where the terminal doesn't say.
const USUAL_WIDTH: usize = 80;

/// Wider lines are hard to follow.
const WIDEST: usize = 120;

/// The columns there are for text.
pub fn width() -> usize {
    terminal_size::terminal_size().map_or(USUAL_WIDTH, |(width, _)| usize::from(width.0).min(WIDEST))
}

/// Shows text, with its colours where they are seen.
///
/// # Errors
/// Where standard output can't be written to.
pub fn show(text: &str) -> io::Result<()> {
    unless_gone(anstream::stdout().write_all(text.as_bytes()))
}

/// Hands bytes on as they are.
///
/// # Errors
/// Where standard output can't be written to.
pub fn hand_on(bytes: &[u8]) -> io::Result<()> {
    let mut out = io::stdout().lock();
    unless_gone(out.write_all(bytes).and_then(|()| out.flush()))
}

/// Tells the user something beside the result.
pub fn note(text: impl Display) {
    // Nowhere is left to tell of a failure to tell.
    let _ = writeln!(anstream::stderr(), "{text}");
}

/// Tells the user what went wrong.
pub fn error(text: impl Display) {
    let style = anstyle::AnsiColor::Red.on_default().bold();
    note(format_args!("{style}error:{style:#} {text}"));
}

fn unless_gone(result: io::Result<()>) -> io::Result<()> {
    match result {
        Err(e) if e.kind() == ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}
