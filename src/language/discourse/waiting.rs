//! Cues that waited for the thing just named: work and judgements said before it, and lists they go on over.

use super::account::{Origin, Span};
use super::entity::WorkHeard;
use super::tracker::{Pending, Tracker};
use crate::language::mentions::{Mention, Thing};
use crate::language::rules::Meaning;
use crate::model::{Area, Work};

/// How far behind a thing work of its own may stand, in tokens.
const OWN_REACH: usize = 12;

impl Tracker<'_> {
    /// A cue that waited for this thing.
    pub(super) fn settle_pending(&mut self, entity: usize, mention: &Mention) {
        let span = Span { first: mention.first, end: mention.end };
        match self.pending.take() {
            Some(Pending::Work { work, rule, span: cue }) => {
                let said = WorkHeard {
                    work,
                    only_if: self.conditional(),
                    firmness: super::binding::FIRM,
                    announced: self.question.is_some(),
                    origin: Origin::Rule(rule),
                    span: cue.join(span),
                    of: None,
                };
                self.bind(&[entity], &said);
                if self.lists_on(mention.end) {
                    self.pending = Some(Pending::Work { work, rule, span: cue });
                }
            }
            Some(Pending::Clear { span: cue }) => {
                self.clear_one(entity, cue.join(span));
                if self.lists_on(mention.end) {
                    self.pending = Some(Pending::Clear { span: cue });
                }
            }
            Some(Pending::Scratch { span: cue }) => self.scratch_thing(entity, cue.join(span)),
            other => self.pending = other,
        }
    }

    /// "replace the fascia, the soffit and the gutter": the work goes on to what is listed.
    fn lists_on(&self, end: usize) -> bool {
        let next = self.mentions_in(end, end + OWN_REACH).first();
        next.is_some_and(|m| {
            matches!(m.kind, crate::language::mentions::Kind::Thing(_))
                && (end..m.first).all(|t| self.lists(t))
                && !(self.unmarked(end) && (end..m.first).any(|t| self.word(t) == "then"))
                && self.sentence(end - 1) == self.sentence(m.first)
                && !self.own_work_behind(m.end)
                && !self.own_clause(m.end)
        })
    }

    /// "power wash the columns and the rail here that's eighteen foot": the next thing opens a clause of its own.
    fn own_clause(&self, end: usize) -> bool {
        let near = (end..end + 6).take_while(|t| {
            self.tokens.list.get(*t).is_some_and(|t| t.before == crate::language::tokens::Break::None)
        });
        near.into_iter().any(|t| self.is(t, self.grammar.classes.be))
    }

    /// Whether the next thing has work of its own right behind it.
    fn own_work_behind(&self, end: usize) -> bool {
        let skipped = |m: &&Mention| !matches!(self.meaning(m), Some(Meaning::Refer(_) | Meaning::Rough));
        let next = self.mentions_in(end, end + OWN_REACH).iter().find(skipped);
        next.is_some_and(|m| {
            self.sentence(end - 1) == self.sentence(m.first)
                && matches!(
                    self.meaning(m),
                    Some(
                        Meaning::Work(..)
                            | Meaning::Off(_)
                            | Meaning::Clear(_)
                            | Meaning::Leave(_)
                            | Meaning::Unsure
                    )
                )
        })
    }

    /// "all of that comes off except for the outlet": what is said of it next stands alone.
    pub(super) fn make_exception(&mut self, entity: usize) {
        if self.except.take().is_some() {
            self.entities[entity].works.clear();
        }
    }

    /// Work said of the roof as a whole falls on the covering that is named behind it.
    pub(super) fn take_unbound(&mut self, entity: usize, mention: &Mention) {
        let measured = self.entities[entity].quantity.is_some_and(|q| !q.implied);
        if !measured
            || !self.entities[entity].works.is_empty()
            || self.area_of(&self.entities[entity]) != Area::Roof
        {
            return;
        }
        if let Some(said) = self.unbound.take() {
            let span = said.span.join(Span { first: mention.first, end: mention.end });
            self.bind(&[entity], &WorkHeard { span, ..said });
        }
    }

    /// "forty foot of new gutter" is work in itself.
    pub(super) fn new_is_work(&mut self, entity: usize, mention: &Mention, thing: &Thing) {
        if !thing.new || !self.entities[entity].works.is_empty() {
            return;
        }
        let span = Span { first: mention.first, end: mention.end };
        let said = WorkHeard {
            work: if self.lacking.is_some() { Work::Install } else { Work::RemoveReplace },
            only_if: self.conditional(),
            firmness: 1,
            announced: self.question.is_some(),
            origin: Origin::NamedAsNew,
            span,
            of: None,
        };
        self.bind(&[entity], &said);
    }
}
