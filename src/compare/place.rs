//! Where a row is: what a cell, a heading or the words of the thing tell of side and building.

use crate::draft::{HOUSE, Side};
use crate::grammar::lists::ListedText;
use crate::grammar::{Grammar, Meaning};
use crate::mentions::{self, Kind, Mention};
use crate::tokens::Tokens;
use crate::words::Transcript;
use std::collections::BTreeSet;

/// A place that a list names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Place {
    /// The building; none where none is named.
    pub structure: Option<String>,
    /// The side; none where no one side is named.
    pub side: Side,
    /// The words, where they name a place that is none of the four sides: "north", "front and rear".
    pub unread: Option<String>,
}

impl Place {
    /// Nowhere in particular.
    pub const UNTOLD: Place = Place { structure: None, side: Side::None, unread: None };

    /// What a more particular place leaves open is as this one has it.
    pub fn under(self, heading: &Place) -> Place {
        let told = self.side != Side::None || self.unread.is_some();
        let (side, unread) =
            if told { (self.side, self.unread) } else { (heading.side, heading.unread.clone()) };
        Place { structure: self.structure.or_else(|| heading.structure.clone()), side, unread }
    }
}

/// What a text names: its words as the rules see them.
pub(super) struct Said {
    pub tokens: Tokens,
    pub mentions: Vec<Mention>,
}

impl Said {
    pub fn new(text: &str, grammar: &Grammar) -> Self {
        let tokens = Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary);
        let mentions = mentions::find(&tokens, grammar);
        Self { tokens, mentions }
    }

    /// Whether it names a thing of the catalogue.
    pub fn names_an_item(&self) -> bool {
        self.mentions.iter().any(|m| matches!(&m.kind, Kind::Thing(thing) if thing.item.is_some()))
    }

    /// The place it names; none where it names none.
    pub fn place(&self, grammar: &Grammar) -> Option<Place> {
        let mut place = Place::UNTOLD;
        let (mut sides, mut told) = (BTreeSet::new(), false);
        for mention in &self.mentions {
            match mention.meaning(grammar) {
                Some(Meaning::Side(side)) => {
                    sides.insert(side);
                }
                Some(Meaning::AllAround | Meaning::Roof) => told = true,
                Some(Meaning::Structure) => place.structure = mention.rule_name(grammar).map(str::to_owned),
                Some(Meaning::Compass(_)) => place.unread = Some(self.tokens.text.clone()),
                _ => {}
            }
        }
        match sides.len() {
            0 => {}
            1 if place.unread.is_none() => place.side = sides.into_iter().next().unwrap_or(Side::None),
            _ => place.unread = Some(self.tokens.text.clone()),
        }
        told |= place != Place::UNTOLD;
        told.then_some(place)
    }
}

/// The place that a cell or a heading names; none where it names none.
pub(super) fn place(text: &str, grammar: &Grammar) -> Option<Place> {
    if grammar.lists.text(text) == Some(ListedText::Around) {
        let of_house = ["house", "dwelling", "home"].iter().any(|word| text.to_lowercase().contains(word));
        return Some(Place { structure: of_house.then(|| HOUSE.to_owned()), ..Place::UNTOLD });
    }
    Said::new(&grammar.lists.written_out(text), grammar).place(grammar)
}

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
        assert!(place("Front and rear", &grammar).unwrap().unread.is_some());
        assert!(place("North elevation", &grammar).unwrap().unread.is_some());
    }
}
