//! What two lines are compared by, and how the facts of one stand to those of the other.

use crate::language::rules::Grammar;
use crate::model::{Exact, HOUSE, Side, Size, UnitKind, Work, wording};

/// What a line is about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Thing {
    /// A thing of the catalogue, by its place there.
    Item(u16),
    /// Another thing, by the words that matter in its name.
    Named(String),
}

/// What a line says.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Facts {
    /// The building; none where none is named.
    pub structure: Option<String>,
    /// The side.
    pub side: Side,
    /// The sides, where several are named under one number.
    pub sides: Vec<Side>,
    /// The thing.
    pub thing: Thing,
    /// The work; none where none is said.
    pub work: Option<Work>,
    /// The size.
    pub size: Option<Size>,
    /// What its unit measures; none where no known unit is told.
    pub measure: Option<UnitKind>,
    /// A unit is told that isn't known.
    pub odd_unit: bool,
    /// How much, in the plainest unit of its measure.
    pub amount: Option<Exact>,
}

/// What two lines may differ in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Respect {
    /// The building.
    Structure,
    /// The side.
    Side,
    /// The thing.
    Thing,
    /// The work.
    Work,
    /// The unit.
    Unit,
    /// The size.
    Size,
}

/// How one line's fact stands to the other's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Standing {
    /// They say the same.
    Same,
    /// One of them says nothing of it, or says it less closely.
    Open,
    /// They say different things.
    Clash,
}

/// How two lines stand to each other, in every respect in which they don't say the same.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Relation {
    /// What is left open.
    pub open: Vec<Respect>,
    /// What they contradict each other in.
    pub clash: Vec<Respect>,
}

impl Thing {
    /// A thing that the catalogue lacks, by the words of its name.
    pub fn named(name: &str) -> Self {
        /// Words that tell no thing from another.
        const SMALL: [&str; 12] =
            ["a", "an", "the", "of", "for", "and", "or", "with", "new", "on", "at", "to"];
        let lower = name.to_lowercase();
        let words = lower.split(|c: char| !c.is_alphanumeric());
        let matters = |word: &&str| {
            !word.is_empty() && !SMALL.contains(word) && !word.chars().all(|c| c.is_ascii_digit())
        };
        Self::Named(words.filter(matters).map(singular).collect::<Vec<_>>().join(" "))
    }

    /// In words.
    pub fn words(&self, grammar: &Grammar) -> String {
        match self {
            Self::Item(item) => wording::item(Some(&grammar.items[usize::from(*item)].id), ""),
            Self::Named(name) => name.clone(),
        }
    }

    /// Its id in the catalogue; none for another thing.
    pub fn id<'g>(&self, grammar: &'g Grammar) -> Option<&'g str> {
        match self {
            Self::Item(item) => Some(&grammar.items[usize::from(*item)].id),
            Self::Named(_) => None,
        }
    }

    /// Whether the catalogue lacks it.
    pub fn is_named(&self) -> bool {
        matches!(self, Self::Named(_))
    }

    /// Whether it is the same, or one is a kind of the other.
    pub fn is_kin(&self, other: &Self, grammar: &Grammar) -> bool {
        self.stands_to(other, grammar) != Standing::Clash
    }

    fn stands_to(&self, other: &Self, grammar: &Grammar) -> Standing {
        match (self, other) {
            _ if self == other => Standing::Same,
            (Self::Item(a), Self::Item(b)) if grammar.is_kind_of(*a, *b) || grammar.is_kind_of(*b, *a) => {
                Standing::Open
            }
            _ => Standing::Clash,
        }
    }

    /// Whether two different things may yet be meant as one: two kinds of fence, a "vent" and a gable vent, names that
    /// share their words.
    pub fn is_near(&self, other: &Self, grammar: &Grammar) -> bool {
        /// Names so alike are one name, typed in two ways.
        const ALIKE: f64 = 0.93;
        match (self, other) {
            (Self::Item(a), Self::Item(b)) => {
                let kind = |item: &u16| grammar.items[usize::from(*item)].kind_of.clone();
                kind(a).is_some() && kind(a) == kind(b)
            }
            (Self::Item(item), Self::Named(name)) | (Self::Named(name), Self::Item(item)) => {
                let last = name.rsplit(' ').next().map_or(0, |word| grammar.vocabulary.id(word));
                last != 0 && !name.contains(' ') && grammar.items[usize::from(*item)].heads.contains(&last)
            }
            (Self::Named(a), Self::Named(b)) => {
                let has_all =
                    |a: &str, b: &str| !a.is_empty() && a.split(' ').all(|w| b.split(' ').any(|o| o == w));
                strsim::jaro_winkler(a, b) >= ALIKE || has_all(a, b) || has_all(b, a)
            }
        }
    }
}

