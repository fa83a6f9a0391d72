//! Unknown things named again, and those that are only brought up.

use super::{Finder, MOST_WORDS};
use crate::language::mentions::{Kind, Mention};
use rustc_hash::FxHashSet;

impl Finder<'_> {
    /// Another mention of what was firmly named elsewhere: "Skirting, twenty foot more".
    pub(super) fn named_again(&self, firm: &FxHashSet<&str>, already: &[Mention]) -> Vec<Mention> {
        let mut found: Vec<Mention> = Vec::new();
        for at in 0..self.taken.len() {
            let free = found.last().is_none_or(|m| m.end <= at)
                && !already.iter().any(|m| m.first <= at && at < m.end);
            if free && self.content(at) {
                found.extend(self.longest_named(at, firm));
            }
        }
        found
    }

    /// The longest of the names that stands at a token.
    fn longest_named(&self, at: usize, firm: &FxHashSet<&str>) -> Option<Mention> {
        let words = (1..=MOST_WORDS).rev().filter(|n| (at..at + n).all(|t| self.content(t)));
        words.map(|n| self.mention(at, at + n)).find(|mention| {
            let text = self.name_text(mention);
            text.is_some_and(|text| firm.iter().any(|name| name.eq_ignore_ascii_case(text)))
        })
    }

    /// "there's a dinner bell": a thing only if work is said of it later.
    pub(super) fn brought_up(&self, firm: &[Mention], again: &[Mention]) -> Vec<Mention> {
        let p = self.phrases;
        let c = p.classes();
        let near = |at: usize| firm.iter().chain(again).any(|m| m.first <= at + 1 && at < m.end);
        let verb = |at: &usize| p.ground.is_any(at - 1, &[c.have, c.be]) && self.spoken_on(*at);
        (1..self.taken.len())
            .filter(verb)
            .filter(|at| !near(*at) && self.brings_up(*at))
            .filter_map(|at| self.weak(at))
            .collect()
    }

    /// Whether a word behind "is" or "got" opens what is new to the talk.
    fn brings_up(&self, at: usize) -> bool {
        let p = self.phrases;
        let c = p.classes();
        let here = at > 1 && p.is(at - 2, c.scene_word);
        let pointed_out = p.is(at, c.definite) && (p.is(at - 1, c.have) || here);
        p.ground.is_any(at, &[c.indefinite, c.more]) || pointed_out
    }

    fn weak(&self, at: usize) -> Option<Mention> {
        let from = self.skip_openers(at)?;
        let mut mention = self.mention(from, self.name(from)?);
        if let Kind::Thing(thing) = &mut mention.kind {
            thing.weak = true;
        }
        Some(mention)
    }
}
