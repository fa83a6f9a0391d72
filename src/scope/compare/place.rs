//! Where a row is: what a cell, a heading or the words of the thing tell of side and building.

use super::said::Said;
use crate::language::rules::lists::ListedText;
use crate::language::rules::{Compass, Grammar, Meaning};
use crate::model::{HOUSE, Side};
use std::collections::BTreeSet;

/// A place that a list names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Place {
    /// The building; none where none is named.
    pub structure: Option<String>,
    /// The side; none where no one side is named.
    pub side: Side,
    /// The sides, where several are named ("front and rear"), or one beside a point of the compass.
    pub sides: BTreeSet<Side>,
    /// The points of the compass that are named.
    pub points: BTreeSet<Compass>,
    /// The words, where they name a place that is none of the four sides: "north", "front and rear".
    pub unread: Option<String>,
}

impl Place {
    /// Nowhere in particular.
    pub const UNTOLD: Place = Place {
        structure: None,
        side: Side::None,
        sides: BTreeSet::new(),
        points: BTreeSet::new(),
        unread: None,
    };

    /// The sides that are named under one number; none where one is, or where the compass is to be read first.
    pub fn several(&self) -> Vec<Side> {
        self.sides.iter().copied().filter(|_| self.points.is_empty()).collect()
    }

    /// Whether it names a side, however it does.
    pub fn names_a_side(&self) -> bool {
        self.side != Side::None || self.unread.is_some()
    }

    /// What a more particular place leaves open is as this one has it.
    pub fn under(self, heading: &Place) -> Place {
        let structure = self.structure.clone().or_else(|| heading.structure.clone());
        let place = if self.names_a_side() { self } else { heading.clone() };
        Place { structure, ..place }
    }

    /// The same with the points of the compass as sides, where it is known which side faces north. One that is named with
    /// a side which faces elsewhere stays unread.
    pub fn turned(self, north: Option<Side>) -> Place {
        let turned: BTreeSet<Side> = self.points.iter().filter_map(|point| facing(*point, north?)).collect();
        if turned.is_empty() || !self.sides.is_empty() && self.sides != turned {
            return self;
        }
        Place { points: BTreeSet::new(), ..self }.at(turned)
    }

    /// The place with these sides: one, several, or all four, which are no one side.
    fn at(self, sides: BTreeSet<Side>) -> Place {
        let one = sides.iter().copied().next().filter(|_| sides.len() == 1).unwrap_or(Side::None);
        match sides.len() {
            0 => self,
            1 | 4 => Place { side: one, sides: BTreeSet::new(), unread: None, ..self },
            _ => Place { sides, ..self },
        }
    }
}

/// The side that faces a point of the compass. Who stands in the street before a front that faces north has east on the left.
fn facing(point: Compass, north: Side) -> Option<Side> {
    const POINTS: [Compass; 4] = [Compass::North, Compass::East, Compass::South, Compass::West];
    const SIDES: [Side; 4] = [Side::Front, Side::Left, Side::Rear, Side::Right];
    let from = SIDES.iter().position(|side| *side == north)?;
    let on = POINTS.iter().position(|other| *other == point)?;
    Some(SIDES[(from + on) % 4])
}

/// The place that words name; none where they name none.
pub(super) fn place_in(said: &Said, grammar: &Grammar) -> Option<Place> {
    let mut place = Place::UNTOLD;
    let (mut sides, mut told) = (BTreeSet::new(), false);
    for mention in &said.mentions {
        match mention.meaning(grammar) {
            Some(Meaning::Side(side)) => {
                sides.insert(side);
            }
            Some(Meaning::AllAround | Meaning::Roof) => told = true,
            Some(Meaning::Structure) => place.structure = mention.rule_name(grammar).map(str::to_owned),
            Some(Meaning::Compass(point)) => {
                place.points.insert(point);
            }
            _ => {}
        }
    }
    let all_round = sides.len() == 4 && place.points.is_empty();
    if sides.len() > 1 || !place.points.is_empty() {
        place.unread = Some(said.tokens.text.clone()).filter(|_| !all_round);
    }
    // Beside a point of the compass a side is only kept to see whether both say the same.
    let place = match place.points.is_empty() {
        true => place.at(sides),
        false => Place { sides, ..place },
    };
    told |= all_round;
    told |= place != Place::UNTOLD;
    told.then_some(place)
}