fn singular(word: &str) -> &str {
    if word.len() > 3 && !word.ends_with("ss") { word.strip_suffix('s').unwrap_or(word) } else { word }
}

/// How their facts stand to ours. What names no building is about the house, or with `any_building` about any.
pub(super) fn relation(
    ours: &Facts,
    theirs: &Facts,
    odd_place: bool,
    any_building: bool,
    grammar: &Grammar,
) -> Relation {
    let mut relation = Relation::default();
    let told = |same: bool, open: bool| match (same, open) {
        (true, _) => Standing::Same,
        (_, true) => Standing::Open,
        _ => Standing::Clash,
    };
    let ours_at = ours.structure.as_deref().unwrap_or(HOUSE);
    let theirs_at = theirs.structure.as_deref().unwrap_or(HOUSE);
    let no_building = theirs.structure.is_none() && any_building;
    let no_side = ours.side == Side::None
        || match theirs.sides.is_empty() {
            true => odd_place || theirs.side == Side::None,
            false => theirs.sides.contains(&ours.side),
        };
    let no_size = ours.size.is_none() || theirs.size.is_none();
    let same_size = match (&ours.size, &theirs.size) {
        (Some(a), Some(b)) => a.is_like(b),
        (a, b) => a.is_none() && b.is_none(),
    };
    let all = [
        (Respect::Structure, told(ours_at.eq_ignore_ascii_case(theirs_at) && !no_building, no_building)),
        (Respect::Side, told(ours.side == theirs.side && !odd_place, no_side)),
        (Respect::Thing, ours.thing.stands_to(&theirs.thing, grammar)),
        (Respect::Work, told(ours.work == theirs.work, ours.work.is_none() || theirs.work.is_none())),
        (Respect::Unit, told(ours.measure == theirs.measure, theirs.measure.is_none() && !theirs.odd_unit)),
        (Respect::Size, told(same_size, no_size)),
    ];
    for (respect, standing) in all {
        match standing {
            Standing::Same => {}
            Standing::Open => relation.open.push(respect),
            Standing::Clash => relation.clash.push(respect),
        }
    }
    relation
}

/// Whether one work may have been written for the other: taking off, putting back and putting new are easily mixed up, so
/// are paint and stain.
pub(super) fn near_works(a: Work, b: Work) -> bool {
    let covers = |work| matches!(work, Work::Paint | Work::Stain);
    let handles = |work| {
        matches!(work, Work::DetachReset | Work::RemoveReplace | Work::Remove | Work::Install | Work::Repair)
    };
    covers(a) && covers(b) || handles(a) && handles(b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_things_are_asked_about_and_never_taken_for_one() {
        let grammar = Grammar::built_in().unwrap();
        let item = |id: &str| Thing::Item(grammar.item_named(id).unwrap());
        assert_eq!(item("fence").stands_to(&item("wood-fence"), &grammar), Standing::Open);
        assert_eq!(item("vinyl-fence").stands_to(&item("wood-fence"), &grammar), Standing::Clash);
        assert!(item("vinyl-fence").is_near(&item("wood-fence"), &grammar));
        assert!(Thing::named("Vents").is_near(&item("gable-vent"), &grammar));
        assert!(Thing::named("Copper weather vane").is_near(&Thing::named("weather vane"), &grammar));
        assert!(!item("gutter").is_near(&item("downspout"), &grammar));
        assert!(!Thing::named("permit").is_near(&Thing::named("weather vane"), &grammar));
    }
}
