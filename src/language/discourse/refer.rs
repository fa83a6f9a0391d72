//! What pronouns speak of.

use super::tracker::Tracker;
use crate::language::mentions::{Kind, Mention};
use crate::language::numbers::Exact;
use crate::language::rules::{Meaning, Reach};

/// How many things are in mind at once, at the most.
const LATELY: usize = 64;

impl Tracker<'_> {
    /// The last thing in mind; a thing outside the catalogue only where nothing else is.
    pub(super) fn last(&self) -> Option<usize> {
        let last = self.focus.last().copied()?;
        if !self.entities[last].weak {
            return Some(last);
        }
        let firm = |e: &&usize| {
            !self.entities[**e].weak
                && self.entities[**e].works.is_empty()
                && self.entities[**e].cleared.is_none()
        };
        let named = self.entities[last].name.first;
        let same = |e: &&usize| {
            self.sentence(self.entities[**e].span.first) + 1 >= self.sentence(named)
                && self.entities[**e].span.end + 12 >= named
        };
        Some(self.focus.iter().rev().filter(same).find(firm).copied().unwrap_or(last))
    }

    /// The last thing with those listed in one breath with it.
    pub(super) fn last_group(&self) -> Vec<usize> {
        let Some(last) = self.last() else { return Vec::new() };
        let group = self.entities[last].group;
        let open = |n: &usize| *n == last || (self.entities[*n].group == group && self.open(*n));
        self.lately(last).filter(open).collect()
    }

    /// The entities of late, and from a known one on.
    pub(super) fn lately(&self, known: usize) -> std::ops::Range<usize> {
        let len = self.entities.len();
        known.min(len.saturating_sub(LATELY))..len
    }

    /// Whether a thing waits for work.
    pub(super) fn open(&self, entity: usize) -> bool {
        let e = &self.entities[entity];
        e.works.is_empty() && e.cleared.is_none() && !e.scratched && !e.weak
    }

    /// Everything listed since something was last settled that waits for work.
    pub(super) fn open_run(&self) -> Vec<usize> {
        let run: Vec<usize> = (self.run..self.entities.len()).filter(|e| self.open(*e)).collect();
        if run.is_empty() {
            return self.last_group().into_iter().filter(|e| self.entities[*e].cleared.is_none()).collect();
        }
        run
    }

    /// The things a pronoun speaks of.
    pub(super) fn referred(&self, reach: Reach) -> Vec<usize> {
        match reach {
            Reach::Single | Reach::OneOf if self.last().is_some_and(|l| self.several(l)) => {
                self.last().into_iter().collect()
            }
            Reach::One | Reach::Single | Reach::OneOf => self.last_group(),
            Reach::All => self.open_run(),
            Reach::Many => self.many(),
            Reach::Both => self.both(),
            Reach::Rest => self.last().into_iter().collect(),
        }
    }

    /// "those": the last thing if there are several of it, else what was listed.
    pub(super) fn many(&self) -> Vec<usize> {
        let Some(last) = self.last() else { return Vec::new() };
        let group = self.last_group();
        if group.len() == 1 && self.several(last) {
            return group;
        }
        let sentence = self.sentence(self.entities[last].name.first);
        let listed: Vec<usize> = self
            .open_run()
            .into_iter()
            .filter(|e| self.sentence(self.entities[*e].name.first) == sentence)
            .collect();
        if listed.is_empty() { group } else { listed }
    }

    pub(super) fn both(&self) -> Vec<usize> {
        let two = Exact::from_integer(2);
        let Some(last) = self.last() else { return Vec::new() };
        let open = self.open_run();
        let alone = open.len() < 2 || (self.last_group().len() < 2 && self.entities[last].plural);
        if self.entities[last].quantity.is_some_and(|q| q.low == two) || alone {
            return vec![last];
        }
        if open.len() > 2 { open[open.len() - 2..].to_vec() } else { open }
    }

    /// "comb the fins on both": as many as there are.
    pub(super) fn count_pronoun(&mut self, reach: Reach, span: crate::language::discourse::Span) {
        let bound = self
            .focus
            .last()
            .is_some_and(|l| self.entities[*l].works.last().is_some_and(|w| w.span.end >= span.end));
        if reach == Reach::Rest && !bound {
            self.rest = Some(span.end);
        }
        self.count_all(span);
        let Some(last) = self.focus.last().copied().filter(|_| reach == Reach::Both) else { return };
        let before = span.first.checked_sub(1).map_or("", |t| self.word(t));
        let work = self.entities[last].works.last().map(|w| w.span);
        let shared = work.is_some()
            && self.entities[..last].iter().rev().take(4).any(|e| e.works.last().map(|w| w.span) == work);
        let said = &mut self.entities[last];
        if before == "on"
            && !shared
            && said.span.end + 1 == span.first
            && let Some(q) = said.quantity.as_mut().filter(|q| q.implied)
        {
            q.low = Exact::from_integer(2);
            q.high = q.low;
        }
    }

    /// "window wrap on all three": as many as are told.
    fn count_all(&mut self, span: crate::language::discourse::Span) {
        let Some(last) = self.focus.last().copied() else { return };
        let on = span.first > 0 && self.word(span.first - 1) == "on";
        let number = (span.first + 1..span.end).find_map(|t| {
            match self.grammar.numbers.get(self.tokens.list[t].word) {
                Some(crate::language::rules::NumberWord::Small(n)) if n > 1 => Some(n),
                _ => self.word(t).parse().ok(),
            }
        });
        let said = &mut self.entities[last];
        if let Some(number) = number.filter(|_| on && said.name.end + 1 == span.first)
            && let Some(q) = said.quantity.as_mut().filter(|q| q.implied)
        {
            q.low = Exact::from_integer(number);
            q.high = q.low;
        }
    }

    /// Whether a thing stands for more than one.
    pub(super) fn several(&self, entity: usize) -> bool {
        let e = &self.entities[entity];
        e.plural || e.quantity.is_some_and(|q| q.high > Exact::from_integer(1))
    }

    /// The pronoun nearest before a token with no thing and no other cue but a rough word between.
    pub(super) fn pronoun_before(&self, at: usize, first: usize) -> Option<(Reach, &Mention)> {
        let mut found = None;
        for mention in self.mentions[..at].iter().rev() {
            match (&mention.kind, self.meaning(mention)) {
                (_, Some(Meaning::Refer(_))) if self.only_places(mention, first) => {}
                (_, Some(Meaning::Refer(reach))) if self.near(mention, first) => {
                    // "those are all …": the first of two pronouns that run on tells how many.
                    let wider = found.is_none() || reach == Reach::Many || reach == Reach::Both;
                    if wider {
                        found = Some((reach, mention));
                    }
                }
                (Kind::Cue(_), Some(Meaning::Rough | Meaning::Might | Meaning::If | Meaning::Same(_))) => {}
                (Kind::Amount(a), _) if a.of_them => {}
                _ => break,
            }
        }
        found
    }

    /// "the door behind it | 's fine": the pronoun only tells where.
    fn only_places(&self, pronoun: &Mention, first: usize) -> bool {
        let before = pronoun.first.checked_sub(1).map_or("", |t| self.word(t));
        pronoun.end == first
            && pronoun.end == pronoun.first + 1
            && self.tokens.list[pronoun.first].before == crate::language::tokens::Break::None
            && matches!(
                before,
                "behind" | "under" | "above" | "over" | "beside" | "below" | "around" | "underneath"
            )
    }

    pub(super) fn near(&self, mention: &Mention, first: usize) -> bool {
        self.sentence(mention.first) == self.sentence(first) && mention.end + 9 >= first
    }
}