/// The place that a cell or a heading names; none where it names none.
pub(super) fn place(text: &str, grammar: &Grammar) -> Option<Place> {
    if grammar.lists.text(text) == Some(ListedText::Around) {
        let of_house = ["house", "dwelling", "home"].iter().any(|word| text.to_lowercase().contains(word));
        return Some(Place { structure: of_house.then(|| HOUSE.to_owned()), ..Place::UNTOLD });
    }
    let said = place_in(&Said::new(&grammar.lists.written_out(text), grammar), grammar);
    let points = points(text, grammar);
    if points.is_empty() {
        return said;
    }
    let Place { structure, side, mut sides, .. } = said.unwrap_or(Place::UNTOLD);
    sides.extend((side != Side::None).then_some(side));
    Some(Place { structure, side: Side::None, sides, points, unread: Some(text.to_owned()) })
}

/// The points of the compass that a short cell names. A list may write "North" where a person says "the north side".
fn points(text: &str, grammar: &Grammar) -> BTreeSet<Compass> {
    let parts = text.split([',', '/', '&', '(', ')']).flat_map(|part| part.split(" and ")).map(str::trim);
    let short = parts.filter(|part| (1..=SHORT).contains(&part.split_whitespace().count()));
    let place = |part: &str| place_in(&Said::new(&format!("{part} side"), grammar), grammar);
    short.filter_map(place).flat_map(|place| place.points).collect()
}

/// So many words a place has at most, where it stands alone.
const SHORT: usize = 4;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_read_as_lists_write_them() {
        let grammar = Grammar::built_in().unwrap();
        let sides = [
            ("Front Elevation", Side::Front),
            ("front", Side::Front),
            ("Rear", Side::Rear),
            ("BACK OF HOUSE", Side::Rear),
            ("Left side", Side::Left),
            ("Rt elev.", Side::Right),
            ("Whole house", Side::None),
            ("Roof", Side::None),
        ];
        for (text, side) in sides {
            let place = place(text, &grammar).unwrap_or_else(|| panic!("{text} is no place"));
            assert_eq!((place.side, place.unread), (side, None), "{text}");
        }
        assert_eq!(
            place("Detached garage, rear", &grammar).unwrap().structure.as_deref(),
            Some("detached garage")
        );
        assert_eq!(place("Siding", &grammar), None);
        assert_eq!(place("All four sides: front, rear, left, right", &grammar), Some(Place::UNTOLD));
    }

    #[test]
    fn several_sides_are_kept_with_their_words() {
        let grammar = Grammar::built_in().unwrap();
        for text in ["Front and rear", "Front & Rear", "Front/Rear", "front, back"] {
            let place = place(text, &grammar).unwrap_or_else(|| panic!("{text} is no place"));
            assert_eq!((place.side, place.sides), (Side::None, [Side::Front, Side::Rear].into()), "{text}");
            assert!(place.unread.is_some(), "{text}");
        }
    }

    #[test]
    fn the_compass_is_read_only_where_it_is_told_which_side_faces_north() {
        let grammar = Grammar::built_in().unwrap();
        let read = |text: &str, north| {
            let place = place(text, &grammar).unwrap().turned(north);
            (place.side, place.unread.is_none())
        };
        assert_eq!(read("North elevation", None), (Side::None, false));
        let facing_north = [(Side::Front, Side::Left), (Side::Right, Side::Front), (Side::Rear, Side::Right)];
        for (north, east) in facing_north {
            assert_eq!(read("North elevation", Some(north)), (north, true));
            assert_eq!(read("East", Some(north)), (east, true));
        }
        assert_eq!(read("Front (north)", Some(Side::Front)), (Side::Front, true));
        assert_eq!(read("Front (north)", Some(Side::Rear)), (Side::None, false));
        assert_eq!(read("Front (north)", None), (Side::None, false));
        let both = place("North and south", &grammar).unwrap().turned(Some(Side::Left));
        assert_eq!(both.sides, [Side::Right, Side::Left].into());
    }
}
