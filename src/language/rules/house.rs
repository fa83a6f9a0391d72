//! The rules of the checks over a whole house: what may be counted twice, what work usually needs, which numbers are out
//! of the ordinary.

use crate::model::{Exact, Shape, Unit, Work};
use serde::Deserialize;

/// What a question rests on: the rule in a few words, and where it is published, or that it is common practice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ground {
    /// The rule's name in `grammars/`.
    pub name: String,
    /// What it says.
    pub says: String,
    /// A publication, or that it is common practice.
    pub source: String,
}

/// All of them.
#[derive(Debug, Clone, Default)]
pub struct HouseRules {
    /// What may have been counted from two sides.
    pub once: Vec<CountedOnce>,
    /// What work usually brings with it.
    pub needs: Vec<UsualNeed>,
    /// Numbers out of the ordinary.
    pub numbers: Vec<UsualNumber>,
    /// Sums said aloud; none where an office takes the rule away.
    pub sums: Vec<Ground>,
}

/// What may have been counted from two sides.
#[derive(Debug, Clone)]
pub struct CountedOnce {
    /// Why it is asked.
    pub ground: Ground,
    /// How it comes to be counted twice.
    pub how: Sighting,
    /// The ids, kinds of an item included.
    pub items: Vec<String>,
    /// What it hangs on: asked only where one of the two sides has that and the other hasn't.
    pub hangs_on: Option<String>,
}

/// How a thing comes to be counted twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sighting {
    /// It stands at the corners of the building, and each side counts both its ends.
    CornerPosts,
    /// It stands at a corner, and is seen from both sides of it.
    TouchingSides,
    /// It stands high up, and is seen from any side.
    AnyTwoSides,
}

/// What work usually brings with it.
#[derive(Debug, Clone)]
pub struct UsualNeed {
    /// Why it is asked.
    pub ground: Ground,
    /// The ids of what is worked on, kinds included.
    pub of: Vec<String>,
    /// The works that bring it.
    pub works: Vec<Work>,
    /// Less than this is a repair, and brings nothing.
    pub least: Option<(Exact, Unit)>,
    /// Whether it is asked of each side by itself.
    pub each_side: bool,
    /// Where so many were named, the place was looked over, and nothing is asked.
    pub enough: Option<usize>,
    /// What is looked for.
    pub needs: Vec<Need>,
}

/// One thing that is looked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// The ids that will do, as they are written.
    pub named: Vec<String>,
    /// The same with the kinds of each.
    pub any_of: Vec<String>,
    /// What is done with it where it is there.
    pub work: Work,
}

/// A number that is seldom passed.
#[derive(Debug, Clone)]
pub struct UsualNumber {
    /// Why it is asked.
    pub ground: Ground,
    /// The ids, kinds included; none for a face.
    pub of: Vec<String>,
    /// What is counted.
    pub counts: Counts,
}

/// What a number is a number of.
#[derive(Debug, Clone, PartialEq)]
pub enum Counts {
    /// How much a line has.
    Line(Exact, Unit),
    /// How much all lines of a structure have together.
    Structure(Exact, Unit),
    /// The size of each, in inches.
    Size(Exact),
    /// How high a measured face is, in feet.
    Height(Shape, Exact),
    /// How steep a roof is, in inches of rise in twelve, at least and at most; where there are ids, of structures with
    /// such a line.
    Slope(Option<Exact>, Option<Exact>),
    /// Pieces of what comes in pairs, with these works.
    Odd(Vec<Work>),
    /// At least one for so many feet of other things.
    Few {
        /// The ids of the other things.
        beside: Vec<String>,
        /// The feet.
        for_each: Exact,
    },
}
