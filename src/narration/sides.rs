//! Sides as they are named: walked to, pointed at, looked back at, told by the compass.

use super::account::{Entity, Evidence, Place, Span};
use super::listener::Listener;
use super::place::OPENERS;
use crate::draft::{Shape, Side};
use crate::grammar::{Compass, Meaning, Stand};
use crate::mentions::{Kind, Mention};
use crate::tokens::Break;

/// How near a side is named to the compass word it is told with, in tokens.
const COMPASS_REACH: usize = 12;

/// How a side came to a thing that was said to be on it.
const POINTED: &str = "said of the thing";

/// Words before a side that say the narrator is there.
const STANDING: &[&str] = &["here", "now", "'m", "'re", "are", "up", "over", "me", "out"];

impl Listener<'_> {
    /// A side is named.
    pub(super) fn side(&mut self, side: Side, stand: Stand, span: Span) {
        let lesson = self.aside.is_some() && stand == Stand::Points;
        if lesson || self.beside.is_some() || (span.end == span.first + 1 && !self.stands_apart(span)) {
            return;
        }
        if self.slope(span) {
            let shape =
                if self.word(span.end - 1).starts_with("wall") { Shape::Wall } else { Shape::RoofSlope };
            self.face = Some((shape, Place { side, named: true, ..self.places.here.clone() }, span));
        }
        let back = span.first > 0
            && self.word(span.first - 1) == "back"
            && self.tokens.list[span.first].before == Break::None;
        if self.looks_back(span) || (back && self.places.here.named) {
            return self.places.look_back(side, span.first, self.entities.len());
        }
        self.take_along(side, span);
        if stand == Stand::Points && !self.opens_clause(span.first) {
            return self.point(side, span);
        }
        self.go(side, span);
    }

    /// "the deck's on the back of the house": the thing stands where the narrator goes on to.
    fn take_along(&mut self, side: Side, span: Span) {
        let spoken_on = self.tokens.list[span.first].before == Break::None;
        if let Some(todo) = self.todos.last_mut().filter(|t| spoken_on && t.span.end == span.first) {
            todo.place = Place { side, named: true, ..todo.place.clone() }; // measure the soffit on the rear
        }
        let Some(last) = self.focus.last().copied() else { return };
        let said = self.entities[last].span;
        let on = span.first == said.end + 2
            && self.is(said.end, self.grammar.classes.be)
            && self.word(said.end + 1) == "on"
            || span.first == said.end + 1 && self.is(said.end, self.grammar.classes.be)
            || span.first == said.end && self.word(span.first) == "on" && self.slope(span);
        if on && self.open(last) && self.sentence(said.end - 1) == self.sentence(span.first) {
            self.entities[last].place = Place { side, named: true, ..self.entities[last].place.clone() };
        }
    }

    /// "the east wall": a side, once it was told which; else it waits for the side to be named.
    pub(super) fn compass(&mut self, compass: Compass, span: Span) {
        let told = self.places.compass.iter().find(|c| c.0 == compass).map(|c| c.1);
        match told {
            Some(side) => self.side(side, Stand::Moves, span),
            None if self.arrived.1 + COMPASS_REACH >= span.first
                && self.sentence(self.arrived.1.saturating_sub(1)) == self.sentence(span.first) =>
            {
                self.places.compass.push((compass, self.places.here.side));
            }
            None => self.places.untold = Some((compass, span.first)),
        }
    }

    pub(super) fn go(&mut self, side: Side, span: Span) {
        if let Some((compass, at)) = self.places.untold.take()
            && at + 2 * COMPASS_REACH >= span.first
            && self.sentence(at) == self.sentence(span.first)
        {
            self.places.compass.push((compass, side));
        }
        self.places.go(side);
        self.arrived = (self.entities.len(), span.end);
        self.unbound = None;
        self.negated = None;
        self.condition = None;
        self.correcting = None;
        self.run = self.entities.len();
    }

    /// A side in one word is one only where it is said on its own: "Rear. Patio door, okay."
    fn stands_apart(&self, span: Span) -> bool {
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before != Break::None);
        ends && self.tokens.list[span.first].before == Break::Sentence
    }

    /// "front slope" names a face too.
    pub(super) fn slope(&self, span: Span) -> bool {
        (span.first..span.end).any(|t| matches!(self.word(t), "slope" | "slopes" | "wall"))
    }

    /// Whether "forgot" or the like stands beside the side.
    fn looks_back(&self, span: Span) -> bool {
        let near = |m: &&Mention| {
            self.sentence(m.first) == self.sentence(span.first)
                && m.first + 6 >= span.first
                && m.first <= span.end + 6
        };
        let forgot = |m: &Mention| self.meaning(m) == Some(Meaning::Forgot);
        self.mentions_in(span.first.saturating_sub(6), span.end + 7).iter().filter(near).any(forgot)
    }

    /// Whether nothing that a place could be said of stands before it in its clause.
    pub(super) fn opens_clause(&self, first: usize) -> bool {
        let thing = |m: &Mention| {
            matches!(m.kind, Kind::Thing(_))
                && m.end <= first
                && m.end + 4 >= first
                && self.sentence(m.first) == self.sentence(first)
        };
        if self.mentions_before(first).iter().any(thing) {
            return false;
        }
        self.tokens.list[first].before == Break::Sentence
            || first == 0
            || OPENERS.contains(&self.word(first - 1))
    }

    /// "gutter, forty foot on the front": the side of the thing just named.
    fn point(&mut self, side: Side, span: Span) {
        let firm = matches!(self.word(span.first), "on" | "across" | "along" | "over" | "in");
        let near = self.focus.last().copied().filter(|l| {
            let said = self.entities[*l].span;
            self.sentence(said.end - 1) == self.sentence(span.first) && span.first <= said.end + 3
        });
        if firm && !self.places.here.named {
            if let Some(last) = near {
                self.entities[last].place = Place { side, named: true, ..self.places.here.clone() };
            }
            return self.go(side, span);
        }
        let Some(last) = near else {
            let stands = span.first > 0 && STANDING.contains(&self.word(span.first - 1));
            if firm && stands {
                self.go(side, span);
            }
            return;
        };
        if firm && self.named_there_before(last, side) {
            return;
        }
        let entity = &mut self.entities[last];
        let pointed = entity.evidence.iter().any(|e| e.rule == POINTED);
        if firm && entity.works.is_empty() && !pointed {
            entity.place = Place { side, named: true, ..entity.place.clone() };
            entity.evidence.push(Evidence { field: "side", rule: POINTED.into(), span });
        }
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

    /// "the last side".
    pub(super) fn last_side(&mut self, span: Span) {
        if let Some(side) = self.places.left_over() {
            self.go(side, span);
        }
    }
}
