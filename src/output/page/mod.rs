//! A paper before it is drawn: headings, sentences, tables, lists, pictures. The PDF, the page for a browser and the text
//! for a terminal are all drawn from it, so that they say the same.

mod figure;
pub mod fit;
mod list;
mod table;

pub use figure::{Drawing, Label, Picture};
pub use list::{Entry, list};
pub use table::{Cell, Column, Group, Holds, Note, Row, Table};

/// A paper.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    /// What kind of paper it is, above its title: `Draft scope of work`.
    pub kind: String,
    /// Its title: the property.
    pub title: String,
    /// What is filled in by hand: `To`, `Date`, each with a line to write on.
    pub blanks: Vec<&'static str>,
    /// What it is, in a few sentences below.
    pub summary: Vec<String>,
    /// What the reader has to know first, in a frame of its own: a paragraph each.
    pub notices: Vec<String>,
    /// Its sections.
    pub sections: Vec<Section>,
    /// What it says of itself at its end.
    pub closing: Vec<String>,
}

/// A part of a paper under a heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// The heading.
    pub heading: String,
    /// Whether it is set off from all others, in a frame.
    pub framed: bool,
    /// What stands under it.
    pub blocks: Vec<Block>,
}

/// Something in a section.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A paragraph.
    Text(String),
    /// A table.
    Table(Table),
    /// A list, each entry with a box to tick where something is to be done.
    List {
        /// Whether there are boxes.
        ticks: bool,
        /// The entries.
        entries: Vec<Entry>,
    },
    /// A drawing.
    Drawing(Drawing),
    /// Photos, side by side as far as the paper is wide.
    Pictures(Vec<Picture>),
}

/// Words that were said, and when.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Said {
    /// When, as a person reads it; empty where there are no times.
    pub time: String,
    /// The words; empty where only the time is told.
    pub words: String,
}

/// Where something on a paper leads. It can be followed in a browser only.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Link {
    /// To the row of that anchor on the same paper.
    Row(String),
    /// To another page.
    Page(String),
}

impl Section {
    /// A section; none where nothing stands in it.
    pub fn of(heading: impl Into<String>, blocks: Vec<Block>) -> Option<Self> {
        (!blocks.is_empty()).then(|| Self { heading: heading.into(), framed: false, blocks })
    }

    /// A section that tells in its heading how many entries it has; none where it has none.
    pub fn listing(heading: &str, ticks: bool, entries: Vec<Entry>) -> Option<Self> {
        Self::of(format!("{heading} ({})", entries.len()), list(ticks, entries))
    }
}

impl Said {
    /// The time and the words in quotes.
    pub fn told(&self) -> String {
        let words = if self.words.is_empty() { String::new() } else { format!("“{}”", self.words) };
        let parts = [&self.time, &words].into_iter().filter(|part| !part.is_empty());
        parts.map(String::as_str).collect::<Vec<_>>().join(" ")
    }
}
