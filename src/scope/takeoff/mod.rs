//! Takeoff: what the measures come to, exactly.
//!
//! Takes a draft as it stands and gives figures, each with its formula and the words its values came from, and what
//! would have to be measured for more. Conditional lines take no part. Nothing is guessed: where a measure lacks, there
//! is no figure. All numbers are fractions; a root is rounded once, to a sixteenth of an inch or a hundredth of a square
//! foot.

mod cover;
mod face;
mod figure;
mod formula;
pub mod geometry;
mod house;
mod roof;
mod runs;
mod sheet;
mod trim;
mod typed;
pub mod view;
mod walls;
mod written;

pub use face::{Face, Told, faces};
pub use figure::{Figure, Lacking, PARTS, Part};
pub use formula::{Figured, Formula, Grain, Input, Measure, Origin, told};
pub use house::{MeasuredHouse, OpeningSize};
pub use typed::{length_of, rise_of};
pub use walls::NET_AREA;
pub use written::Leaf;

use crate::language::rules::Grammar;
use crate::model::{Draft, Shape, Side};
use serde::Serialize;
use sheet::Sheet;

/// What a draft's measures come to.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Takeoff {
    /// By which rule openings were deducted from walls.
    pub openings: String,
    /// The figures, by structure and part.
    pub figures: Vec<Figure>,
    /// What is to be measured for more.
    pub lacking: Vec<Lacking>,
    /// What coverings lie on, where all of it is measured.
    #[serde(skip)]
    covered: Vec<Covered>,
}

impl Takeoff {
    /// The area of what a covering lies on: the walls of a side, less openings, or its slope; without a side, all of them.
    /// None where not all of it is measured.
    pub fn covered(&self, structure: &str, side: Side, shape: Shape) -> Option<&Figure> {
        let there = |covered: &&Covered| {
            covered.structure == structure && (covered.side, covered.shape) == (side, shape)
        };
        let key = &self.covered.iter().find(there)?.key;
        self.figures.iter().find(|figure| figure.key == *key)
    }
}

/// What a covering lies on.
#[derive(Debug, Clone, PartialEq)]
struct Covered {
    structure: String,
    side: Side,
    shape: Shape,
    /// The key of the figure that is its area.
    key: String,
}

/// Takes off a draft as it stands.
pub fn takeoff(draft: &Draft, grammar: &Grammar) -> Takeoff {
    let house = MeasuredHouse::of(draft, grammar);
    let mut takeoff = Takeoff { openings: grammar.openings.told(), ..Takeoff::default() };
    for structure in house.structures() {
        let mut sheet = Sheet::new(&house, structure);
        walls::write(&mut sheet);
        trim::write(&mut sheet);
        roof::write(&mut sheet);
        runs::write(&mut sheet);
        sheet.figures.sort_by_key(|figure| figure.part);
        takeoff.figures.extend(sheet.figures);
        takeoff.lacking.extend(sheet.lacking);
        let covered = |(side, shape, key)| Covered { structure: structure.to_owned(), side, shape, key };
        takeoff.covered.extend(sheet.covered.into_iter().map(covered));
    }
    takeoff
}
