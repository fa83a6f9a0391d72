//! Photos still to take, tapes still to run, things to look into.

use super::account::{FollowUpSaid, Place, Span};
use super::tracker::{Pending, Tracker};
use crate::language::mentions::{Kind, Mention};
use crate::language::rules::{Form, Meaning};
use crate::language::tokens::Break;
use crate::model::{Area, FollowUpKind, Shape};

/// How far behind the cue its thing may stand, in tokens.
const REACH: usize = 9;

/// How far behind its name a word is still said of a thing, in tokens.
const SAID_NEAR: usize = 8;

/// How many things back a word may still speak of one.
const MOST_THINGS_BACK: usize = 40;

impl Tracker<'_> {
    /// A cue for something still to do.
    pub(super) fn follow_up(&mut self, at: usize, kind: FollowUpKind, span: Span, form: Form) {
        if self.ignoring() {
            return;
        }
        let noun = self.plain_object(at, span);
        if let Some(noun) = noun.filter(|n| {
            matches!(self.word(n + 1), "on" | "of") && matches!(self.word(n + 2), "it" | "that" | "them")
        }) {
            return self.todo_of_last(kind, Span { first: span.first, end: noun + 3 }); // the label on it
        }
        if let Some(known) = noun.and_then(|noun| self.named_with(noun)) {
            let place = Some(self.entities[known].place.clone());
            let end = (span.end + 2).min(self.tokens.list.len());
            return self.follow_up_on(
                kind,
                self.entities[known].item,
                place,
                Span { first: span.first, end },
            );
        }
        if let Some((item, place, end)) = self.structure_object(at, span) {
            return self.follow_up_on(kind, item, Some(place), Span { first: span.first, end });
        }
        if let Some(end) = self.structural_object(at, span) {
            let item = self.covering_of(self.word(end - 1));
            return self.follow_up_on(kind, item, None, Span { first: span.first, end });
        }
        match self.todo_object(at, span).filter(|_| form != Form::Predicate) {
            Some(Object::Thing) => {
                self.drop_earlier();
                self.pending = Some(Pending::FollowUp { kind, span });
            }
            Some(Object::Pronoun(end)) if self.same_todo(kind, span) => self.stretch_todo(end),
            Some(Object::Pronoun(end)) => self.todo_of_last(kind, Span { first: span.first, end }),
            Some(Object::Face(end)) => self.follow_up_on(kind, None, None, Span { first: span.first, end }),
            None if form == Form::Object => self.follow_up_on(kind, None, None, span),
            None => self.todo_of_last(kind, span),
        }
    }

    /// "get a picture of the shed door, I need a photo of that": the same wish again.
    fn same_todo(&self, kind: FollowUpKind, span: Span) -> bool {
        self.follow_ups.last().is_some_and(|t| {
            t.kind == kind
                && self.sentence(t.span.end - 1) == self.sentence(span.first)
                && t.span.end + 8 >= span.first
        })
    }

    fn stretch_todo(&mut self, end: usize) {
        if let Some(last) = self.follow_ups.last_mut() {
            last.span.end = last.span.end.max(end);
        }
    }

    /// "pictures of all four sides of that shed": the structure itself is meant.
    fn structure_object(&self, at: usize, span: Span) -> Option<(Option<u16>, Place, usize)> {
        let mentions = self.mentions;
        let mut near = mentions[at + 1..].iter().take_while(|m| {
            m.first <= span.end + REACH && self.break_between(span.end - 1, m.first) == Break::None
        });
        let object = near.find(|m| {
            !matches!(self.meaning(m), Some(Meaning::Side(_) | Meaning::Face(_) | Meaning::AllAround))
                && !matches!(m.kind, Kind::Amount(_))
        })?;
        let Kind::Cue(rule) = object.kind else { return None };
        let name = &self.grammar.rules[usize::from(rule)].name;
        let known = self.meaning(object) == Some(Meaning::Structure) && name != crate::model::HOUSE;
        let item = self.grammar.items.iter().position(|i| i.id == *name).filter(|_| known)?;
        let side = self.mentions_in(span.end, object.first).iter().find_map(|m| match self.meaning(m) {
            Some(Meaning::Side(side)) => Some(side),
            _ => None,
        });
        let side = side.unwrap_or(self.places.here.side);
        let place = Place { structure: name.clone(), side, named: true };
        Some((Some(item as u16), place, object.end))
    }

    /// "measure that wall", "a picture of this right side": no one thing is meant.
    fn structural_object(&self, at: usize, span: Span) -> Option<usize> {
        if self.after(at).is_some_and(|m| {
            m.first == span.end && matches!(self.meaning(m), Some(Meaning::Refer(_))) && self.stands_alone(m)
        }) {
            return None;
        }
        if self.plain_object(at, span).is_some() {
            return Some((span.end + 2).min(self.tokens.list.len()));
        }
        let next_thing = self.mentions[at + 1..]
            .iter()
            .find(|m| matches!(m.kind, Kind::Thing(_)))
            .map_or(usize::MAX, |m| m.first);
        (span.end..(span.end + 5).min(next_thing))
            .find(|t| {
                STRUCTURAL.contains(&self.word(*t))
                    && self.sentence(*t) == self.sentence(span.first)
                    && t + 1 != next_thing // that gable siding
            })
            .map(|t| t + 1)
    }

    /// "siding back here, I didn't get a number, we gotta measure that wall": the covering just spoken of.
    fn covering_of(&self, face: &str) -> Option<u16> {
        let shape = match face {
            "wall" | "walls" => Shape::Wall,
            _ => return None,
        };
        let here = &self.places.here;
        let latest = self
            .entities
            .iter()
            .rev()
            .take_while(|e| e.place.structure == here.structure)
            .find(|e| e.item.is_some_and(|i| self.grammar.items[usize::from(i)].covers == Some(shape)));
        latest.filter(|e| e.place.side == here.side).and_then(|e| e.item)
    }

    /// "get a tape on the bump out", "a picture of that copper": a noun that names no thing of the catalogue.
    fn plain_object(&self, at: usize, span: Span) -> Option<usize> {
        let c = &self.grammar.classes;
        let from = span.end + usize::from(matches!(self.word(span.end), "on" | "of" | "at" | "the"));
        let opened = self.is(from, c.definite) || self.is(from.max(1) - 1, c.definite);
        let noun = from + usize::from(self.is(from, c.definite));
        let spoken_on = self.tokens.list.get(noun).is_some_and(|t| t.before == Break::None);
        let plain = spoken_on
            && self.is_plain(noun)
            && ![c.no_thing, c.adjective, c.damage].iter().any(|k| self.is(noun, *k));
        let named = self.mentions[at + 1..].iter().take(4).any(|m| {
            let thing = usize::from(matches!(m.kind, Kind::Thing(_)));
            m.first <= noun + thing && noun < m.end
        });
        (opened && plain && !named).then_some(noun)
    }

    /// The latest thing whose name or material the word is.
    fn named_with(&self, noun: usize) -> Option<usize> {
        let word = self.tokens.said(noun).to_lowercase();
        let has = |t: usize| self.tokens.said(t).to_lowercase() == word;
        let near = |e: &super::entity::Entity| {
            e.span.end <= noun
                && ((e.name.first..e.span.end.min(e.name.end + SAID_NEAR)).any(has)
                    || e.detail.iter().any(|t| has(*t)))
        };
        (0..self.entities.len())
            .rev()
            .take(MOST_THINGS_BACK)
            .find(|n| !self.entities[*n].scratched && near(&self.entities[*n]))
    }

    fn drop_earlier(&mut self) {
        if let Some(Pending::FollowUp { kind, span }) = self.pending.take() {
            self.follow_up_without_object(kind, span);
        }
    }

    fn todo_object(&self, at: usize, span: Span) -> Option<Object> {
        for next in &self.mentions[at + 1..] {
            if next.first > span.end + REACH || self.break_between(span.end - 1, next.first) >= Break::Comma {
                return None;
            }
            match (&next.kind, self.meaning(next)) {
                (Kind::Thing(_), _) => return Some(Object::Thing),
                (_, Some(Meaning::Face(_))) => return Some(Object::Face(next.end)),
                (_, Some(Meaning::Refer(_))) if self.stands_alone(next) => {
                    return Some(Object::Pronoun(next.end));
                }
                (
                    _,
                    Some(Meaning::Work(..) | Meaning::Side(..) | Meaning::FollowUp(..) | Meaning::Clear(_)),
                ) => return None,
                _ => {}
            }
        }
        None
    }

    /// "that", and not "that thing over there".
    fn stands_alone(&self, pronoun: &Mention) -> bool {
        if matches!(self.word(pronoun.end - 1), "it" | "them") {
            return true;
        }
        self.tokens.list.get(pronoun.end).is_none_or(|t| t.before != Break::None)
            || self.is(pronoun.end, self.grammar.classes.function)
            || self.is(pronoun.end, self.grammar.classes.preposition)
            || self.is(pronoun.end, self.grammar.classes.joins)
    }

    /// Something to do about the thing last spoken of.
    fn todo_of_last(&mut self, kind: FollowUpKind, span: Span) {
        let last = self.last().filter(|l| self.entities[*l].span.end + 30 >= span.first);
        let place = last.map(|l| self.entities[l].place.clone());
        self.follow_up_on(kind, last.and_then(|l| self.entities[l].item), place, span);
    }

    /// The cue's object never came.
    pub(super) fn follow_up_without_object(&mut self, kind: FollowUpKind, span: Span) {
        self.follow_up_on(kind, None, None, span);
    }

    /// Notes something to do, once for each kind, thing and place.
    pub(super) fn follow_up_on(
        &mut self,
        kind: FollowUpKind,
        item: Option<u16>,
        place: Option<Place>,
        span: Span,
    ) {
        let roof = self.places.on_roof || self.places.slope.is_some();
        let area = if roof { Area::Roof } else { Area::Wall };
        let place = place.unwrap_or_else(|| self.places.of(area));
        let same =
            |t: &FollowUpSaid| t.kind == kind && t.place == place && (t.item == item || item.is_none());
        let open =
            self.follow_ups.iter_mut().rev().take(3).find(|t| same(t) && t.span.end + 30 >= span.first);
        match open {
            Some(known) => known.span = known.span.join(span),
            None => self.follow_ups.push(FollowUpSaid { kind, item, place, span }),
        }
    }
}

/// Words for parts of the house rather than things on it.
const STRUCTURAL: &[&str] =
    &["roof", "wall", "walls", "house", "side", "sides", "gable", "elevation", "slope", "dormer"];

/// What a cue for something to do speaks of.
enum Object {
    Thing,
    Pronoun(usize),
    Face(usize),
}
