//! Where the narrator is: structure and side, looks back, and what holds only for a sentence.

use super::account::{Place, Span};
use super::entity::Entity;
use super::tracker::Tracker;
use crate::language::mentions::Kind;
use crate::language::rules::{Compass, Meaning};
use crate::language::tokens::Break;
use crate::model::{Area, HOUSE, Side};

/// A look back is over after so many sentences.
const LOOK_BACK_REACH: u32 = 2;

/// How far "all the way around" reaches where no punctuation ends it, in tokens.
const ALL_AROUND_REACH: usize = 20;

/// The four sides, in the order of a walk.
const SIDES: [Side; 4] = [Side::Front, Side::Right, Side::Rear, Side::Left];

/// Where the narrator stands, and where he has been.
#[derive(Debug)]
pub(super) struct Places {
    pub here: Place,
    visited: Vec<(String, Side)>,
    /// Structures named so far that stand apart from the house.
    pub declared: Vec<String>,
    /// Roof things are on no one side.
    pub on_roof: bool,
    /// The slope that roof things are on.
    pub slope: Option<Side>,
    /// The token where it was named: what is told in that sentence is on it, whatever it is.
    pub slope_at: usize,
    /// Only for this sentence: no one side.
    all_around: Option<usize>,
    back: Option<LookBack>,
    /// Where the narrator left the house for another structure: what stands in the yard is there.
    yard: Place,
    /// Which side the narrator said a compass word is.
    pub compass: Vec<(Compass, Side)>,
    /// A compass word whose side is not told yet, and its token.
    pub untold: Option<(Compass, usize)>,
}

/// A look back: the place to return to.
#[derive(Debug)]
struct LookBack {
    from: Place,
    opened: usize,
    entities: usize,
    /// What was meant is known, and nothing new is waited for.
    seen: bool,
}

impl Places {
    pub(super) fn new() -> Self {
        let here = Place { structure: HOUSE.into(), side: Side::None, named: false };
        Self {
            yard: here.clone(),
            here,
            visited: Vec::new(),
            declared: Vec::new(),
            on_roof: false,
            slope: None,
            slope_at: 0,
            all_around: None,
            back: None,
            compass: Vec::new(),
            untold: None,
        }
    }

    pub(super) fn go(&mut self, side: Side) {
        self.here.side = side;
        self.here.named = true;
        self.on_roof = false;
        self.slope = None;
        self.all_around = None;
        self.back = None;
        let step = (self.here.structure.clone(), side);
        if !self.visited.contains(&step) {
            self.visited.push(step);
        }
    }

    /// Takes a side for one where the narrator hasn't been.
    pub(super) fn only_named(&mut self, side: Side) {
        let step = (self.here.structure.clone(), side);
        self.visited.retain(|s| *s != step);
    }

    /// Looks at a side without going there.
    pub(super) fn look_back(&mut self, side: Side, opened: usize, entities: usize) {
        let from = self.back.take().map_or_else(|| self.here.clone(), |b| b.from);
        let house = |(s, v): &(String, Side)| s == HOUSE && *v == side;
        if !self.visited(side) && self.visited.iter().any(house) {
            self.here.structure = HOUSE.into(); // that side is known of the house alone
        }
        self.here.side = side;
        self.here.named = true;
        self.back = Some(LookBack { from, opened, entities, seen: false });
    }

    /// The look back was to something known.
    pub(super) fn seen(&mut self) {
        if let Some(back) = &mut self.back {
            back.seen = true;
        }
    }

    /// Which side a compass word is; the other three follow from it. Who faces the front from the street with
    /// west at his back has south on his right.
    pub(super) fn tell(&mut self, compass: Compass, side: Side) {
        const CLOCKWISE: [Compass; 4] = [Compass::North, Compass::East, Compass::South, Compass::West];
        const SIDES_CLOCKWISE: [Side; 4] = [Side::Front, Side::Left, Side::Rear, Side::Right];
        let points = CLOCKWISE.iter().position(|c| *c == compass);
        let sides = SIDES_CLOCKWISE.iter().position(|s| *s == side);
        if let (Some(point), Some(at), true) = (points, sides, self.compass.is_empty()) {
            self.compass =
                (0..4).map(|n| (CLOCKWISE[(point + n) % 4], SIDES_CLOCKWISE[(at + n) % 4])).collect();
        }
    }

