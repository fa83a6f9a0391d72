//! Names that belong together: "two house number plaques", "the wrap on that window".

use super::noun_phrase::NounPhrases;
use super::thing::{Determiner, Thing};
use super::{Kind, Mention};
use crate::language::tokens::Break;

impl NounPhrases<'_> {
    /// "two house number plaques": the name before only tells what kind it is; without marks they may be listed.
    pub(super) fn join_compounds(&self, found: &mut Vec<Mention>) {
        for at in (1..found.len()).rev() {
            let listed = at > 1 && found[at - 2].end == found[at - 1].first && found[at - 2].is_thing();
            if listed || !self.is_compound(&found[at - 1], &found[at]) {
                continue;
            }
            let before = found.remove(at - 1);
            let last = &mut found[at - 1];
            if let (Kind::Thing(kind), Kind::Thing(head)) = (before.kind, &mut last.kind) {
                open_with(head, &kind);
                last.first = before.first;
            }
        }
    }

    /// Whether a name runs on into another that nothing else opens, and that ends there.
    fn is_compound(&self, before: &Mention, last: &Mention) -> bool {
        let (Kind::Thing(kind), Kind::Thing(head)) = (&before.kind, &last.kind) else { return false };
        let list = &self.ground.tokens().list;
        let runs_on =
            before.end == last.first && self.ground.spoken_on(last.first) && list[last.first].doubt.is_none();
        let bare = head.determiner == Determiner::Bare && head.amount.is_none() && !head.new;
        let ends = list.get(last.end).is_none_or(|t| t.before != Break::None);
        runs_on && bare && !kind.plural && ends
    }

    /// "the wrap on that window" names the window's wrap.
    pub(super) fn join_parts(&self, found: &mut [Mention]) {
        for mention in found {
            let first = mention.first;
            let Kind::Thing(thing) = &mut mention.kind else { continue };
            if let Some(part) = self.part_named_before(thing, first) {
                **thing = self.as_part(thing, first - 2, part, &mut mention.first);
            }
        }
    }

    /// The part of a thing that is named right before its preposition.
    fn part_named_before(&self, thing: &Thing, first: usize) -> Option<u16> {
        let of = thing.item.filter(|_| thing.behind.is_some() && first >= 2)?;
        let wraps_up = self.ground.cover().at(first - 2).is_some_and(|m| self.says_nothing(m)); // wrap up this window
        if wraps_up || !self.ground.spoken_on(first - 1) {
            return None;
        }
        let word = self.ground.word(first - 2);
        [word, self.grammar().singular(word)].into_iter().find_map(|w| self.grammar().part_of(w, of))
    }

    /// The part as a thing of its own, and where its phrase begins.
    fn as_part(&self, whole: &Thing, head: usize, part: u16, first: &mut usize) -> Thing {
        let name = Thing {
            item: Some(part),
            name: (head, head + 1),
            head: self.ground.word(head),
            ..Thing::default()
        };
        let part = self.phrase(name);
        *first = part.first;
        let Kind::Thing(named) = part.kind else { return whole.clone() };
        let amount = named.amount.or(whole.amount);
        Thing { amount, name: whole.name, plural: whole.plural, ..*named }
    }
}

/// What opens the name that only tells the kind opens the whole.
fn open_with(head: &mut Thing, kind: &Thing) {
    head.determiner = kind.determiner;
    head.amount = kind.amount;
    head.some = kind.some;
    head.more = kind.more;
    head.new = kind.new;
    head.every = kind.every;
    head.side = head.side.or(kind.side);
    head.size = head.size.or(kind.size);
    head.behind = kind.behind;
}
