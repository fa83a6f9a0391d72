//! A paper before it is drawn: headings, sentences, tables, lists. The PDF and the page for a browser are both made
//! from it, so that they say the same.

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
    /// What is open, in a frame of its own; empty where nothing is.
    pub open: Vec<String>,
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

/// A photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// The picture as JPEG, upright, without any data but its dots.
    pub jpeg: Vec<u8>,
    /// How wide it is, in dots.
    pub width: u32,
    /// How high it is, in dots.
    pub height: u32,
    /// What stands under it.
    pub caption: String,
    /// What it shows, for whoever doesn't see it: the words that were being said.
    pub told: String,
}

/// An entry of a list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Entry {
    /// What it is, set off from the rest.
    pub name: String,
    /// The rest.
    pub text: String,
    /// Words that were said, and when.
    pub said: String,
}

/// A table. Its head is repeated on every page.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, in groups.
    pub groups: Vec<Group>,
}

/// A column of a table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Its heading.
    pub heading: &'static str,
    /// Its share of the width, of the sum of all shares.
    pub share: f32,
    /// Whether it holds numbers, which stand at its right edge.
    pub number: bool,
}

/// Rows of a table that belong together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Group {
    /// A heading over them; none where they need none.
    pub heading: Option<String>,
    /// The rows.
    pub rows: Vec<Row>,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Row {
    /// A cell a column.
    pub cells: Vec<String>,
    /// What stands under the row, over its whole width.
    pub notes: Vec<String>,
    /// Whether it needs a look.
    pub look: bool,
}

/// A drawing of lines and words, in points from its upper left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// What it shows, for whoever doesn't see it.
    pub told: String,
    /// How wide it is.
    pub width: f32,
    /// How high it is.
    pub height: f32,
    /// The rectangles: left, top, width, height.
    pub boxes: Vec<[f32; 4]>,
    /// The words.
    pub words: Vec<Label>,
}

/// Words in a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The middle of the words, from the left.
    pub x: f32,
    /// Their base line, from the top.
    pub y: f32,
    /// The words.
    pub text: String,
    /// Whether they are set off.
    pub strong: bool,
}

impl Section {
    /// A section; none where nothing stands in it.
    pub fn of(heading: impl Into<String>, blocks: Vec<Block>) -> Option<Self> {
        (!blocks.is_empty()).then(|| Self { heading: heading.into(), blocks })
    }
}

impl Column {
    /// A column of words.
    pub const fn words(heading: &'static str, share: f32) -> Self {
        Self { heading, share, number: false }
    }

    /// A column of numbers.
    pub const fn numbers(heading: &'static str, share: f32) -> Self {
        Self { heading, share, number: true }
    }
}

impl Row {
    /// A row without notes.
    pub fn of<const N: usize>(cells: [String; N]) -> Self {
        Self { cells: cells.into(), ..Self::default() }
    }
}

/// A list of what is to be done or to be known; none where it is empty.
#[cfg(feature = "papers")]
pub fn list(ticks: bool, entries: Vec<Entry>) -> Vec<Block> {
    if entries.is_empty() { Vec::new() } else { vec![Block::List { ticks, entries }] }
}
