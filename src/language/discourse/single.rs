//! One of several: "two outlets, one of them's cracked, so just the one gets replaced".

use super::account::{Field, Quantity, Span};
use super::entity::{Entity, WorkHeard};
use super::tracker::Tracker;
use crate::language::mentions::{Kind, Thing};
use crate::language::numbers::{Amount, Exact};
use crate::language::rules::{Form, Meaning, Reach};
use crate::language::tokens::Break;
use crate::model::Unit;

/// How far behind "one of them" a pronoun still speaks of that one, in tokens.
const LASTS: usize = 14;

/// How far behind a name what is said of it tells that there is one, in tokens.
const TOLD_REACH: usize = 12;

/// One of several things that the narrator singled out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Single {
    entity: usize,
    /// The token up to which it was spoken of.
    until: usize,
}

impl Tracker<'_> {
    /// "the dryer vents broke, that needs to be swapped out", "this awnings got a hole": a recogniser writes "vent's" as
    /// a plural, and what is said of it tells that there is one.
    pub(super) fn told_as_one(&self, thing: &Thing) -> bool {
        let (first, end) = thing.name;
        let before = first.checked_sub(1).filter(|_| self.tokens.list[first].before == Break::None);
        if thing.amount.is_some() || thing.every {
            return false;
        }
        if before.is_some_and(|t| matches!(self.word(t), "this" | "that" | "a" | "an")) {
            return true;
        }
        let runs_on = self.tokens.list.get(end).is_some_and(|t| t.before == Break::None);
        let of_many =
            matches!(self.word(end), "and" | "or" | "are" | "were" | "have" | "need" | "get" | "is");
        if !runs_on || of_many || self.work_at(end) {
            return false;
        }
        for token in end..(end + TOLD_REACH).min(self.tokens.list.len()) {
            let another = self
                .mentions_in(token, token + 1)
                .iter()
                .any(|m| m.first == token && matches!(m.kind, Kind::Thing(_)));
            match self.word(token) {
                "them" | "those" | "these" | "they" | "both" | "all" | "each" => return false,
                "it" => return true,
                "that" if matches!(self.word(token + 1), "'s" | "is" | "was" | "needs" | "gets") => {
                    return true;
                }
                _ if another => return false,
                _ => {}
            }
        }
        false
    }

    /// Whether work is said at a token.
    fn work_at(&self, token: usize) -> bool {
        let work = |m: &crate::language::mentions::Mention| {
            matches!(self.meaning(m), Some(Meaning::Work(..) | Meaning::Same(_) | Meaning::Off(_)))
        };
        self.mentions_in(token, token + 1).iter().any(|m| m.first == token && work(m))
    }

    /// Notes what a pronoun makes of the one that is spoken of.
    pub(super) fn note_single(&mut self, reach: Reach, span: Span) {
        match reach {
            Reach::OneOf if self.is_one_more(span) => self.another_one(span),
            Reach::Single => self.single_out(span),
            Reach::OneOf if self.is_described(span) => self.single_out(span),
            Reach::One => {
                if let Some(single) = self.single.as_mut().filter(|s| s.until + LASTS >= span.first) {
                    single.until = span.end;
                }
            }
            Reach::OneOf => {}
            Reach::Many | Reach::Both | Reach::All | Reach::Rest => self.back_to_all(reach),
        }
    }

    /// The same, of a pronoun that is the object of work: there it is that one that the work falls on.
    pub(super) fn note_object(&mut self, reach: Reach, span: Span) {
        match reach {
            Reach::OneOf if !self.is_one_more(span) => self.single_out(span),
            reach => self.note_single(reach, span),
        }
    }

    /// Whether a pronoun was noted already, with the work it is the object of.
    pub(super) fn was_object(&self, span: Span) -> bool {
        let work = self.last().and_then(|l| self.entities[l].works.last());
        work.is_some_and(|w| w.span.first < span.first && span.end <= w.span.end)
    }

    /// "corner post, replace. And the other one, same": one more like it.
    fn is_one_more(&self, span: Span) -> bool {
        let settled = |l: usize| !self.several(l) && !self.entities[l].works.is_empty();
        self.word(span.first + 1) == "other" && self.last().is_some_and(settled)
    }

    /// Speaks of one where the last thing named stands for several.
    pub(super) fn single_out(&mut self, span: Span) {
        let last = self.last().filter(|l| self.several(*l) && is_counted_singly(&self.entities[*l]));
        self.single = last.map(|entity| Single { entity, until: span.end });
    }

    /// "three covers, two are cracked": so many of them.
    pub(super) fn tells_of_some(&self, known: Quantity, amount: &Amount) -> bool {
        let span = Span { first: amount.first, end: amount.end };
        let damaged = self.is(span.end, self.grammar.classes.adjective) && self.is_plain(span.end);
        amount.unit.is_none()
            && matches!(known.unit, None | Some(Unit::Each))
            && amount.low == amount.high
            && amount.value() < known.low
            && (self.is_described(span) || damaged || self.is_worked_on(span))
    }

    /// "two get detached and reset, one gets replaced".
    fn is_worked_on(&self, span: Span) -> bool {
        self.mentions_in(span.end, span.end + 2).iter().any(|m| {
            matches!(self.meaning(m), Some(Meaning::Work(_, form)) if form != Form::Object)
                && self.break_between(span.end - 1, m.first) == Break::None
        })
    }

    /// "forty foot. The first twenty foot is dented": so much of it.
    pub(super) fn is_an_end_of(&self, target: usize, known: Quantity, amount: &Amount) -> bool {
        let before = amount.first.checked_sub(1).map_or("", |t| self.word(t));
        matches!(before, "first" | "last" | "bottom" | "top" | "end" | "middle")
            && amount.unit.is_some()
            && (known.unit.is_none() || known.unit == amount.unit)
            && amount.value() < known.low
            && self.entities[target].works.is_empty()
    }

    /// "two skylights. One's cracked": no number of them.
    pub(super) fn one_is_told_of(&mut self, amount: &Amount) -> bool {
        let span = Span { first: amount.first, end: amount.end };
        let one = amount.unit.is_none() && amount.low == Exact::from_integer(1) && amount.high == amount.low;
        let counted = self.last().is_some_and(|l| {
            let e = &self.entities[l];
            e.evidence.iter().any(|v| v.field == Field::Quantity && v.span.first <= e.name.first)
        }); // else "two are torn and one's gone" counts them
        if one && self.tells_a_size(amount.end) && self.piece_of_its_own(amount) {
            return true;
        }
        let told = one && counted && amount.end == amount.first + 1 && self.is_described(span);
        if told {
            self.single_out(span);
        }
        told && self.single.is_some()
    }

    /// "one's a three inch": the size of one.
    fn tells_a_size(&self, end: usize) -> bool {
        let c = &self.grammar.classes;
        let article = usize::from(self.is(end + 1, c.indefinite));
        self.is(end, c.be)
            && self.mentions_in(end + 1 + article, end + 2 + article).iter().any(|m| match &m.kind {
                Kind::Amount(size) => size.unit == Some(Unit::Inch),
                _ => false,
            })
    }

    /// "two pipe boots, one's a three inch and one's a two inch": each stands for itself.
    fn piece_of_its_own(&mut self, amount: &Amount) -> bool {
        let Some(last) = self.last().filter(|l| is_counted_singly(&self.entities[*l])) else { return false };
        let alone = self.entities[last].size.is_none() && !self.several(last);
        if alone || !self.open(last) {
            return false;
        }
        self.more_of(last, amount);
        let new = self.entities.len() - 1;
        self.entities[new].size = None;
        true
    }

    /// "one of them's cracked", not "one of them's by the door".
    fn is_described(&self, span: Span) -> bool {
        let told = span.end + usize::from(!self.is(span.end - 1, self.grammar.classes.be));
        self.is(told - 1, self.grammar.classes.be) && !self.only_placed(span)
    }

    /// "one of them's by the door": nothing but where it is.
    pub(super) fn only_placed(&self, span: Span) -> bool {
        let c = &self.grammar.classes;
        let told = span.end + usize::from(self.is(span.end, c.be));
        self.is(told, c.preposition) || self.is(told, c.place_word)
    }

    /// "detach and reset both": all of them are spoken of again.
    fn back_to_all(&mut self, reach: Reach) {
        self.single = None;
        if let Some(last) = self.last() {
            let subset = &mut self.entities[last].subset;
            // Of "two of them are broken, replace those" it is the two.
            *subset = subset.filter(|n| reach == Reach::Many && *n > Exact::from_integer(1));
        }
    }

    /// How many of a thing work falls on, where one was singled out.
    pub(super) fn singled_out(&mut self, target: usize, said: &WorkHeard) -> Option<Exact> {
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
