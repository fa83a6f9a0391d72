//! One of several: "two outlets, one of them's cracked, so just the one gets replaced".

use super::account::{Entity, Span, WorkSaid};
use super::listener::Listener;
use crate::draft::Unit;
use crate::grammar::Reach;
use crate::numbers::Exact;

/// How far behind "one of them" a pronoun still speaks of that one, in tokens.
const LASTS: usize = 14;

/// One of several things that the narrator singled out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Single {
    entity: usize,
    /// The token up to which it was spoken of.
    until: usize,
}

impl Listener<'_> {
    /// Notes what a pronoun makes of the one that is spoken of.
    pub(super) fn note_single(&mut self, reach: Reach, span: Span) {
        match reach {
            Reach::Single => self.single_out(span),
            Reach::OneOf if self.is_described(span) => self.single_out(span),
            Reach::One => {
                if let Some(single) = self.single.as_mut().filter(|s| s.until + LASTS >= span.first) {
                    single.until = span.end;
                }
            }
            Reach::OneOf => {}
            Reach::Many | Reach::Both | Reach::All | Reach::Rest => self.single = None,
        }
    }

    /// Speaks of one where the last thing named stands for several.
    pub(super) fn single_out(&mut self, span: Span) {
        let last = self.last().filter(|l| self.several(*l) && is_counted_singly(&self.entities[*l]));
        self.single = last.map(|entity| Single { entity, until: span.end });
    }

    /// "one of them's cracked", not "one of them's by the door".
    fn is_described(&self, span: Span) -> bool {
        let c = &self.grammar.classes;
        self.is(span.end, c.be)
            && !self.is(span.end + 1, c.preposition)
            && !self.is(span.end + 1, c.place_word)
    }

    /// How many of a thing work falls on, where one was singled out.
    pub(super) fn singled_out(&mut self, target: usize, said: &WorkSaid) -> Option<Exact> {
        let single = self.single.take()?;
        let same = self.sentence(single.until.saturating_sub(1)) == self.sentence(said.span.first);
        let pronoun = matches!(self.word(said.span.end - 1), "it" | "that" | "one");
        (single.entity == target && (same || pronoun)).then(|| Exact::from_integer(1))
    }
}

/// Counted one by one, not in pairs or by the foot.
fn is_counted_singly(entity: &Entity) -> bool {
    entity.quantity.is_none_or(|q| matches!(q.unit, None | Some(Unit::Each)))
}
