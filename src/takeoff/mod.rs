//! Takeoff: what the measures come to, exactly.
//!
//! Takes a draft as it stands and gives figures, each with its formula and the words its values came from, and what
//! would have to be measured for more. Conditional lines take no part. Nothing is guessed: where a measure lacks, there
//! is no figure. All numbers are fractions; a root is rounded once, to a sixteenth of an inch or a hundredth of a square
//! foot.

mod cover;
pub mod exact;
mod figure;
mod formula;
pub mod geometry;
mod house;
mod roof;
mod runs;
mod sheet;
mod trim;
mod walls;

pub use exact::Exact;
pub use figure::{Figure, Lacking, PARTS, Part};
pub use formula::{Figured, Formula, Grain, Input, Leaf, Measure, Origin, told};
pub use house::{Face, House, OpeningSize, Told};

use crate::draft::Draft;
use crate::grammar::Grammar;
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
}

/// Takes off a draft as it stands.
pub fn takeoff(draft: &Draft, grammar: &Grammar) -> Takeoff {
    let house = House::of(draft, grammar);
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
    }
    takeoff
}
