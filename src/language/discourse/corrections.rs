//! Second thoughts: what follows takes the place of what was said, or what was said falls away.

use super::account::Span;
use super::tracker::{Pending, Tracker};
use crate::language::mentions::{Kind, Mention, Thing};
use crate::language::numbers::Amount;
use crate::language::rules::Meaning;
use crate::language::tokens::Break;
use crate::model::{Flag, Work};

/// How near a thing is said before the words that correct it, in tokens.
const CORRECTED_NEAR: usize = 3;

impl Tracker<'_> {
    /// "no wait", "I mean".
    pub(super) fn correct(&mut self, span: Span) {
        self.correcting = Some(span.end);
        let near = |l: &usize| {
            let said = self.entities[*l].span.end;
            said + CORRECTED_NEAR >= span.first && self.sentence(said - 1) == self.sentence(span.first)
        };
        // What follows may correct what no rule sees: the line is looked at in any case.
        if let Some(last) = self.last().filter(near)
            && (self.unmarked(span.first)
                || self.break_between(span.first.max(1) - 1, span.first) != Break::None)
        {
            self.entities[last].flags.insert(Flag::ChangedMind);
        }
    }

    /// "scratch that", "scratch the fascia", "forget the wash".
    pub(super) fn scratch(&mut self, at: usize, span: Span) {
        self.correcting = Some(span.end);
        if let Some(next) = self.after(at).filter(|m| m.first <= span.end + 1) {
            match (&next.kind, self.meaning(next)) {
                (Kind::Thing(_), _) if self.break_between(span.end - 1, next.first) == Break::None => {
                    self.pending = Some(Pending::Scratch { span });
                    return;
                }
                (_, Some(Meaning::Work(work, _)))
                    if self.is(next.first.max(1) - 1, self.grammar.classes.definite) =>
                {
                    self.passed_until = next.end;
                    return self.take_back_work(Some(work), span);
                }
                _ => {}
            }
        }
        if let Some(last) = self.last() {
            let entity = &mut self.entities[last];
            entity.scratched = true;
            entity.flags.insert(Flag::ChangedMind);
        }
    }

    /// "take the mailbox off the list": it was looked at, and needs nothing after all.
    pub(super) fn scratch_thing(&mut self, entity: usize, span: Span) {
        let meant = self.known_elsewhere(entity);
        if meant != entity {
            self.entities[entity].scratched = true;
        }
        let e = &mut self.entities[meant];
        e.works.clear();
        e.cleared = Some(e.span.join(span));
        e.flags.insert(Flag::ChangedMind);
    }

    /// The thing with work of its own that a bare mention on another side means.
    fn known_elsewhere(&self, entity: usize) -> usize {
        let e = &self.entities[entity];
        let meant = |o: &usize| self.entities[*o].item == e.item && !self.entities[*o].works.is_empty();
        if e.works.is_empty() { (0..entity).rev().find(meant).unwrap_or(entity) } else { entity }
    }

    /// "paint it, well, not paint": work that was said and is not meant.
    pub(super) fn take_back_work(&mut self, work: Option<Work>, span: Span) {
        let Some(last) = self.last() else { return };
        let e = &mut self.entities[last];
        let before = e.works.len();
        e.works.retain(|w| Some(w.work) != work || w.span.first >= span.first);
        if e.works.len() < before {
            e.flags.insert(Flag::ChangedMind);
        }
    }

    /// "don't replace it", "we're not painting that", "no need to be replacing".
    pub(super) fn negated_work(&self, first: usize) -> bool {
        let c = &self.grammar.classes;
        let from = first.saturating_sub(NEGATION_REACH);
        let spoken_on = (from + 1..=first).rev().take_while(|t| self.tokens.list[*t].before == Break::None);
        let mut before = spoken_on.map(|t| t - 1).skip_while(|t| self.is(*t, c.carries_no));
        before.next().is_some_and(|t| self.is(t, c.negator))
    }

    /// "Replace the, hmm. No.": work that was begun and not meant.
    pub(super) fn takes_work_back(&mut self, span: Span) -> bool {
        let alone = self.tokens.list[span.first].before == Break::Sentence
            && self.tokens.list.get(span.end).is_none_or(|t| t.before == Break::Sentence);
        let Some(last) = self.last().filter(|_| alone) else { return false };
        let entity = &mut self.entities[last];
        let fresh = entity.works.last().is_some_and(|w| w.span.end + 3 >= span.first);
        if fresh {
            entity.works.pop();
            entity.flags.insert(Flag::ChangedMind);
        }
        fresh
    }

    /// "a spigot, no wait, it's a gas meter": the thing just named falls away.
    pub(super) fn swap_corrected(&mut self, mention: &Mention, thing: &Thing) {
        let Some(correcting) = self.correcting.filter(|c| mention.first <= c + 4) else { return };
        let Some(last) = self.last().filter(|l| self.entities[*l].item != thing.item) else { return };
        if !self.open(last) {
            return self.swap_work(last, correcting, mention, thing);
        }
        if self.entities[last].span.end + 6 >= correcting
            && !thing.more
            && self.sentence(self.entities[last].span.first) == self.sentence(mention.first)
        {
            self.entities[last].scratched = true;
        }
    }

    /// "cover it, no, I mean comb the fins": the work just said falls away for the one that is said now.
    fn swap_work(&mut self, last: usize, correcting: usize, mention: &Mention, thing: &Thing) {
        let said = self.entities[last].works.last().map_or(usize::MAX, |w| w.span.end);
        let meant = matches!(self.pending, Some(Pending::Work { .. }));
        if !meant
            || thing.more
            || said > correcting
            || said + 6 < correcting
            || self.sentence(said - 1) != self.sentence(mention.first)
        {
            return;
        }
        let e = &mut self.entities[last];
        e.works.pop();
        e.flags.insert(Flag::ChangedMind);
        e.scratched = e.works.is_empty();
    }

    /// Whether the narrator corrected himself since work was last said of a thing.
    pub(super) fn corrected(&self, target: usize, now: usize) -> bool {
        let Some(last) = self.entities[target].works.last() else { return false };
        last.span.end <= now
            && (self.correcting.is_some_and(|c| c > last.span.first) || self.takes_back(last.span.end, now))
    }

    /// Whether the words between take back what was said before.
    pub(super) fn takes_back(&self, from: usize, to: usize) -> bool {
        to.saturating_sub(from) <= TAKING_BACK && (from..to).any(|t| self.takes_back_here(t))
    }

    /// "no, two" takes back; "no damage" doesn't.
    pub(super) fn takes_back_here(&self, token: usize) -> bool {
        match self.word(token) {
            "no" | "nope" => {
                let next = self.tokens.list.get(token + 1);
                next.is_some_and(|t| t.before >= Break::Comma)
                    || matches!(
                        self.word(token + 1),
                        "it" | "that" | "they" | "there" | "wait" | "hold" | "i" | "this" | "we"
                    )
                    || next.is_some_and(|t| self.grammar.numbers.get(t.word).is_some())
                    || next.is_some() && self.tokens.said(token + 1).starts_with(|c: char| c.is_ascii_digit())
            }
            word => TAKES_BACK.contains(&word),
        }
    }

    /// Whether the narrator corrects the number of a thing.
    pub(super) fn corrects_amount(&self, target: usize, amount: &Amount) -> bool {
        let e = &self.entities[target];
        self.correcting.is_some() || self.takes_back(e.span.end.min(amount.first), amount.first)
    }

    pub(super) fn correct_amount(&mut self, target: usize, amount: &Amount, rough: bool) {
        self.correcting = None;
        let unit = amount.unit.or(self.entities[target].quantity.and_then(|q| q.unit));
        let before = self.entities[target].quantity.take();
        self.set_amount(target, &Amount { unit, ..*amount }, rough);
        let e = &mut self.entities[target];
        e.replaced = before.filter(|q| !q.implied);
        e.scratched = false;
        e.flags.insert(Flag::ChangedMind);
    }
}

/// How far before work a negation may stand, in tokens.
const NEGATION_REACH: usize = 5;

/// Words that take back what was just said, between two values of the same field.
const TAKES_BACK: &[&str] = &["wait", "sorry", "actually", "scratch", "correction", "mean"];

/// How far apart two values of a field may stand for the second to take the first's place, in tokens.
const TAKING_BACK: usize = 18;
