//! The word that opens a noun phrase, and what may stand between it and the name.

use super::noun_phrase::{Leftwards, NounPhrases};
use super::thing::{Determiner, Thing};
use crate::language::rules::Meaning;
use crate::language::tokens::Break;
use crate::model::Side;

/// How many plain words may stand between a number and the name: "four little old wood screens".
const MOST_ADJECTIVES: usize = 3;

impl NounPhrases<'_> {
    /// Takes the word that opens a phrase, or one that may stand before it: "all the other". False where there is none.
    pub(super) fn take_opener(&self, thing: &mut Thing, walk: &mut Leftwards, at: usize) -> bool {
        let c = self.classes();
        if self.is(at, c.more) {
            thing.more = true;
        } else if self.is(at, c.every) {
            thing.every = true;
        } else if let Some(determiner) = self.determiner(at) {
            if thing.determiner != Determiner::Bare || self.opens_another(thing, at) {
                walk.done = true;
                return true;
            }
            thing.determiner = determiner;
        } else {
            return false;
        }
        walk.at = at;
        walk.adjectives = MOST_ADJECTIVES;
        true
    }

    fn determiner(&self, at: usize) -> Option<Determiner> {
        let c = self.classes();
        let of = [
            (c.definite, Determiner::Definite),
            (c.indefinite, Determiner::Indefinite),
            (c.negative, Determiner::Negative),
        ];
        of.iter().find(|(class, _)| self.is(at, *class)).map(|(_, d)| *d)
    }

    /// Whether a word that could open the phrase doesn't: it stands for something else, or was said and left.
    fn opens_another(&self, thing: &Thing, at: usize) -> bool {
        let c = self.classes();
        let hesitated = self.ground.tokens().list[at + 1].hesitated
            && self.ground.is_any(at, &[c.pointing_one, c.pointing_several]);
        // "twelve, no, thirteen screens": a second thought, not none of them.
        let corrected =
            self.is(at, c.second_thought) && thing.amount.is_some() && self.amount_ending(at).is_some();
        self.is_pronoun_beside(thing, at) || hesitated || corrected || self.belongs_before(thing, at)
    }

    /// "replace those | gutter": a word for several before one thing, or for one before several, is a pronoun.
    fn is_pronoun_beside(&self, thing: &Thing, at: usize) -> bool {
        let c = self.classes();
        let several = thing.plural || thing.amount.is_some_and(|a| a.unit.is_none() && a.high > 1.into());
        if several {
            self.is(at, c.pointing_one) && thing.amount.is_some()
        } else {
            self.ground.is_any(at, &[c.pointing_several, c.object_several])
        }
    }

    /// "both of those | shingles": what isn't counted isn't both of anything.
    fn belongs_before(&self, thing: &Thing, at: usize) -> bool {
        let c = self.classes();
        let counted = self.item_of(thing).is_none_or(|item| item.counted());
        !counted && at >= 2 && self.is(at - 1, c.of_joint) && self.is(at - 2, c.both_word)
    }

    /// Takes a word that stands before a name and opens nothing, or ends the phrase before it.
    pub(super) fn take_adjective(&self, thing: &mut Thing, walk: &mut Leftwards, at: usize) {
        let c = self.classes();
        let told = self.is(at, c.new) || self.is(at, c.material);
        let reaches = walk.adjectives < MOST_ADJECTIVES && (told || !self.closes(at));
        if reaches && self.note_adjective(thing, at) {
            walk.adjectives += 1;
            walk.at = at;
        } else {
            walk.done = true;
        }
    }

    /// Notes what a word before the name says of the thing; false where it says nothing of it.
    fn note_adjective(&self, thing: &mut Thing, at: usize) -> bool {
        let c = self.classes();
        if self.is(at, c.new) {
            let fresh = !self.told_as_new(thing, at);
            thing.new |= fresh;
            return fresh;
        }
        if self.is(at, c.material) {
            thing.detail.insert(0, at);
            return true;
        }
        let Some(side) = self.side_of_thing(at) else { return self.leads_to_opener(at) };
        let alone = self.ground.cover().at(at).is_some_and(|m| m.end == m.first + 1);
        let open = thing.amount.is_none() && !(alone && matches!(side, Side::Right | Side::Left));
        thing.side = if open { Some(side) } else { thing.side };
        open
    }

    /// "that's new, slider's good": said of what stands before it.
    fn told_as_new(&self, thing: &Thing, at: usize) -> bool {
        let c = self.classes();
        at > 1 && self.is(at - 1, c.be) && self.is(at - 2, c.pronoun) && self.is(thing.name.1, c.be)
    }

    /// "the front gutter": a side told in one word right before the name.
    pub(super) fn side_of_thing(&self, at: usize) -> Option<Side> {
        let held = self.ground.cover().at(at)?;
        let Some(Meaning::Side(side)) = held.meaning(self.grammar()) else { return None };
        let c = self.classes();
        let last = at + 1 == held.end || self.is(at, c.definite);
        let one_word = !(held.first..held.end).any(|t| self.is(t, c.side_noun));
        (last && one_word && self.is(held.end - 1, c.adjective)).then_some(side)
    }

    /// Whether a word can't stand between the word that opens a phrase and the name.
    fn closes(&self, at: usize) -> bool {
        let c = self.classes();
        !self.is(at, c.adjective)
            && self.ground.is_any(at, &[c.function, c.be, c.have, c.preposition, c.joins])
    }

    /// Whether plain words lead on to a number or to the word that opens the phrase; else they belong to
    /// what was said before.
    fn leads_to_opener(&self, at: usize) -> bool {
        let c = self.classes();
        for back in 0..MOST_ADJECTIVES {
            let Some(here) = at.checked_sub(back) else { return false };
            if self.amount_ending(here).is_some() {
                return true;
            }
            if here == 0 || self.ground.tokens().list[here].before != Break::None || self.holds_cue(here - 1)
            {
                return false;
            }
            if self.determiner(here - 1).is_some() || self.ground.is_any(here - 1, &[c.more, c.every]) {
                return true;
            }
            if self.closes(here - 1) {
                return false;
            }
        }
        false
    }
}
