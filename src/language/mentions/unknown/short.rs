//! The last word of a longer name, or a part of a thing, where the words around tell that one is meant: "that vent".

use super::Finder;
use crate::language::mentions::{Kind, Mention};

impl Finder<'_> {
    /// Names that are only the last word of one of the catalogue.
    pub(super) fn short_names(&self) -> Vec<Mention> {
        (1..self.taken.len()).filter(|at| self.is_short_name(*at)).map(|at| self.short_name(at)).collect()
    }

    fn short_name(&self, at: usize) -> Mention {
        let mut mention = self.mention(at, at + 1);
        if let Kind::Thing(thing) = &mut mention.kind {
            thing.short = true;
        }
        mention
    }

    fn is_short_name(&self, at: usize) -> bool {
        self.phrases.grammar().is_head(self.phrases.ground.word(at))
            && !self.taken[at]
            && self.free(at)
            && (self.pointed_at(at) || self.counted_or_new(at) || self.borne(at) || self.part_alone(at))
    }

    /// "that vent", "the old wraps": behind a word that points.
    fn pointed_at(&self, at: usize) -> bool {
        let c = self.phrases.classes();
        (1..=2).any(|n| {
            at >= n
                && (at + 1 - n..=at).all(|t| self.spoken_on(t))
                && self.phrases.ground.is_any(at - n, &[c.definite, c.every])
                && (n == 1 || self.content(at - 1))
        })
    }

    /// "three wraps", "a new vent".
    fn counted_or_new(&self, at: usize) -> bool {
        self.spoken_on(at)
            && (self.phrases.count_before(at) || self.phrases.is(at - 1, self.phrases.classes().new))
    }

    /// "wrap on them", "wrap on all six".
    fn borne(&self, at: usize) -> bool {
        let c = self.phrases.classes();
        self.spoken_on(at + 1) && self.phrases.is(at + 1, c.bearer_joint) && self.phrases.is(at + 2, c.bearer)
    }

    /// "bay window, wrap is dented, replace wrap": a part by itself.
    fn part_alone(&self, at: usize) -> bool {
        let p = self.phrases;
        let apart = !self.spoken_on(at) && p.is(at + 1, p.classes().be);
        p.grammar().is_part(p.ground.word(at)) && (apart || self.spoken_on(at) && self.work_ends(at))
    }
}
