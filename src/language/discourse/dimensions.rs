//! Faces that are measured for the takeoff: "the wall is forty by nine", "the gable is twenty six wide and
//! eight to the peak", "the back slope's forty along the eave and seventeen up the rafter".

use super::account::{DimensionSaid, Place, RoofSlope, Span};
use super::tracker::Tracker;
use crate::language::mentions::{Kind, Mention, Thing};
use crate::language::numbers::{Amount, Exact, SlopeSaid};
use crate::language::rules::Meaning;
use crate::model::{Shape, Side, Unit};

/// How far behind the face's name its lengths may stand, in tokens.
const REACH: usize = 24;

/// Smaller than this, in feet, "twelve by seven" of siding is a patch rather than the wall.
const LEAST_WALL: (i64, i64) = (12, 7);

/// How far apart the two lengths may stand, in tokens.
const APART: usize = 8;

/// Which of the two lengths a number is.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Across {
    Width,
    Height,
}

/// A width or a height that waits for the other.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct OneLength {
    named: (Shape, Place, Span),
    across: Option<Across>,
    value: Exact,
    span: Span,
}

impl Tracker<'_> {
    /// "back slope, fourteen square, replace": squares on a roof are of its covering, though it is not named.
    pub(super) fn brings_up_the_covering(&mut self, at: usize, amount: &Amount) -> bool {
        let sentence = self.sentence(amount.first);
        let in_sentence = |m: &&Mention| self.sentence(m.first) == sentence;
        let on_roof = self.mentions[..at].iter().rev().take_while(in_sentence).any(|m| {
            let face = matches!(self.word(m.end - 1), "slope" | "slopes");
            face || matches!(self.meaning(m), Some(Meaning::Roof))
        });
        let takes = |m: &Mention| match &m.kind {
            Kind::Thing(t) => t.item.is_none_or(|i| self.grammar.items[usize::from(i)].takes(Unit::Square)),
            _ => false,
        };
        let before = self.mentions[..at].iter().rev().take_while(in_sentence);
        let named = before.chain(self.mentions[at..].iter().take_while(in_sentence)).any(takes);
        let waits = self.last().is_some_and(|l| {
            let e = &self.entities[l];
            let takes = e.item.is_some_and(|i| self.grammar.items[usize::from(i)].takes(Unit::Square));
            takes && e.quantity.is_none() && e.place.structure == self.places.here.structure
        }); // "it's a laminate shingle … I measured it at twenty nine square"
        if amount.unit != Some(Unit::Square) || !on_roof || named || waits || self.unmarked(amount.first) {
            return false;
        }
        let covering = |i: &crate::language::rules::Item| i.covers == Some(Shape::RoofSlope);
        let Some(item) = self.grammar.items.iter().position(covering) else { return false };
        let name = (amount.first, amount.end);
        let head = self.tokens.list[amount.end - 1].word;
        let thing = Thing {
            item: Some(item as u16),
            sounds: true,
            weak: true,
            name,
            head,
            amount: Some(*amount),
            ..Thing::default()
        };
        let mention =
            Mention { first: amount.first, end: amount.end, kind: Kind::Thing(Box::new(thing.clone())) };
        let entity = self.bring_up(&mention, &thing);
        self.take_words(entity, &mention, &thing);
        self.take_unbound(entity, &mention);
        true
    }

    /// A face is named: what is measured next is it.
    pub(super) fn see_face(&mut self, shape: Shape, span: Span) {
        if self.only_tells_which(span) {
            return;
        }
        let mut place = self.places.here.clone();
        if let Some(side) = self.side_beside(span) {
            place.side = side;
        }
        if self.measured_just_before(shape, &place, span) {
            return;
        }
        self.face = Some((shape, place, span));
        self.note_one_length();
    }

    /// How steep the roof is: of the slope spoken of, else of the whole roof. A second thought stands in the place of the
    /// first; of two slopes of one roof that were both meant, none is chosen.
    pub(super) fn see_rise(&mut self, rise: &SlopeSaid) {
        if self.ignoring() {
            return;
        }
        let span = Span { first: rise.first, end: rise.end };
        let slope = self.face.as_ref().filter(|(shape, _, face)| {
            *shape == Shape::RoofSlope && self.sentence(face.first) == self.sentence(rise.first)
        });
        let place = match slope {
            Some((_, place, _)) => place.clone(),
            None => Place { side: self.places.slope.unwrap_or(Side::None), ..self.places.here.clone() },
        };
        let same =
            |known: &RoofSlope| (&known.place.structure, known.place.side) == (&place.structure, place.side);
        let corrects = self.correcting.is_some();
        self.slopes.retain(|known| !same(known) || !corrects && known.rise != rise.inches);
        self.slopes.push(RoofSlope { place, rise: rise.inches, span });
    }

    /// A width or a height whose other one never came is kept where it was told which of the two it is: "the walls are
    /// nine foot high".
    pub(super) fn note_one_length(&mut self) {
        let Some(OneLength { named: (shape, place, face), across: Some(across), value, span }) =
            self.one_length.take()
        else {
            return;
        };
        let (width, height) = match across {
            Across::Width => (Some(value), None),
            Across::Height => (None, Some(value)),
        };
        let known = |f: &DimensionSaid| {
            f.shape == shape
                && f.place == place
                && (width.is_none() || f.width == width)
                && (height.is_none() || f.height == height)
        };
        if !self.dimensions.iter().any(known) {
            self.dimensions.push(DimensionSaid { shape, place, width, height, span: face.join(span) });
        }
    }

    /// "the gable over this wall's twenty four wide": the wall only tells which gable.
    fn only_tells_which(&self, span: Span) -> bool {
        let definite = self.is(span.first, self.grammar.classes.definite);
        let before = span.first.checked_sub(1).map_or("", |t| self.word(t));
        let near = self.face.as_ref().is_some_and(|f| f.2.end + 1 >= span.first);
        near && definite && matches!(before, "over" | "above" | "on" | "of")
    }

    /// "it's a thirty six by nine wall".
    fn measured_just_before(&mut self, shape: Shape, place: &Place, span: Span) -> bool {
        let amount = self.mentions_before(span.first).iter().find_map(|m| match m.kind {
            Kind::Amount(a)
                if a.end == span.first
                    && a.by.is_some()
                    && self.tokens.list[span.first].before == crate::language::tokens::Break::None =>
            {
                Some(a)
            }
            _ => None,
        });
        let Some(amount) = amount else { return false };
        let (Some(width), Some(height)) =
            (in_feet(amount.low, amount.unit), in_feet(amount.by.unwrap_or_default(), amount.by_unit))
        else {
            return false;
        };
        self.add_face(shape, place.clone(), width, height, Span { first: amount.first, end: span.end });
        true
    }

    fn side_beside(&self, span: Span) -> Option<crate::model::Side> {
        let near = |m: &&crate::language::mentions::Mention| {
            m.end <= span.first
                && m.end + 1 >= span.first
                && self.sentence(m.first) == self.sentence(span.first)
        };
        self.mentions_before(span.first).iter().filter(near).find_map(|m| match self.meaning(m) {
            Some(Meaning::Side(side)) => Some(side),
            _ => None,
        })
    }

    /// Whether a number is a length of the face spoken of; if so it is taken.
    pub(super) fn face_length(&mut self, at: usize, amount: &Amount) -> bool {
        let named = self.named_face(at, amount).or_else(|| self.wall_of_siding(amount));
        if let Some(by) = amount.by {
            if self.wall_right_behind(amount.end) {
                return true;
            }
            let Some((shape, place, span)) = named else { return false };
            let (Some(width), Some(height)) = (in_feet(amount.low, amount.unit), in_feet(by, amount.by_unit))
            else {
                return false;
            };
            self.add_face(
                shape,
                place,
                width,
                height,
                span.join(Span { first: amount.first, end: amount.end }),
            );
            return true;
        }
        let across = self.across(amount.end);
        let waiting = self.one_length.as_ref().is_some_and(|o| amount.first <= o.span.end + APART);
        if across.is_none() && !waiting {
            return false;
        }
        let Some(named) = named else { return false };
        let Some(value) = in_feet(amount.low, amount.unit) else { return false };
        self.take_length(named, across, value, Span { first: amount.first, end: amount.end });
        true
    }

    /// "paint the clapboard, I measured, it's thirty two wide by eight": the wall that the siding is on.
    fn wall_of_siding(&self, amount: &Amount) -> Option<(Shape, Place, Span)> {
        let by = amount.by.is_some_and(|by| amount.low >= LEAST_WALL.0.into() && by >= LEAST_WALL.1.into());
        let told = by || self.across(amount.end).is_some();
        let waiting = self.one_length.as_ref().is_some_and(|o| amount.first <= o.span.end + APART);
        let last = self.last().filter(|_| told || waiting)?;
        let e = &self.entities[last];
        let item = &self.grammar.items[usize::from(e.item?)];
        let shape = item.covers.filter(|c| *c == Shape::Wall || amount.by.is_none())?;
        let place = if shape == Shape::Wall { self.places.here.clone() } else { e.place.clone() };
        let span = Span { first: amount.first, end: amount.end };
        (e.span.end + REACH >= amount.first).then_some((shape, place, span))
    }

    fn take_length(&mut self, named: (Shape, Place, Span), across: Option<Across>, value: Exact, span: Span) {
        let other = |one: &OneLength| (one.named.0, &one.named.1) != (named.0, &named.1);
        if self.one_length.as_ref().is_some_and(other) {
            self.note_one_length();
        }
        let Some(one) = self.one_length.take() else {
            self.one_length = Some(OneLength { named, across, value, span });
            return;
        };
        if across.is_some() && one.across == across {
            self.one_length = Some(OneLength { named, across, value, span }); // said anew
            return;
        }
        let upright = one.across == Some(Across::Height) || across == Some(Across::Width);
        let (width, height) = if upright { (value, one.value) } else { (one.value, value) };
        self.add_face(named.0, named.1, width, height, named.2.join(span));
    }

    fn wall_right_behind(&self, end: usize) -> bool {
        self.tokens.list.get(end).is_some_and(|t| t.before == crate::language::tokens::Break::None)
            && self
                .mentions_in(end, end + 1)
                .iter()
                .any(|m| matches!(self.meaning(m), Some(Meaning::Face(_))))
    }

    /// The face a length belongs to: the one named last, unless a thing was named since; or the side itself
    /// ("the front is forty by nine").
    fn named_face(&self, at: usize, amount: &Amount) -> Option<(Shape, Place, Span)> {
        let last_thing =
            self.mentions[..at].iter().rev().find(|m| matches!(m.kind, Kind::Thing(_))).map_or(0, |m| m.end);
        if let Some((shape, place, span)) = &self.face
            && span.end + REACH >= amount.first
            && span.first >= last_thing
        {
            return Some((*shape, place.clone(), *span));
        }
        let structure = |m: &&crate::language::mentions::Mention| self.meaning(m) != Some(Meaning::Structure);
        let end = self.mentions[..at].last()?.end;
        let before = self.mentions[..at].iter().rev().find(structure)?;
        let be = self.is(end, self.grammar.classes.be);
        match self.meaning(before) {
            Some(Meaning::Side(side)) if be && end + 3 >= amount.first && before.end + 4 >= end => {
                let place = Place { side, ..self.places.here.clone() };
                Some((Shape::Wall, place, Span { first: before.first, end: before.end }))
            }
            _ => None,
        }
    }

    /// What the words behind a length say it is.
    fn across(&self, end: usize) -> Option<Across> {
        let c = &self.grammar.classes;
        if self.is(end, c.width) {
            Some(Across::Width)
        } else if self.is(end, c.height) {
            Some(Across::Height)
        } else {
            match (self.word(end), self.word(end + 2)) {
                ("along", _) => Some(Across::Width),
                ("to" | "at", "peak" | "eave" | "eaves" | "ridge" | "top")
                | ("up", "rafter" | "rafters" | "slope") => Some(Across::Height),
                _ => None,
            }
        }
    }

    fn add_face(&mut self, shape: Shape, place: Place, width: Exact, height: Exact, span: Span) {
        let (width, height) = (Some(width), Some(height));
        let same = |f: &DimensionSaid| {
            f.shape == shape && f.place == place && f.width == width && f.height == height
        };
        if !self.dimensions.iter().any(same) {
            self.dimensions.push(DimensionSaid { shape, place, width, height, span });
        }
    }
}

/// A length in feet; none where the unit is no length.
fn in_feet(value: Exact, unit: Option<Unit>) -> Option<Exact> {
    Some(value * unit.unwrap_or(Unit::Foot).in_unit(Unit::Foot)?)
}
