//! Sheets of paper with what is drawn on them, before they become a PDF.

use super::letters::{Cut, Letters};
use super::tree::{Part, Tree};

/// US letter, in points.
pub(super) const PAPER: [f32; 2] = [612.0, 792.0];
/// What stays white at the left and the right, at the top and at the foot.
pub(super) const SIDE: f32 = 45.0;
const TOP: f32 = 58.0;
const FOOT: f32 = 54.0;
/// How wide the text is.
pub(super) const WIDTH: f32 = PAPER[0] - 2.0 * SIDE;

/// How dark something is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ink {
    Black,
    Soft,
    /// A rule between rows.
    Rule,
    /// Behind what a person has to look at.
    Flag,
    /// Behind what is set off from all else.
    Frame,
}

/// Something drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Mark {
    /// A line of text from its left end on its base line.
    Text { x: f32, y: f32, text: String, cut: Cut, size: f32, ink: Ink },
    /// A filled rectangle.
    Fill { at: [f32; 4], ink: Ink },
    /// The outline of a rectangle.
    Frame { at: [f32; 4] },
    /// A picture in JPEG.
    Picture { at: [f32; 4], jpeg: Vec<u8> },
}

/// A mark, and which part of the paper it belongs to; none for what is only there for the eye.
pub(super) type Drawn = (Option<Part>, Mark);

/// The sheets, and how far down the last one is written.
pub(super) struct Sheets {
    /// What is drawn on each sheet.
    pub sheets: Vec<Vec<Drawn>>,
    /// The structure.
    pub tree: Tree,
    /// The fonts.
    pub letters: Letters,
    /// Headings with their levels, sheets and heights, for the bookmarks.
    pub bookmarks: Vec<(u16, String, usize, f32)>,
    /// How far down the last sheet is written.
    pub y: f32,
}

/// How a text is set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Set {
    pub cut: Cut,
    pub size: f32,
    pub ink: Ink,
}

impl Set {
    /// From base line to base line.
    pub fn leading(self) -> f32 {
        self.size * 1.32
    }
}

impl Sheets {
    /// One empty sheet.
    pub fn new(letters: Letters) -> Self {
        Self { sheets: vec![Vec::new()], tree: Tree::default(), letters, bookmarks: Vec::new(), y: TOP }
    }

    /// How much room is left on the sheet.
    pub fn room(&self) -> f32 {
        PAPER[1] - FOOT - self.y
    }

    /// Whether nothing stands on the sheet yet.
    pub fn is_fresh(&self) -> bool {
        self.y <= TOP
    }

    /// Begins a new sheet.
    pub fn turn(&mut self) {
        self.sheets.push(Vec::new());
        self.y = TOP;
    }

    /// Begins a new sheet unless there is so much room.
    pub fn need(&mut self, room: f32) {
        if self.room() < room && !self.is_fresh() {
            self.turn();
        }
    }

    /// Leaves room, unless the sheet begins here.
    pub fn space(&mut self, room: f32) {
        if !self.is_fresh() {
            self.y += room;
        }
    }

    /// Draws something on the sheet at hand.
    pub fn draw(&mut self, part: Option<Part>, mark: Mark) {
        if let Some(sheet) = self.sheets.last_mut() {
            sheet.push((part, mark));
        }
    }

    /// Writes a text from the height at hand down, over as many sheets as it takes.
    pub fn write(&mut self, part: Option<Part>, text: &str, set: Set, x: f32, width: f32) {
        for line in self.letters.lines(text, set.cut, set.size, width) {
            self.need(set.leading());
            self.line(part, line, set, x, self.y);
            self.y += set.leading();
        }
    }

    /// Writes one line whose upper edge is at `y`.
    pub fn line(&mut self, part: Option<Part>, text: String, set: Set, x: f32, y: f32) {
        let Set { cut, size, ink } = set;
        self.draw(part, Mark::Text { x, y: y + size, text, cut, size, ink });
    }

    /// Notes a heading for the bookmarks.
    pub fn bookmark(&mut self, level: u16, text: &str) {
        self.bookmarks.push((level, text.to_owned(), self.sheets.len() - 1, self.y));
    }
}
