//! The order in which a person reads a draft: by structure, by place, and what is conditional apart.

use crate::model::wording;
use crate::model::{Area, Clip, Draft, Flag, HOUSE, Line, Side};

/// A draft in reading order. Its lines are numbered from 1 through all places, the conditional ones last.
pub struct Arranged<'a> {
    /// The lines that stand, by structure and place.
    pub places: Vec<Placed<'a>>,
    /// The conditional lines, outside every total.
    pub only_if: Vec<Numbered<'a>>,
}

/// The lines of one place.
pub struct Placed<'a> {
    /// The structure, in the narrator's words.
    pub structure: &'a str,
    /// Where on it.
    pub place: Place,
    /// The lines, in the order they were said.
    pub lines: Vec<Numbered<'a>>,
}

/// A line and its number in the document.
#[derive(Clone, Copy)]
pub struct Numbered<'a> {
    /// From 1.
    pub number: usize,
    /// The line.
    pub line: &'a Line,
    /// The clips that its times fall in; none where the visit is one recording.
    pub clips: &'a [Clip],
}

/// Where on a structure a line stands, as a heading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// One side.
    Side(Side),
    /// On the roof, on no one side.
    Roof,
    /// All around.
    Around,
    /// On the ground, on no one side.
    Grounds,
    /// No side had been named.
    Unnamed,
}

impl Place {
    /// Where a line stands.
    pub fn of(line: &Line) -> Self {
        match (line.side, line.area) {
            (Side::None, _) if line.flags.contains(&Flag::NoSide) => Place::Unnamed,
            (Side::None, Area::Roof) => Place::Roof,
            (Side::None, Area::Wall) => Place::Around,
            (Side::None, Area::Grounds) => Place::Grounds,
            (side, _) => Place::Side(side),
        }
    }

    /// The place as a heading.
    pub fn heading(self) -> &'static str {
        match self {
            Place::Side(side) => wording::side(side),
            Place::Roof => "roof",
            Place::Around => "all around",
            Place::Grounds => "grounds",
            Place::Unnamed => "no side named",
        }
    }
}

impl<'a> Arranged<'a> {
    /// Brings a draft into reading order.
    pub fn new(draft: &'a Draft) -> Self {
        let (only_if, mut lines): (Vec<&Line>, Vec<&Line>) =
            draft.lines.iter().partition(|line| line.only_if);
        let structures = structures(draft);
        lines.sort_by_key(|line| (structures.iter().position(|s| *s == line.structure), Place::of(line)));
        let count = lines.len();
        let numbered = |(line, number)| Numbered { number, line, clips: &draft.clips };
        let numbered: Vec<Numbered> = lines.into_iter().chain(only_if).zip(1..).map(numbered).collect();
        let (standing, only_if) = numbered.split_at(count);
        Arranged { places: places(standing), only_if: only_if.to_vec() }
    }

    /// All lines by number.
    pub fn all(&self) -> impl Iterator<Item = Numbered<'a>> {
        self.places.iter().flat_map(|place| &place.lines).chain(&self.only_if).copied()
    }

    /// The lines that need review, by number.
    pub fn to_review(&self) -> impl Iterator<Item = Numbered<'a>> {
        self.all().filter(|n| n.line.needs_look())
    }
}

/// The structures as they are first named, the house before all.
fn structures(draft: &Draft) -> Vec<&str> {
    let mut structures = vec![HOUSE];
    for line in &draft.lines {
        if !structures.contains(&line.structure.as_str()) {
            structures.push(&line.structure);
        }
    }
    structures
}

fn places<'a>(lines: &[Numbered<'a>]) -> Vec<Placed<'a>> {
    let same = |a: &Numbered, b: &Numbered| {
        a.line.structure == b.line.structure && Place::of(a.line) == Place::of(b.line)
    };
    let placed = |lines: &[Numbered<'a>]| Placed {
        structure: &lines[0].line.structure,
        place: Place::of(lines[0].line),
        lines: lines.to_vec(),
    };
    lines.chunk_by(same).map(placed).collect()
}