    /// Whether the narrator was on a side already.
    pub(super) fn visited(&self, side: Side) -> bool {
        self.visited.iter().any(|(s, v)| *s == self.here.structure && *v == side)
    }

    /// Whether the narrator is only looking at a side.
    pub(super) fn looks_at(&self, side: Side) -> bool {
        self.back.is_some() && self.here.side == side
    }

    /// The side where three were visited and one is left.
    pub(super) fn left_over(&self) -> Option<Side> {
        let mut open = SIDES.iter().filter(|s| !self.visited(**s));
        open.next().copied().filter(|_| open.next().is_none())
    }

    pub(super) fn enter(&mut self, structure: &str) {
        if self.here.structure != structure {
            if self.here.structure == HOUSE {
                self.yard = self.here.clone();
            }
            let named = structure != HOUSE;
            self.here = Place { structure: structure.into(), side: Side::None, named };
            self.on_roof = false;
            self.back = None;
        }
    }

    /// The place of a thing that belongs to an area.
    pub(super) fn of(&self, area: Area) -> Place {
        if area == Area::Grounds && self.here.structure != HOUSE {
            return self.yard.clone();
        }
        if let Some(side) = self.slope.filter(|_| area == Area::Roof) {
            return Place { side, named: true, ..self.here.clone() };
        }
        let roof = self.on_roof && area == Area::Roof;
        if roof || self.all_around.is_some() {
            return Place { side: Side::None, named: true, ..self.here.clone() };
        }
        self.here.clone()
    }

    /// Ends what holds for a sentence, and a look back once its thing is settled.
    pub(super) fn close(&mut self, here: usize, sentences: &[u32], entities: &[Entity]) {
        let over = |from: usize| sentences.get(from) != sentences.get(here);
        if self.all_around.is_some_and(|a| over(a) || here > a + ALL_AROUND_REACH) {
            self.all_around = None;
        }
        let settled = |back: &LookBack| {
            let new = entities.get(back.entities..).unwrap_or_default();
            let gone =
                sentences.get(here).zip(sentences.get(back.opened)).map_or(0, |(h, o)| h.saturating_sub(*o));
            let done = |e: &Entity| !e.works.is_empty() || e.cleared.is_some() || e.scratched;
            gone > 0
                && (new.last().is_some_and(done)
                    || (new.is_empty() && (gone > 1 || back.seen))
                    || gone > LOOK_BACK_REACH)
        };
        if self.back.as_ref().is_some_and(settled)
            && let Some(back) = self.back.take()
        {
            self.here = back.from;
        }
    }
}

