//! Writes text in lines of a given width, with colors.

use anstyle::{AnsiColor, Style};
use std::fmt::Write;

/// Headings and names.
pub(super) const STRONG: Style = Style::new().bold();
/// What stands back.
pub(super) const SOFT: Style = Style::new().dimmed();
/// What a person has to look at.
pub(super) const FLAG: Style = AnsiColor::Yellow.on_default();
/// What is as usual.
pub(super) const PLAIN: Style = Style::new();

/// The narrowest page that is still laid out; below it lines run over.
const NARROWEST: usize = 60;

/// A page being written.
pub(super) struct Pen {
    text: String,
    /// The columns of the page.
    pub width: usize,
}

impl Pen {
    pub fn new(width: usize) -> Self {
        Self { text: String::new(), width: width.max(NARROWEST) }
    }

    /// An empty line.
    pub fn skip(&mut self) {
        self.text.push('\n');
    }

    /// Text that is broken where the page ends; all its lines are indented alike. Of no text nothing comes.
    pub fn text(&mut self, style: Style, indent: usize, text: &str) {
        if text.is_empty() {
            return;
        }
        for line in textwrap::wrap(text, self.width.saturating_sub(indent)) {
            self.row(&format!("{:indent$}{}", "", styled(style, &line)));
        }
    }

    /// Text behind a mark; all its lines begin behind it.
    pub fn marked(&mut self, mark: &str, text: &str) {
        let indent = mark.len();
        for (n, line) in textwrap::wrap(text, self.width.saturating_sub(indent)).iter().enumerate() {
            let mark = if n == 0 { mark } else { "" };
            self.row(&format!("{}{line}", styled(SOFT, &format!("{mark:indent$}"))));
        }
    }

    /// A line as it is.
    pub fn row(&mut self, row: &str) {
        // Writing to a String can't fail.
        let _ = writeln!(self.text, "{}", row.trim_end());
    }

    pub fn finish(self) -> String {
        self.text
    }
}

/// The text in its color; nothing around text that has none.
pub(super) fn styled(style: Style, text: &str) -> String {
    if text.trim().is_empty() { text.to_owned() } else { format!("{style}{text}{style:#}") }
}
