//! Sides said of a thing rather than walked to: pointed at, told behind a name, looked back to.

use super::account::{Evidence, Field, Origin, Place, Span};
use super::entity::Entity;
use super::sides::Lead;
use super::tracker::Tracker;
use crate::language::mentions::{Kind, Mention};
use crate::language::tokens::Break;
use crate::model::Side;

impl Tracker<'_> {
    /// Whether a side right behind a thing's name tells where that thing is, and is no move.
    pub(super) fn points_at(&self, span: Span) -> bool {
        let c = &self.grammar.classes;
        self.is(span.first, c.place_word)
            && self.tokens.list[span.first].before == Break::None
            && self.names_a_side(span, Lead::Behind)
            && !(self.unmarked(span.first) && self.brings_up(span))
    }

    /// A side named in mid-clause: of the thing just named ("gutter, forty foot on the front"), or a move.
    pub(super) fn point(&mut self, side: Side, span: Span) {
        let c = &self.grammar.classes;
        let prefixed = self.is(span.first, c.place_word);
        let told = (span.first..span.end).any(|t| self.is(t, c.side_noun) || self.is(t, c.building));
        let new = !self.places.visited(side);
        let near = self.just_named(span);
        if !prefixed {
            let apart = self.tokens.list[span.first].before != Break::None
                && self.tokens.list.get(span.end).is_none_or(|t| t.before != Break::None);
            let goes = told && (new || apart || self.brings_up(span))
                || new && (apart || self.is_presented(span))
                || new && (self.is(span.end, c.be) || self.is(span.end, c.have));
            if goes {
                self.go(side, span);
            }
            return;
        }
        if !self.places.here.named {
            if let Some(last) = near {
                let run = self.run;
                self.entities[last].place = Place { side, named: true, ..self.places.here.clone() };
                self.go(side, span);
                self.run = run;
            } else if told || self.tokens.list[span.first].before != Break::None || self.begins_there(span) {
                self.go(side, span); // back at the house, on the front, the mailbox
            }
            return;
        }
        if span.first > 0 && matches!(self.word(span.first - 1), "one" | "ones") {
            return; // the one on the right's got a star in it
        }
        let material = span.first > 0
            && self.is(span.first - 1, c.material)
            && self.tokens.list[span.first].before == Break::None;
        if material && near.is_none() {
            return; // brick, with vinyl on the back
        }
        let unmarked = self.unmarked(span.first);
        let adverb = matches!(self.word(span.first), "around" | "out");
        let goes_on = unmarked && (adverb || new || told || self.brings_up(span));
        let Some(last) = near.filter(|l| self.open(*l) || !goes_on) else {
            if unmarked || self.brings_up(span) {
                self.go(side, span);
            } else if self.places.visited(side)
                && self.places.here.side != side
                && !self
                    .mentions_before(span.first)
                    .iter()
                    .any(|m| m.end == span.first && matches!(m.kind, Kind::Amount(_)))
            {
                self.look_back_with_last(side, span);
            }
            return;
        };
        if self.named_there_before(last, side) {
            return;
        }
        let entity = &mut self.entities[last];
        let pointed = entity.evidence.iter().any(|e| e.origin == Origin::SaidOfThing);
        if !pointed {
            entity.place = Place { side, named: true, ..entity.place.clone() };
            entity.evidence.push(Evidence { field: Field::Side, origin: Origin::SaidOfThing, span });
        }
    }

    /// "Working left to right across the front.": nothing was named yet, and nothing else follows.
    fn begins_there(&self, span: Span) -> bool {
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before != Break::None);
        let on = matches!(self.word(span.first), "on" | "at" | "along" | "across");
        self.entities.is_empty() && on && ends && !self.unmarked(span.first)
    }

    /// "standing at the street, this is the front": where he stands, in so many words.
    fn is_presented(&self, span: Span) -> bool {
        let c = &self.grammar.classes;
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before != Break::None);
        ends && span.first > 1
            && self.is(span.first - 1, c.be)
            && matches!(self.word(span.first - 2), "this" | "here" | "that" | "we" | "i" | "which")
    }

    /// "the deck's on the back of the house": the thing stands where the narrator goes on to.
    pub(super) fn take_along(&mut self, side: Side, span: Span) -> bool {
        let spoken_on = self.tokens.list[span.first].before == Break::None;
        if let Some(todo) = self.follow_ups.last_mut().filter(|t| spoken_on && t.span.end == span.first) {
            todo.place = Place { side, named: true, ..todo.place.clone() }; // measure the soffit on the rear
        }
        let Some(last) = self.focus.last().copied() else { return false };
        let said = self.entities[last].span;
        let on = spoken_on && span.first == said.end + 1 && self.is(said.end, self.grammar.classes.be);
        let taken = on && self.open(last) && self.sentence(said.end - 1) == self.sentence(span.first);
        if taken {
            self.entities[last].place = Place { side, named: true, ..self.entities[last].place.clone() };
        }
        taken
    }

    /// "I didn't get the cable box. That's on the right side": only the thing is there.
    pub(super) fn tells_of_last(&mut self, side: Side, span: Span) -> bool {
        let c = &self.grammar.classes;
        let pronoun = span.first >= 2
            && self.tokens.list[span.first].before == Break::None
            && self.is(span.first - 1, c.be)
            && self.is(span.first - 2, c.pronoun)
            && self.is(span.first, c.place_word);
        let last = self.last().filter(|l| self.open(*l) && self.entities[*l].span.end + 3 >= span.first);
        let Some(last) = last.filter(|_| pronoun && self.places.here.named) else { return false };
        self.entities[last].place = Place { side, named: true, ..self.entities[last].place.clone() };
        true
    }

    /// "the siding I gave you on the right", "the doorbell, back on the front": with the thing just named.
    pub(super) fn look_back(&mut self, side: Side, span: Span) {
        let near = self.last().filter(|l| {
            let said = self.entities[*l].span;
            self.open(*l)
                && said.end + 4 >= span.first
                && self.sentence(said.end - 1) == self.sentence(span.first)
        });
        match near {
            Some(last) if self.named_there_before(last, side) => {
                self.places.look_back(side, span.first, self.entities.len());
                self.places.seen();
            }
            Some(_) => self.look_back_with_last(side, span),
            None => self.places.look_back(side, span.first, self.entities.len()),
        }
    }

    /// "The mailbox. That's what it was, on the front.": a look back, to the thing just brought up.
    fn look_back_with_last(&mut self, side: Side, span: Span) {
        let last = self.last().filter(|l| self.open(*l) && self.entities[*l].span.end + 12 >= span.first);
        let from = last.unwrap_or(self.entities.len());
        if let Some(last) = last {
            self.entities[last].place = Place { side, named: true, ..self.entities[last].place.clone() };
        }
        self.places.look_back(side, span.first, from);
    }

    /// "and again, that picture window on the front": named on that side before; the same one is meant.
    fn named_there_before(&mut self, last: usize, side: Side) -> bool {
        let e = &self.entities[last];
        let again =
            self.is(e.span.first, self.grammar.classes.definite) && self.open(last) && e.place.side != side;
        let same = |o: &Entity| {
            o.item == e.item && o.place.side == side && o.place.structure == e.place.structure && !o.scratched
        };
        let known = self.entities[..last].iter().rposition(same).filter(|_| again);
        if let Some(known) = known {
            self.entities[last].scratched = true;
            self.focus.retain(|f| *f != last);
            self.focus.push(known);
        }
        known.is_some()
    }

    /// Whether what follows brings up something new: "there's", "we've got", "two lights".
    pub(super) fn brings_up(&self, span: Span) -> bool {
        let c = &self.grammar.classes;
        let of = self.word(span.end) == "of";
        let from = span.end + if of { 2 + usize::from(self.is(span.end + 1, c.definite)) } else { 0 };
        if self.break_between(span.end - 1, from) != Break::None {
            return false;
        }
        let fresh = |m: &Mention| m.first <= from + 1 && !matches!(m.kind, Kind::Cue(_));
        self.is(from, c.have)
            || self.mentions_in(from, from + 2).iter().any(fresh)
            || self.unmarked(span.first)
                && matches!(self.word(from), "okay" | "i" | "we" | "there" | "and" | "so" | "now")
    }
}