impl Tracker<'_> {
    /// "all the way around".
    pub(super) fn all_around(&mut self, span: Span) {
        self.places.all_around = Some(span.first);
        let sentence = self.sentence(span.first);
        let last = self.focus.last().copied();
        if let Some(last) = last.filter(|l| self.sentence(self.entities[*l].span.first) == sentence) {
            let group = self.entities[last].group;
            for entity in self.entities.iter_mut().filter(|e| e.group == group) {
                entity.place = Place { side: Side::None, named: true, ..entity.place.clone() };
            }
        }
    }

    /// "up on the roof now".
    pub(super) fn roof(&mut self, span: Span) {
        let passing = span.end - span.first <= 2 && !self.opens_clause(span.first);
        if !self.ignoring() && !self.whole_roof(span) && !passing {
            self.places.on_roof = true;
            self.places.slope = None;
        }
    }

    /// "that's all new on the whole roof": the thing just spoken of is on no one side.
    fn whole_roof(&mut self, span: Span) -> bool {
        let whole = (span.first..span.end).any(|t| matches!(self.word(t), "whole" | "entire" | "both"));
        let Some(last) = self.last().filter(|_| whole) else { return false };
        let roof = self.area_of(&self.entities[last]) == Area::Roof;
        let near = self.entities[last].span.end + 4 >= span.first
            && self.sentence(self.entities[last].span.first) == self.sentence(span.first);
        if roof && near {
            let place = &mut self.entities[last].place;
            (place.side, place.named) = (Side::None, true);
        }
        roof && near
    }

    /// A structure is named: entered where the narrator goes there, else only known from now on.
    pub(super) fn structure(&mut self, rule: usize, span: Span) {
        let name = self.grammar.rules[rule].name.clone();
        let side_of_house = self.is(span.end, self.grammar.classes.side_noun)
            && self.tokens.list[span.end].before == Break::None
            && name != HOUSE;
        let compound =
            self.tokens.list.get(span.end).is_some_and(|t| t.before == crate::language::tokens::Break::None)
                && self.mentions_in(span.end, span.end + 1).iter().any(|m| matches!(m.kind, Kind::Thing(_)))
                && name != HOUSE
                && span.end == span.first + 1
                && !self.unmarked(span.first);
        if side_of_house || compound {
            return; // the carport end, the barn doors
        }
        let known = name == HOUSE || self.places.declared.contains(&name);
        let plain_garage = name == "detached garage" && !self.said_apart(span);
        if !known && !plain_garage && name != HOUSE {
            self.places.declared.push(name.clone());
        }
        if (!plain_garage || known) && self.enters(&name, span) {
            let side = self.side_just_named(span);
            let on_it = self.just_named(span).filter(|l| {
                self.word(span.first.saturating_sub(1)) == "on"
                    && self.entities[*l].span.end + 1 >= span.first
                    && side.is_none()
            });
            self.places.enter(&name);
            if let Some(thing) = on_it {
                self.entities[thing].place = self.places.here.clone(); // the light on the shed
            }
            if let Some(side) = side {
                self.places.go(side);
            }
            self.run = self.entities.len();
        }
    }

    /// "Shed.": a thing that is a structure too, alone in its sentence.
    pub(super) fn is_entered_by_name(
        &mut self,
        mention: &crate::language::mentions::Mention,
        item: u16,
    ) -> bool {
        use crate::language::tokens::Break;
        let id = &self.grammar.items[usize::from(item)].id;
        let structure = self.grammar.rules.iter().any(|r| r.meaning == Meaning::Structure && r.name == *id);
        let ends = self.tokens.list.get(mention.end).is_none_or(|t| t.before == Break::Sentence);
        let alone = ends && self.tokens.list[mention.first].before == Break::Sentence;
        if structure && alone && !self.unmarked(mention.first) {
            self.places.enter(id);
            self.run = self.entities.len();
        }
        structure && alone
    }

    /// Whether the words tell that it stands apart: "detached garage", not "the garage".
    fn said_apart(&self, span: Span) -> bool {
        (span.first..span.end).any(|t| matches!(self.word(t), "detached" | "separate" | "out"))
            || (span.end..span.end + 8)
                .any(|t| matches!(self.word(t), "itself" | "detached" | "separate" | "standalone"))
    }

    /// Whether the narrator goes to the structure rather than past it.
    fn enters(&self, name: &str, span: Span) -> bool {
        let before = |n: usize| span.first.checked_sub(n).map_or("", |t| self.word(t));
        let led = self.opens_clause(span.first);
        if name == HOUSE {
            return led || span.end > span.first + 2;
        }
        // "the barn blocked it" speaks of what it did, not of what is on it.
        let acts =
            self.is_plain(span.end)
                && self.tokens.list.get(span.end).is_some_and(|t| {
                    t.before == Break::None || t.before == Break::Comma && t.doubt.is_some()
                });
        // "there's a garage off by itself", before the walk has begun, only says that there is one.
        let announced = !self.places.here.named
            && self.entities.is_empty()
            && (span.first.saturating_sub(1)..span.first + 1)
                .any(|t| self.is(t, self.grammar.classes.indefinite));
        led && !acts && !announced
            || GOING.contains(&before(1))
            || DOING.contains(&before(2))
            || self.side_just_named(span).is_some()
    }

    /// "the front of the shed".
    fn side_just_named(&self, span: Span) -> Option<Side> {
        let last = self
            .mentions_before(span.first)
            .iter()
            .rfind(|m| m.end <= span.first && matches!(m.kind, Kind::Cue(_)))?;
        let near = last.end + 2 > span.first;
        match self.meaning(last) {
            Some(Meaning::Side(side)) if near => Some(side),
            _ => None,
        }
    }
}

/// Words before a structure that say the narrator goes there or speaks of what is on it.
const GOING: &[&str] = &["to", "on", "into", "now", "at", "doing", "do"];

/// Words that say so from one word further off.
const DOING: &[&str] = &["now", "doing"];
