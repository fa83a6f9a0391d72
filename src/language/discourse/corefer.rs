//! The same thing or another one? The words that open a phrase, its number, and what was settled already
//! decide; where it can't be told, the line is flagged.

use super::account::Span;
use super::entity::Entity;
use super::tracker::Tracker;
use crate::language::mentions::{Determiner, Mention, Thing};
use crate::language::numbers::Amount;
use crate::language::tokens::Break;
use crate::model::Flag;

/// How near a thing was named that "the dish" speaks of though the narrator stands elsewhere, in tokens.
const JUST_NAMED: usize = 8;

impl Tracker<'_> {
    /// The latest entity here that a thing may stand for.
    pub(super) fn known(&self, thing: &Thing) -> Option<usize> {
        let place = self.place_of(thing);
        let here =
            |e: &Entity| e.place.structure == place.structure && (e.place.side == place.side || !place.named);
        let mut latest_first = (0..self.entities.len()).rev();
        latest_first.find(|n| {
            let e = &self.entities[*n];
            here(e) && self.names_same(e, thing)
        })
    }

    /// Whether a name fits an entity: the same item, or only the last word of its name ("that vent").
    fn names_same(&self, entity: &Entity, thing: &Thing) -> bool {
        match (entity.item, thing.item) {
            (Some(a), Some(b)) => a == b || self.short_name(entity, thing) || self.plainer(entity, thing),
            (None, None) => {
                self.tokens.list[entity.name.end - 1].word == thing.head && self.same_text(entity, thing)
            }
            _ => false,
        }
    }

    fn same_text(&self, entity: &Entity, thing: &Thing) -> bool {
        self.tokens.said(entity.name.end - 1).eq_ignore_ascii_case(self.tokens.said(thing.name.1 - 1))
    }

    /// "the fence" for the wood fence named before.
    fn plainer(&self, entity: &Entity, thing: &Thing) -> bool {
        let kind = entity.item.zip(thing.item).is_some_and(|(e, t)| self.grammar.is_kind_of(e, t));
        let same_amount =
            thing.amount.is_some_and(|a| entity.quantity.is_some_and(|q| !q.implied && q.low == a.low));
        kind && ((thing.determiner == Determiner::Definite && thing.amount.is_none()) || same_amount)
    }

    /// "fence, chain link", "a fence, this little picket fence": the plain word just named is narrowed.
    pub(super) fn generic_of(&self, mention: &Mention, thing: &Thing) -> Option<usize> {
        let last = self.focus.last().copied()?;
        let e = &self.entities[last];
        let kind = e.item.zip(thing.item).is_some_and(|(e, t)| self.grammar.is_kind_of(t, e));
        let bare = (e.quantity.is_none_or(|q| q.implied) || thing.amount.is_none())
            && self.open(last)
            && !thing.more;
        (kind && bare && e.span.end + 16 >= mention.first).then_some(last)
    }

    /// Gives an entity the more exact item.
    pub(super) fn narrow(&mut self, entity: usize, thing: &Thing) -> usize {
        let e = &mut self.entities[entity];
        e.item = thing.item;
        e.name = Span { first: thing.name.0, end: thing.name.1 };
        if thing.sounds {
            e.flags.insert(Flag::SoundsLike);
        }
        entity
    }

    /// "that vent", "the wrap": the thing named last whose name ends so, or a part of it.
    pub(super) fn short_for(&mut self, mention: &Mention, thing: &Thing) -> Option<usize> {
        if let Some(known) = self.short_known(mention, thing) {
            return Some(known);
        }
        let word = self.grammar.singular(thing.head);
        let recent =
            self.focus.iter().rev().copied().filter(|n| self.entities[*n].span.end + 40 >= mention.first);
        let part = recent
            .into_iter()
            .find_map(|n| self.entities[n].item.and_then(|of| self.grammar.part_of(word, of)))
            .or_else(|| {
                let near = self.landmark.filter(|l| l.1 + 40 >= mention.first)?;
                self.grammar.part_of(word, near.0)
            })?;
        let named =
            Thing { item: Some(part), short: false, determiner: Determiner::Definite, ..thing.clone() };
        Some(self.same_as(mention, &named).unwrap_or_else(|| self.bring_up(mention, &named)))
    }

    /// "Gas meter and electric meter. Electric, detach and reset.": what it was called with, without its last word.
    pub(super) fn known_by_first_word(&self, mention: &Mention, thing: &Thing) -> Option<usize> {
        let one_word = thing.item.is_none() && !thing.short && thing.name.1 == thing.name.0 + 1;
        let said = self.tokens.said(thing.name.0);
        let named = |n: &usize| {
            let e = &self.entities[*n];
            e.name.end > e.name.first + 1
                && e.span.end + 40 >= mention.first
                && self.open(*n)
                && self.tokens.said(e.name.first).eq_ignore_ascii_case(said)
        };
        self.focus.iter().rev().copied().filter(|_| one_word).find(named)
    }

    /// Whether the last word of an entity's name is the one said.
    pub(super) fn named_so(&self, entity: usize, thing: &Thing) -> bool {
        let word = self.grammar.singular(thing.head);
        let last = self.tokens.list[self.entities[entity].name.end - 1].word;
        last == thing.head || self.grammar.singular(last) == word || self.ends_in(entity, word)
    }

    /// The thing named last whose name ends in this word.
    pub(super) fn short_known(&self, mention: &Mention, thing: &Thing) -> Option<usize> {
        let recent =
            |n: &usize| self.entities[*n].span.end + 40 >= mention.first && !self.entities[*n].scratched;
        self.focus.iter().rev().copied().filter(recent).find(|n| self.named_so(*n, thing))
    }

    /// Whether one of the item's names ends in the word.
    fn ends_in(&self, entity: usize, word: crate::language::vocabulary::WordId) -> bool {
        self.entities[entity].item.is_some_and(|i| self.grammar.items[usize::from(i)].heads.contains(&word))
    }

    /// "the door" for the garage door just named, "the screen door" for no other.
    fn short_name(&self, entity: &Entity, thing: &Thing) -> bool {
        let one_word = thing.name.1 - thing.name.0 == 1;
        let more_words = entity.name.end - entity.name.first > 1;
        let recent = entity.span.end + 24 >= thing.name.0;
        let definite = thing.determiner == Determiner::Definite && thing.amount.is_none() && !thing.more;
        let definite = definite || self.is_just_named(entity, thing);
        one_word
            && more_words
            && recent
            && definite
            && self.tokens.list[entity.name.end - 1].word == thing.head
    }

    /// "patio door, door's good", "two overhead doors, so two new doors": without "the", only what still waits.
    fn is_just_named(&self, entity: &Entity, thing: &Thing) -> bool {
        let latest =
            self.focus.last().is_some_and(|l| self.entities[*l].name == entity.name && self.open(*l));
        let same_number = thing.amount.is_none_or(|a| {
            a.unit.is_none() && entity.quantity.is_some_and(|q| q.low == a.low && q.high == a.high)
        });
        latest && same_number && !thing.more && (thing.new || thing.determiner == Determiner::Bare)
    }

    /// The entity that a thing is another mention of; none where it is another thing.
    pub(super) fn same_as(&mut self, mention: &Mention, thing: &Thing) -> Option<usize> {
        let just_named = self.focus.last().copied().filter(|l| {
            let e = &self.entities[*l];
            thing.determiner == Determiner::Definite
                && e.item.is_some()
                && e.item == thing.item
                && self.open(*l)
                && e.span.end + JUST_NAMED >= mention.first
        });
        let known = self.known(thing).or(just_named)?;
        if thing.more && !self.open_and_unmeasured(known, mention) {
            return None;
        }
        let verdict = self.verdict(known, mention, thing);
        let said_twice = verdict == Verdict::Same
            && self.counted(thing)
            && !thing.plural
            && thing.determiner == Determiner::Bare
            && thing.amount.is_none()
            && self.entities[known].name.end == mention.first
            && self.tokens.list[mention.first].before == Break::Comma; // light, light, and an outlet
        if verdict == Verdict::Unsure || said_twice {
            self.entities[known].flags.insert(Flag::MaybeRepeat);
        }
        (verdict != Verdict::Another).then_some(known)
    }

    /// "siding back here, so another three hundred square feet of siding": only the number was missing.
    fn open_and_unmeasured(&self, known: usize, mention: &Mention) -> bool {
        let e = &self.entities[known];
        let measured = e.item.is_some_and(|i| !self.grammar.items[usize::from(i)].counted());
        measured
            && self.open(known)
            && e.quantity.is_none()
            && self.sentence(e.span.first) == self.sentence(mention.first)
    }

    /// "that's a thirty six inch door", "a light on the corner, a flood light": said again to tell which.
    fn in_apposition(&self, mention: &Mention) -> bool {
        let before = mention.first.checked_sub(1);
        let named = before.is_some_and(|b| self.is(b, self.grammar.classes.be));
        let comma = self.tokens.list[mention.first].before == Break::Comma;
        named || comma
    }

    fn verdict(&self, known: usize, mention: &Mention, thing: &Thing) -> Verdict {
        let e = &self.entities[known];
        let settled = !e.works.is_empty() || e.cleared.is_some();
        let latest = self.focus.last() == Some(&known);
        let corrected = self.correcting.is_some()
            || self.takes_back(e.span.end, mention.first)
            || self.said_anew(mention);
        if (self.another_kind(e, thing) || settled && self.narrower(e, thing)) && !corrected {
            return Verdict::Another;
        }
        match thing.amount {
            Some(a)
                if e.cleared.is_some()
                    && !corrected
                    && e.quantity.is_some_and(|q| !q.implied && q.low == a.low && q.high == a.high) =>
            {
                Verdict::Same
            }
            Some(_) if e.cleared.is_some() && !corrected && thing.determiner != Determiner::Definite => {
                Verdict::Another
            }
            Some(a)
                if a.unit == Some(crate::model::Unit::Foot)
                    && !settled
                    && e.quantity.is_some_and(|q| self.was_height(known, q.low) && a.low > q.low) =>
            {
                Verdict::Same // vinyl fence, 6 foot. So 40 feet of vinyl fence
            }
            Some(amount) => self.verdict_by_amount(e, &amount, thing, latest, settled, corrected),
            None if thing.size.is_some_and(|s| {
                e.size.as_ref().is_some_and(|known| *known != super::sizes::size_of(self.grammar, e.item, &s))
            }) =>
            {
                Verdict::Another
            }
            None if thing.determiner == Determiner::Definite => Verdict::Same,
            None if thing.determiner == Determiner::Indefinite => {
                let open = !settled && (latest || thing.new);
                if open && thing.new {
                    return Verdict::Same;
                }
                if open && (e.quantity.is_none() || self.in_apposition(mention)) {
                    Verdict::Same
                } else {
                    Verdict::Another
                }
            }
            None if settled
                && thing.plural
                && !e.plural
                && self.counted(thing)
                && self.named_otherwise(e, thing) =>
            {
                Verdict::Another // porch light, detach and reset. Sconces, same
            }
            None if latest || !settled => Verdict::Same,
            None if self.counted(thing) && !thing.plural => Verdict::Another,
            None => Verdict::Same,
        }
    }

    /// "porch light, one; coach lights, two": two names of one item that end alike and begin differently.
    fn another_kind(&self, e: &Entity, thing: &Thing) -> bool {
        let several_words = |first: usize, end: usize| end > first + 1;
        let word = |t: usize| self.grammar.singular(self.tokens.list[t].word);
        thing.determiner != Determiner::Definite
            && self.counted(thing)
            && several_words(e.name.first, e.name.end)
            && several_words(thing.name.0, thing.name.1)
            && word(e.name.end - 1) == word(thing.name.1 - 1)
            && word(e.name.first) != word(thing.name.0)
            && !self.tokens.said(thing.name.0).eq_ignore_ascii_case(self.tokens.said(e.name.first))
    }

    /// "one light, off and on, and one flood light": named more exactly than what is settled, and with its own number.
    fn narrower(&self, e: &Entity, thing: &Thing) -> bool {
        let words = |first: usize, end: usize| end - first;
        thing.amount.is_some_and(|a| a.unit.is_none())
            && matches!(thing.determiner, Determiner::Bare | Determiner::Indefinite)
            && !thing.every
            && self.counted(thing)
            && words(e.name.first, e.name.end) < words(thing.name.0, thing.name.1)
    }

    fn named_otherwise(&self, e: &Entity, thing: &Thing) -> bool {
        let word = |t: usize| self.grammar.singular(self.tokens.list[t].word);
        word(e.name.end - 1) != word(thing.name.1 - 1)
    }

    pub(super) fn counted(&self, thing: &Thing) -> bool {
        thing.item.is_none_or(|i| self.grammar.items[usize::from(i)].counted())
    }

    /// "that was three lights, not two".
    fn said_anew(&self, mention: &Mention) -> bool {
        let word = |n: usize| mention.first.checked_sub(n).map_or("", |t| self.word(t));
        matches!(word(1), "was" | "were") && matches!(word(2), "that" | "it" | "those")
    }

    fn verdict_by_amount(
        &self,
        e: &Entity,
        amount: &Amount,
        thing: &Thing,
        latest: bool,
        settled: bool,
        corrected: bool,
    ) -> Verdict {
        let Some(known) = e.quantity else { return Verdict::Same };
        let same = known.low == amount.low && known.high == amount.high;
        let definite = thing.determiner == Determiner::Definite || thing.every;
        match (same, known.implied) {
            _ if corrected => Verdict::Same,
            (true, _) if latest || definite || !settled => Verdict::Same,
            _ if latest && !settled && amount.low >= known.low && amount.high <= known.high => Verdict::Same,
            (true, _) => Verdict::Unsure,
            (false, true) if !settled && !e.plural && latest => Verdict::Same,
            (false, _) if definite && amount.value() < known.low => Verdict::Same,
            _ => Verdict::Another,
        }
    }
}

/// Whether a mention is of a known thing.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Verdict {
    Same,
    /// Taken as the same, and flagged.
    Unsure,
    Another,
}
