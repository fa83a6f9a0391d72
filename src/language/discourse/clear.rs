//! What was looked at and needs nothing, what is to be left alone, and what isn't there.

use super::account::{Evidence, Field, Origin, Span};
use super::tracker::{Pending, Tracker};
use crate::language::mentions::Kind;
use crate::language::rules::{Form, Meaning, Reach};
use crate::language::tokens::Break;
use crate::model::Flag;

/// How far back a thing may be named that "is fine" speaks of, in tokens.
const REACH: usize = 26;

/// How far behind work "leave it" takes it back, in tokens.
const LAST_WORD: usize = 30;

/// How far behind a thing without its full name a verdict is still of it, in tokens.
const WEAK_REACH: usize = 4;

/// How near "is new" stands to "it's good" where it only describes, in tokens.
const DESCRIBED: usize = 3;

impl Tracker<'_> {
    /// "no damage on the door", "the door is fine", "leave the gutter".
    pub(super) fn clear(&mut self, at: usize, span: Span, form: Form) {
        if self.ignoring() {
            return;
        }
        if self.thing_inside(at, span) {
            self.pending = Some(Pending::Clear { span });
            return;
        }
        if Self::takes_object(form)
            && let Some(next) = self.object_mention(at, span)
        {
            match (&next.kind, self.meaning(next)) {
                (Kind::Thing(_), _) => {
                    self.pending = Some(Pending::Clear { span });
                    return;
                }
                (_, Some(Meaning::Refer(_))) if form == Form::Object => {}
                _ if form == Form::Object => return,
                _ => {}
            }
        } else if form == Form::Object {
            return;
        }
        self.clear_before(at, span);
    }

    fn clear_before(&mut self, at: usize, span: Span) {
        if self.word(span.first) == "no" && self.takes_work_back(span) {
            return;
        }
        if self.answers_no(span) {
            return;
        }
        let one_word = span.end == span.first + 1 && !matches!(self.word(span.first), "stays" | "staying");
        let answered = self.correcting == Some(span.first); // No, it's | fine
        if one_word && !answered && !self.stands_as_verdict(span) {
            return;
        }
        if self.clear_negated(span)
            || (self.pronoun_before(at, span.first).is_none() && self.said_of_a_part(span))
        {
            return;
        }
        let reach = self.pronoun_before(at, span.first).map(|p| p.0);
        let Some(last) = self.last() else { return };
        let near = self.entities[last].span.end + REACH >= span.first;
        if !near {
            return;
        }
        if let Some(named) = self.just_named_weakly(span) {
            return self.clear_one(named, span); // the wrap on this one's good
        }
        if matches!(reach, Some(Reach::Single | Reach::OneOf)) && self.several(last) {
            return; // one of them's fine
        }
        let targets = match reach {
            Some(Reach::All) => self.open_run(),
            Some(Reach::Both) => self.cleared_together(last),
            // "one screen, and the wrap's good": what was counted is spoken of no more.
            None if matches!(self.word(span.first), "'s" | "is") => {
                let counted = |e: &usize| self.entities[*e].quantity.is_some_and(|q| !q.implied);
                self.last_group().into_iter().filter(|e| *e == last || !counted(e)).collect()
            }
            _ => self.last_group(),
        };
        for target in &targets {
            self.clear_one(*target, span);
        }
        self.just_cleared = (targets, span.end);
    }

    /// A thing known by no full name, right before its verdict.
    fn just_named_weakly(&self, span: Span) -> Option<usize> {
        let last = self.focus.last().copied()?;
        let e = &self.entities[last];
        let near = e.weak && e.span.end + WEAK_REACH >= span.first;
        (near && self.sentence(e.span.first) == self.sentence(span.first)).then_some(last)
    }

    /// "Do we need a new vent? Nope.": what was only asked about is not done.
    fn answers_no(&mut self, span: Span) -> bool {
        let no = matches!(self.word(span.first), "no" | "nope");
        let Some(last) = self.last().filter(|_| no) else { return false };
        let asked = self.entities[last].works.iter().any(|w| w.announced)
            && self.entities[last].span.end + DESCRIBED >= span.first
            && self.sentence(span.first) == self.sentence(self.entities[last].span.end - 1) + 1;
        if asked {
            self.clear_one(last, span);
        }
        asked
    }

    /// "Patio door, okay.": a verdict in one word stands between marks, right behind the thing.
    fn stands_as_verdict(&self, span: Span) -> bool {
        let cut = self.tokens.list[span.first].before == Break::Comma;
        let least = if self.word(span.first) == "no" { Break::Sentence } else { Break::Comma };
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before >= least);
        cut && ends && self.last().is_some_and(|l| self.entities[l].span.end + 2 >= span.first)
    }

    /// "the last panel's the neighbor's", "the glass is good": said of a part, not of the thing.
    fn said_of_a_part(&self, span: Span) -> bool {
        let be = span.first > 1 && self.is(span.first - 1, self.grammar.classes.be);
        let noun = span.first.checked_sub(1 + usize::from(be));
        if noun.is_some_and(|n| n > 0 && self.word(n) == "top" && matches!(self.word(n - 1), "up" | "on")) {
            return false; // the gable vent up top's good
        }
        let named = |n: usize| self.last().is_some_and(|l| self.entities[l].name.end == n + 1);
        let c = &self.grammar.classes;
        let placed = |n: usize| n > 1 && self.is(n - 1, c.definite) && self.is(n - 2, c.preposition);
        if noun.is_some_and(|n| named(n) || placed(n)) {
            return false; // the swing set ain't hurt; siding up in this gable's okay
        }
        self.tokens.list[span.first].before == Break::None
            && noun.is_some_and(|n| self.is(n, self.grammar.classes.no_thing))
    }

    /// "so no shingles, they're okay".
    fn clear_negated(&mut self, span: Span) -> bool {
        let Some((item, place, said)) = self.negated.clone().filter(|n| {
            n.2.end + 6 >= span.first
                && n.2.end <= span.first
                && self.sentence(n.2.first) == self.sentence(span.first)
        }) else {
            return false;
        };
        self.negated = None;
        self.cleared.push(super::account::ClearedThing { item: Some(item), place, span: said.join(span) });
        true
    }

    /// "leaving both of those alone": the things just looked at.
    fn cleared_together(&self, last: usize) -> Vec<usize> {
        let before = last.checked_sub(1).filter(|b| self.entities[*b].works.is_empty());
        before.into_iter().chain([last]).collect()
    }

    /// Notes that a thing needs nothing; work already said of it stands, unless it is taken back.
    pub(super) fn clear_one(&mut self, target: usize, span: Span) {
        self.entities[target].works.retain(|w| !w.announced);
        let taken_back =
            self.entities[target].works.last().is_some_and(|w| self.takes_back(w.span.end, span.first));
        let only_hinted = self.correcting.is_some()
            && self.entities[target].works.iter().all(|w| {
                w.firmness < super::binding::FIRM && self.sentence(w.span.first) == self.sentence(span.first)
            });
        let only_described = self.entities[target].works.last().is_some_and(|w| {
            w.work == crate::model::Work::RemoveReplace
                && w.firmness < super::binding::FIRM
                && self.entities[target].works.len() == 1
                && w.span.end + DESCRIBED >= span.first
                && self.sentence(w.span.first) == self.sentence(span.first)
        });
        let entity = &mut self.entities[target];
        if only_described {
            entity.works.clear(); // the front door's new, it's good
        }
        let left_alone = matches!(self.word(span.first), "leave" | "leaving" | "skip")
            && self.entities[target].works.iter().all(|w| w.span.end + LAST_WORD >= span.first);
        let entity = &mut self.entities[target];
        if taken_back || (only_hinted || left_alone) && !entity.works.is_empty() {
            entity.works.clear();
            entity.flags.insert(Flag::ChangedMind);
        }
        if entity.works.is_empty() {
            entity.cleared = Some(entity.span.join(span));
            entity.weak = false;
            entity.evidence.push(Evidence { field: Field::NoWork, origin: Origin::LookedAt, span });
        }
        entity.span = if entity.works.is_empty() { entity.span.join(span) } else { entity.span };
        let entity_end = entity.name.end;
        self.run = self.run.max(target + 1);
        self.just_cleared = (vec![target], span.end.max(entity_end));
    }

    /// "gutters, none": the thing isn't there at all.
    pub(super) fn absent(&mut self) {
        let Some(last) = self.last().filter(|_| self.condition.is_none()) else { return };
        if self.open(last) && self.entities[last].quantity.is_none_or(|q| q.implied) {
            self.entities[last].scratched = true;
        }
    }

    /// "but only if": what was just bound is only a possibility.
    pub(super) fn only_then(&mut self) {
        if let Some(last) = self.last() {
            self.entities[last].works.iter_mut().for_each(|w| w.only_if = true);
        }
    }
}
