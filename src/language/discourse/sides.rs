//! Sides as they are named: walked to, pointed at, looked back at, told by the compass.

use super::account::{Place, Span};
use super::tracker::Tracker;
use crate::language::mentions::{Kind, Mention};
use crate::language::rules::{Compass, Meaning};
use crate::language::tokens::Break;
use crate::model::{Shape, Side};

/// How near a side is named to the compass word it is told with, in tokens.
const COMPASS_REACH: usize = 12;

/// How many words may stand between the opening of a clause and the place it goes on to, in tokens.
const LEAD_REACH: usize = 12;

/// Sides named this near one another, in tokens, are only told in what order they come.
const PLANNED_NEAR: usize = 5;

/// How far behind "to the left of it" its other side is told, in tokens.
const TOLD_SO_REACH: usize = 14;

/// How far a likening word stands before the side it compares with, in tokens.
const LIKENING_REACH: usize = 3;

/// What the words before a side make of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Lead {
    /// It opens its clause, or only words that lead to a place stand before it.
    Opens,
    /// Words of going or standing lead to it in mid-sentence: "… okay let's walk over to the left".
    Led,
    /// Other words stand before it.
    Behind,
}

impl Tracker<'_> {
    /// A side is named.
    pub(super) fn side(&mut self, side: Side, span: Span) {
        if self.names_two_sides(side, span) {
            return;
        }
        let lead = if self.goes_now(span) { Lead::Led } else { self.lead(span.first) };
        let by_compass = self.tell_compass(side, span.first);
        let told = (span.first..span.end)
            .any(|t| self.is(t, self.grammar.classes.side_noun) || self.is(t, self.grammar.classes.building));
        // Where no mark ends what was said aside, a side named in full does.
        let lesson = self.aside.is_some() && lead == Lead::Behind && !(told && self.unmarked(span.first));
        if lesson || self.beside.is_some() || self.likened(span) || !self.names_a_side(span, lead) {
            return;
        }
        self.side_by_sound = self.tokens.list[span.first..span.end].iter().any(|t| t.sounds);
        if (span.first..span.end).any(|t| matches!(self.word(t), "house" | "home")) {
            self.places.enter(crate::model::HOUSE);
        }
        if matches!(self.word(span.end - 1), "slope" | "slopes" | "eave" | "eaves") {
            return self.slope(side, span);
        }
        if lead == Lead::Behind && self.word(span.end - 1) == "end" && self.places.here.named {
            return; // hanging at the back end
        }
        if self.word(span.end - 1).starts_with("wall") {
            self.face = Some((Shape::Wall, Place { side, named: true, ..self.places.here.clone() }, span));
        }
        if let Some((_, place, face)) = &mut self.face
            && face.end == span.first
        {
            place.side = side; // the gable on the right
        }
        if self.is_look_back(side, span) {
            return self.look_back(side, span);
        }
        if self.places.looks_at(side) && lead != Lead::Behind {
            return;
        }
        if self.tells_of_last(side, span) {
            return;
        }
        if self.take_along(side, span) {
            return self.go(side, span);
        }
        match lead {
            Lead::Behind if by_compass && !self.places.visited(side) => self.go(side, span), // east is the front
            Lead::Opens | Lead::Led => self.go(side, span),
            Lead::Behind => self.point(side, span),
        }
    }

    /// "gutters front and back, forty foot each": on both, so that where it is stays open.
    fn names_two_sides(&mut self, side: Side, span: Span) -> bool {
        let other = |m: &Mention| matches!(self.meaning(m), Some(Meaning::Side(s)) if s != side);
        let joined = |from: usize, to: usize| {
            from < to
                && to <= from + 2
                && self.word(from) == "and"
                && (from + 1..to).all(|t| self.word(t) == "the")
                && self.break_between(from - 1, to) == Break::None
        };
        let next =
            self.mentions_in(span.end, span.end + 3).iter().any(|m| other(m) && joined(span.end, m.first));
        let before = self.mentions_before(span.first).iter().any(|m| other(m) && joined(m.end, span.first));
        if next || before {
            self.two_sides = Some(span.first);
            let sentence = self.sentence(span.first);
            if let Some(last) = self
                .last()
                .filter(|l| self.open(*l) && self.sentence(self.entities[*l].name.first) == sentence)
            {
                self.leave_side_open(last);
            }
        }
        next || before
    }

    /// A thing on more than one side is asked about.
    pub(super) fn leave_side_open(&mut self, entity: usize) {
        let place = &mut self.entities[entity].place;
        (place.side, place.named) = (Side::None, false);
    }

    /// What leads to a side.
    pub(super) fn lead(&self, first: usize) -> Lead {
        let c = &self.grammar.classes;
        let mut moves = false;
        for at in (first.saturating_sub(LEAD_REACH)..=first).rev() {
            if at == 0 || self.tokens.list[at].before == Break::Sentence {
                return Lead::Opens;
            }
            let before = at - 1;
            if !self.is(before, c.place_lead) || self.is_spoken_for(before) {
                break;
            }
            moves |= self.is(before, c.motion)
                || matches!(self.word(before), "okay" | "now" | "next" | "so" | "then" | "alright" | "here");
        }
        let leads = first > 0
            && self.tokens.list[first].before == Break::None
            && self.is(first, c.place_word)
            && matches!(self.word(first - 1), "around" | "over" | "out" | "up")
            && !self.is_spoken_for(first - 1);
        if moves || leads { Lead::Led } else { Lead::Behind }
    }

    /// Whether a token belongs to work, a thing or something else that was said before the place.
    fn is_spoken_for(&self, token: usize) -> bool {
        self.mentions_before(token + 1).iter().rev().any(|m| {
            m.end > token
                && (m.end > m.first + 1 || !matches!(self.meaning(m), Some(Meaning::Clear(_))))
                && match self.meaning(m) {
                    None => true,
                    Some(meaning) => matches!(
                        meaning,
                        Meaning::Work(..)
                            | Meaning::Off(_)
                            | Meaning::Same(_)
                            | Meaning::Clear(_)
                            | Meaning::Leave(_)
                            | Meaning::FollowUp(..)
                    ),
                }
        })
    }

    /// "same as the front": the side is only compared with.
    fn likened(&self, span: Span) -> bool {
        let c = &self.grammar.classes;
        let near = (span.first.saturating_sub(LIKENING_REACH)..span.first).rev();
        let mut spoken_on = near.take_while(|t| self.tokens.list[t + 1].before == Break::None);
        let with = |t: usize| self.word(t) == "with";
        let filler = |t: usize| {
            self.word(t) == "like"
                && !(t > 0
                    && matches!(
                        self.word(t - 1),
                        "just" | "looks" | "look" | "is" | "'s" | "exactly" | "much"
                    ))
        };
        spoken_on.any(|t| self.is(t, c.likening) && !filler(t) && (!with(t) || t + 1 == span.first))
    }

    /// Whether the words name a side at all: "right" and "back" alone mean other things as well.
    pub(super) fn names_a_side(&self, span: Span, lead: Lead) -> bool {
        let c = &self.grammar.classes;
        if self.break_between(span.first, span.end - 1) != Break::None {
            return false;
        }
        let next = self.tokens.list.get(span.end);
        let ends = next.is_none_or(|t| t.before != Break::None);
        let told = (span.first..span.end).any(|t| self.is(t, c.side_noun) || self.is(t, c.building));
        if self.only_relative(span, lead) {
            return false;
        }
        if told || self.word(span.end) == "of" && !ends {
            return true;
        }
        let counts =
            self.mentions_in(span.end, span.end + 1).iter().any(|m| matches!(m.kind, Kind::Thing(_)));
        if !ends && self.is(span.end, c.no_thing) && !counts {
            return false; // the front half
        }
        if !ends && self.word(span.end - 1) == "right" && self.only_stresses(span.end) {
            return false; // this right behind it
        }
        if span.end == span.first + 1 {
            let cut = self.tokens.list[span.first].before; // front, flag bracket
            let fresh = cut == Break::Comma
                && matches!(self.word(span.first), "front" | "rear" | "left")
                && self.mentions_in(span.first, span.end).iter().any(|m| match self.meaning(m) {
                    Some(Meaning::Side(side)) => !self.places.visited(side),
                    _ => false,
                });
            let after_side = cut == Break::Comma && span.first > 0 && self.is(span.first - 1, c.side_noun); // next side, back
            if self.is_tag(span) {
                return false;
            }
            let lone = ends
                && (cut == Break::Sentence
                    || fresh
                    || after_side
                    || cut == Break::Comma && self.looks_back(span));
            let opens = span.first > 0
                && matches!(self.word(span.first - 1), "okay" | "now" | "next" | "to" | "alright")
                || matches!(self.word(span.end), "now" | "next" | "first");
            let firm = matches!(self.word(span.first), "front" | "rear");
            let fresh = cut == Break::Sentence && counts; // Right, two lights: said in one breath
            return lone
                || lead != Lead::Behind && (opens || firm || fresh) && (ends || !self.is_plain(span.end));
        }
        ends || !self.is_plain(span.end) || self.looks_back(span)
    }

    /// "going … to the back now": whatever stands between, nothing was named since the going.
    fn goes_now(&self, span: Span) -> bool {
        let sentence = self.sentence(span.first);
        let from = (0..span.first).rev().take_while(|t| self.sentence(*t) == sentence).last();
        let Some(from) = from.filter(|from| span.first <= from + LEAD_REACH) else { return false };
        let thing = |m: &Mention| matches!(m.kind, Kind::Thing(_)) && m.first >= from;
        self.word(span.end) == "now"
            && (from..span.first).any(|t| self.is(t, self.grammar.classes.motion))
            && !self.mentions_before(span.first).iter().any(thing)
    }

    /// Whether "right" before a word only stresses it: "right behind", "right along".
    fn only_stresses(&self, next: usize) -> bool {
        matches!(
            self.word(next),
            "behind"
                | "along"
                | "past"
                | "up"
                | "by"
                | "next"
                | "against"
                | "under"
                | "above"
                | "below"
                | "over"
                | "beside"
                | "where"
                | "when"
                | "after"
                | "before"
                | "through"
                | "off"
                | "underneath"
        )
    }

    /// "everything has to come off. Right. So you're hunting": only asks for assent.
    fn is_tag(&self, span: Span) -> bool {
        let speaks_on = self.is(span.end + 1, self.grammar.classes.pronoun)
            || matches!(self.word(span.end + 1), "you" | "we" | "i" | "they" | "when" | "what" | "if");
        self.word(span.first) == "right"
            && matches!(self.word(span.end), "so" | "because" | "cause" | "well")
            && speaks_on
    }

    /// "a light to the left of the garage, another to the right": beside something, on no side of the house.
    fn only_relative(&self, span: Span, lead: Lead) -> bool {
        let c = &self.grammar.classes;
        let hand = (span.first..span.end).any(|t| matches!(self.word(t), "left" | "right"));
        let noun = (span.first..span.end).any(|t| self.is(t, c.side_noun) || self.is(t, c.building));
        let moves = (span.first.saturating_sub(4)..span.first).any(|t| self.is(t, c.motion));
        let of_thing = self.word(span.end) == "of"
            && !(span.end + 1..span.end + 3).any(|t| self.is(t, c.building) || self.is(t, c.pronoun));
        let spoken_on = self.tokens.list[span.first].before == Break::None;
        let placed =
            matches!(self.word(span.first), "to" | "on" | "at") && hand && !noun && !moves && spoken_on;
        let sentence = self.sentence(span.first);
        // "one on the left of the door and one on the right"
        let told_so = (span.first.saturating_sub(TOLD_SO_REACH)..span.first).any(|t| {
            let of_it = self.word(t) == "of" && t > 0 && matches!(self.word(t - 1), "left" | "right");
            of_it && self.sentence(t) == sentence
        });
        placed && (of_thing || told_so || self.word(span.first) == "to" && lead == Lead::Behind)
    }

    /// Whether a token is a plain word that no rule holds: "the right hinge", "the back bedroom".
    pub(super) fn is_plain(&self, token: usize) -> bool {
        let c = &self.grammar.classes;
        let besides = [c.every, c.motion, c.place_lead];
        let held = self.mentions_before(token + 1).iter().any(|m| m.end > token);
        !held
            && !c.closed().iter().chain(&besides).any(|class| self.is(token, *class))
            && self.tokens.list.get(token).is_some_and(|t| self.grammar.numbers.get(t.word).is_none())
    }

    /// "oh, and on the front I forgot the mailbox", "back on the left".
    fn is_look_back(&self, side: Side, span: Span) -> bool {
        let back = span.first > 0
            && self.word(span.first - 1) == "back"
            && self.tokens.list[span.first].before == Break::None
            && !(span.first > 1 && self.is(span.first - 2, self.grammar.classes.motion));
        let elsewhere = self.places.here.named && self.places.here.side != side;
        let c = &self.grammar.classes;
        let alone = self.stands_alone_as_sentence(span);
        let subject = self.is(span.end, c.have) || matches!(self.word(span.end), "needs" | "gets" | "wants");
        if subject && elsewhere && self.places.visited(side) && self.lead(span.first) == Lead::Opens {
            return true; // and the front has two downspouts
        }
        let told = (span.first..span.end).any(|t| self.is(t, c.side_noun) || self.is(t, c.building));
        let moves = (span.first.saturating_sub(4)..span.first).any(|t| self.is(t, c.motion));
        let here = matches!(self.word(span.end), "here" | "now" | "first" | "next");
        if !told
            && !moves
            && !here
            && !alone
            && elsewhere
            && self.places.visited(side)
            && self.lead(span.first) != Lead::Behind
        {
            return true; // so on the front, two square of house wrap
        }
        let placed =
            self.is(span.first, c.place_word) || (span.first..span.end).any(|t| self.is(t, c.side_noun));
        placed && self.looks_back(span)
            || (back && elsewhere && !alone && self.places.visited(side) && self.word(span.end) != "here")
    }

    /// "Back to the front.": nothing else is said in the sentence.
    pub(super) fn stands_alone_as_sentence(&self, span: Span) -> bool {
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before == Break::Sentence);
        ends && self.lead(span.first) == Lead::Opens
    }

    /// "the front slope": the side of roof things, and a face to measure. The narrator stays where he is.
    fn slope(&mut self, side: Side, span: Span) {
        let place = Place { side, named: true, ..self.places.here.clone() };
        self.face = Some((Shape::RoofSlope, place.clone(), span));
        let behind = self.lead(span.first) == Lead::Behind;
        let goes_on = self.unmarked(span.first) && self.brings_up(span);
        let roof = !self.places.on_roof && self.places.slope.is_none();
        let near = self.just_named(span).filter(|l| {
            let tied = self.is(span.first, self.grammar.classes.place_word)
                || self.tokens.list[span.first].before == Break::Comma;
            behind && tied && (self.open(*l) || !goes_on)
        });
        match near {
            Some(last) => {
                self.entities[last].place = place;
                if !roof {
                    self.places.slope = Some(side);
                }
            }
            None => {
                self.places.slope = Some(side);
                self.places.slope_at = span.first;
            }
        }
    }

    /// The thing spoken of right before a place, in the same sentence.
    pub(super) fn just_named(&self, span: Span) -> Option<usize> {
        self.focus.last().copied().filter(|l| {
            let said = self.entities[*l].span;
            self.sentence(said.end - 1) == self.sentence(span.first) && span.first <= said.end + 3
        })
    }

    /// "the east wall": a side, once it was told which; else it waits for the side to be named.
    pub(super) fn compass(&mut self, compass: Compass, span: Span) {
        let told = self.places.compass.iter().find(|c| c.0 == compass).map(|c| c.1);
        match told {
            Some(side) => self.side(side, span),
            None if self.arrived.1 > 0
                && self.arrived.1 + COMPASS_REACH >= span.first
                && self.sentence(self.arrived.1.saturating_sub(1)) == self.sentence(span.first) =>
            {
                self.places.tell(compass, self.places.here.side);
            }
            _ if self.faces(span) => self.places.tell(compass, Side::Front),
            None => self.places.untold = Some((compass, span.first)),
        }
    }

    /// "the house faces west".
    fn faces(&self, span: Span) -> bool {
        (span.first.saturating_sub(2)..span.end).any(|t| matches!(self.word(t), "faces" | "facing"))
    }

    /// "the west side is my front": which side the compass word named before is.
    fn tell_compass(&mut self, side: Side, at: usize) -> bool {
        let near =
            |u: &(Compass, usize)| u.1 + 2 * COMPASS_REACH >= at && self.sentence(u.1) == self.sentence(at);
        let Some((compass, _)) = self.places.untold.filter(near) else { return false };
        self.places.untold = None;
        self.places.tell(compass, side);
        true
    }

    pub(super) fn go(&mut self, side: Side, span: Span) {
        let planned = self.arrived.1 > 0
            && self.arrived.0 == self.entities.len()
            && span.first <= self.arrived.1 + PLANNED_NEAR
            && self.sentence(self.arrived.1 - 1) == self.sentence(span.first);
        if planned && side != self.places.here.side {
            self.places.only_named(self.places.here.side); // we start at the front, then the left, then the back
        }
        self.places.go(side);
        self.arrived = (self.entities.len(), span.end);
        self.unbound = None;
        self.heading =
            self.heading.take().filter(|h| self.sentence(h.said.span.first) == self.sentence(span.first));
        self.negated = None;
        self.condition = None;
        self.correcting = None;
        self.recap = None;
        self.lacking = None;
        self.run = self.entities.len();
    }

    /// Whether "forgot" or the like stands beside the side.
    pub(super) fn looks_back(&self, span: Span) -> bool {
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
        self.lead(first) != Lead::Behind
    }

    /// Whether the words around are written without marks, so that its breaks are only guessed.
    pub(super) fn unmarked(&self, token: usize) -> bool {
        self.tokens.list.get(token).is_some_and(|t| t.doubt.is_some())
    }

    /// "the last side".
    pub(super) fn last_side(&mut self, span: Span) {
        if let Some(side) = self.places.left_over() {
            self.go(side, span);
        }
    }
}
