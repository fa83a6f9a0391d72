//! Noun phrases: from a name leftwards over adjectives, sizes, numbers and the word that opens it.

use super::thing::{Determiner, Thing};
use super::{Kind, Mention};
use crate::language::numbers::Amount;
use crate::language::phrases::Groundwork;
use crate::language::rules::{Classes, Grammar, Item, Match, Meaning, Target};
use crate::language::tokens::Break;
use crate::language::vocabulary::ClassId;

/// Reads noun phrases.
pub(super) struct NounPhrases<'a> {
    pub ground: &'a Groundwork<'a>,
}

/// What came before a name, read leftwards.
#[derive(Default)]
pub(super) struct Leftwards {
    /// The leftmost token taken so far.
    pub at: usize,
    /// How many plain words were taken.
    pub adjectives: usize,
    /// The "of" of "forty foot of gutter" was taken last.
    pub after_of: bool,
    /// The phrase reaches no further.
    pub done: bool,
}

impl<'a> NounPhrases<'a> {
    pub fn grammar(&self) -> &'a Grammar {
        self.ground.grammar()
    }

    pub fn classes(&self) -> &'a Classes {
        &self.grammar().classes
    }

    pub fn is(&self, at: usize, class: ClassId) -> bool {
        self.ground.is(at, class)
    }

    /// The catalogue's entry of a thing.
    pub fn item_of(&self, thing: &Thing) -> Option<&'a Item> {
        thing.item.map(|item| &self.grammar().items[usize::from(item)])
    }

    /// The amount that ends right before a token, unless it is said of things named before.
    pub fn amount_ending(&self, end: usize) -> Option<&'a Amount> {
        let amounts = self.ground.amounts();
        let at = amounts.partition_point(|a| a.end < end);
        amounts.get(at).filter(|a| a.end == end && !a.of_them)
    }

    /// The things that items' names name.
    pub fn of_items(&self) -> Vec<Mention> {
        let mut names: Vec<&Match> = self.ground.cover().matches.iter().collect();
        names.sort_by_key(|m| m.first);
        names.into_iter().filter_map(|name| self.of_item(name)).collect()
    }

    fn of_item(&self, name: &Match) -> Option<Mention> {
        let Target::Item { item, plural, sounds } = name.target else { return None };
        let another = self.names_another(name);
        let end = name.end + usize::from(another);
        let sounds = sounds || name.tokens().any(|t| self.ground.tokens().list[t].sounds);
        Some(self.phrase(Thing {
            item: (!another).then_some(item),
            sounds,
            plural,
            name: (name.first, end),
            head: self.ground.word(end - 1),
            ..Thing::default()
        }))
    }

    /// "soffit vents": the item's name only tells what kind of another thing is meant.
    fn names_another(&self, name: &Match) -> bool {
        self.ground.spoken_on(name.end)
            && self.is(name.end, self.classes().thing_word)
            && self.ground.cover().at(name.end).is_none()
    }

    /// The noun phrase around a name.
    pub fn phrase(&self, mut thing: Thing) -> Mention {
        let mut walk = Leftwards { at: thing.name.0, ..Leftwards::default() };
        while walk.at > 0 && !walk.done && self.ground.tokens().list[walk.at].before == Break::None {
            self.step(&mut thing, &mut walk);
        }
        if self.stands_behind(walk.at, &thing) {
            thing.behind = Some(self.ground.word(walk.at - 1));
        }
        Mention { first: walk.at, end: thing.name.1, kind: Kind::Thing(Box::new(thing)) }
    }

    /// Takes the word or the amount to the left, or ends the phrase.
    fn step(&self, thing: &mut Thing, walk: &mut Leftwards) {
        let at = walk.at - 1;
        if let Some(amount) = self.amount_ending(walk.at) {
            self.take_amount(thing, walk, *amount);
        } else if self.holds_cue(at) {
            walk.done = true;
        } else if self.is(at, self.classes().of_joint) {
            self.take_of(thing, walk, at);
        } else if !self.take_opener(thing, walk, at) {
            self.take_adjective(thing, walk, at);
        }
    }

    /// Whether a token belongs to a cue that no noun phrase reaches over.
    pub fn holds_cue(&self, at: usize) -> bool {
        let Some(held) = self.ground.cover().at(at) else { return false };
        let plain_word = held.end - held.first == 1
            && self.ground.is_any(at, &[self.classes().negative, self.classes().new]);
        match held.meaning(self.grammar()) {
            None => true,
            Some(_) if plain_word => false,
            Some(Meaning::Refer(_) | Meaning::Rough | Meaning::Noun) => false,
            Some(Meaning::Side(_)) => self.side_of_thing(at).is_none(),
            Some(_) => true,
        }
    }

    /// Whether the word right before a phrase tells that it is only a place where something else is: "on the deck".
    fn stands_behind(&self, first: usize, thing: &Thing) -> bool {
        first > 0
            && !self.part_of_verb(first)
            && self.leaves_free(first - 1)
            && !(self.counts_bare(thing) && self.ground.meaning_at(first - 1) == Some(Meaning::Rough))
            && self.ground.spoken_on(first)
            && self.is(first - 1, self.classes().preposition)
            && !self.measured_out(first - 1)
    }

    /// "replacing about | four sheets": behind a hedge a count without an article is no place.
    fn counts_bare(&self, thing: &Thing) -> bool {
        thing.amount.is_some() && thing.determiner == Determiner::Bare
    }

    /// Whether what holds a token leaves it to be a preposition: one word alone, or words that were only claimed so that
    /// they mean nothing else, "right under | the deck".
    fn leaves_free(&self, at: usize) -> bool {
        self.ground
            .cover()
            .at(at)
            .is_none_or(|held| held.end - held.first == 1 || !self.holds_cue(at) || self.says_nothing(held))
    }

    /// Whether words were only claimed so that they mean nothing else.
    pub fn says_nothing(&self, found: &Match) -> bool {
        found.meaning(self.grammar()) == Some(Meaning::Nothing)
    }

    /// "since they moved in | this hood": the word belongs to the verb before it.
    fn part_of_verb(&self, first: usize) -> bool {
        let c = self.classes();
        let ends_verb = |verb, joint| first > 1 && self.is(first - 1, joint) && self.is(first - 2, verb);
        ends_verb(c.looking, c.looking_joint) || ends_verb(c.particle_verb, c.particle)
    }

    /// "twenty square yards of siding": behind a unit that drafts lack, "of" tells what was measured, not where.
    fn measured_out(&self, of: usize) -> bool {
        let grammar = self.grammar();
        let unit = |from: usize| grammar.unit_at(&self.ground.tokens().list, from, true);
        let number = |at: usize| {
            let word = self.ground.word(at);
            grammar.numbers.get(word).is_some() || grammar.vocabulary.word(word).is_empty()
        };
        self.is(of, self.classes().of_joint)
            && (1..3.min(of)).any(|n| number(of - n - 1) && unit(of - n).is_some_and(|u| u == (None, of)))
    }
}
