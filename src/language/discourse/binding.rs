//! Work noted on a thing: beside what was said of it already, instead of it, or not at all.

use super::account::{Evidence, Field, Span};
use super::entity::WorkHeard;
use super::tracker::Tracker;
use crate::language::numbers::Exact;
use crate::model::{Flag, Work};

/// Two works of one thing said this near, in tokens, are said in one breath: "comes off, and new goes on".
const SAME_BREATH: usize = 6;

/// Work said in plain words.
pub(super) const FIRM: u8 = 2;

impl Tracker<'_> {
    /// "One tree limb, haul it off": a noun that wasn't understood opens the sentence.
    fn names_something_else(&self, work: Span) -> bool {
        let c = &self.grammar.classes;
        let sentence = self.sentence(work.first);
        let from = (0..work.first).rev().take_while(|t| self.sentence(*t) == sentence).last();
        let counted = |t: usize| {
            self.is(t, c.indefinite) || self.grammar.numbers.get(self.tokens.list[t].word).is_some()
        };
        from.is_some_and(|f| f < work.first && counted(f) && self.is_plain(f + 1))
    }

    /// Notes work on each thing.
    pub(super) fn bind(&mut self, targets: &[usize], said: &WorkHeard) {
        for target in targets {
            self.bind_one(*target, said.clone());
        }
        if targets.is_empty() {
            return;
        }
        self.settle(said);
        self.last_work = Some((said.work, said.span.first));
        self.run = self.entities.len();
    }

    /// A condition under which something was bound is used up.
    fn settle(&mut self, said: &WorkHeard) {
        if let Some(condition) = &mut self.condition {
            condition.used = true;
        }
        if self.might.is_some_and(|m| m <= said.span.first) {
            self.might = None;
        }
    }

    fn bind_one(&mut self, target: usize, mut said: WorkHeard) {
        let corrected = self.corrected(target, said.span.first);
        let single = self.singled_out(target, &said);
        let by_it = (said.span.first..said.span.end).any(|t| self.word(t) == "it");
        let of_another = by_it
            && self.several(target)
            && single.is_none()
            && self.entities[target].works.iter().any(|w| w.work != said.work)
            && self.sentence(self.entities[target].name.first) != self.sentence(said.span.first)
            && self.names_something_else(said.span);
        let entity = &mut self.entities[target];
        if of_another {
            entity.flags.insert(Flag::ChangedMind); // "it" may be something that was not understood
        }
        said.of = single.or(entity.subset);
        let whole = entity.quantity.map(|q| q.low);
        let evidence = Evidence { field: Field::Work, origin: said.origin, span: said.span };
        if place_work(&mut entity.works, said, corrected, &mut entity.flags, whole) {
            entity.weak = false;
            entity.scratched = false;
            entity.cleared = None;
            entity.span = entity.span.join(evidence.span);
            entity.evidence.push(evidence);
        }
    }
}

/// Adds work to those said already: again, instead, or as well. False where what was said already holds against it.
fn place_work(
    works: &mut Vec<WorkHeard>,
    said: WorkHeard,
    corrected: bool,
    flags: &mut std::collections::BTreeSet<Flag>,
    whole: Option<Exact>,
) -> bool {
    works.retain(|w| !w.announced || said.announced || w.work == said.work);
    // "two get reset, one gets replaced": each work of its own number.
    let parts: Option<Exact> = works.iter().chain([&said]).map(|w| w.of).sum();
    if !works.is_empty() && parts.zip(whole).is_some_and(|(parts, whole)| parts <= whole) {
        works.push(said);
        return true;
    }
    if let Some(known) = works.iter_mut().find(|w| w.work == said.work) {
        known.announced &= said.announced;
        known.only_if &= said.only_if;
        known.firmness = known.firmness.max(said.firmness);
        return true;
    }
    if corrected {
        works.pop();
        flags.insert(Flag::ChangedMind);
        works.push(said);
        return true;
    }
    if works.iter().any(|w| w.firmness > said.firmness) && said.firmness < FIRM {
        return false;
    }
    let far = |w: &WorkHeard| w.span.end + SAME_BREATH < said.span.first;
    if works.iter().any(|w| w.firmness < FIRM && far(w) && w.work != said.work) {
        flags.insert(Flag::ChangedMind); // it may be said of something else
    }
    works.retain(|w| w.firmness == FIRM || w.firmness > 0 && !excludes(w.work, said.work));
    if let Some(known) = works.iter_mut().find(|w| excludes(w.work, said.work)) {
        if !said.only_if {
            flags.insert(Flag::ChangedMind);
            *known = said;
            return true;
        }
        return false;
    }
    works.push(said);
    true
}

/// Work that one thing can't have twice over: it is either put back or renewed.
fn excludes(a: Work, b: Work) -> bool {
    let whole = |w| matches!(w, Work::DetachReset | Work::RemoveReplace | Work::Remove | Work::Install);
    whole(a) && whole(b)
}
