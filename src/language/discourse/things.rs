//! Things as they are named: which are new, which were named before, which only tell where another one is.

use super::account::{Evidence, Field, Origin, Span};
use super::entity::Entity;
use super::tracker::{Pending, Tracker};
use crate::language::mentions::{Determiner, Kind, Mention, Thing};
use crate::language::rules::Meaning;
use crate::model::{Area, Flag};

/// How far behind a thing something to do about it may be said, in tokens.
const TODO_REACH: usize = 40;

/// How far before "new" a sum opens with "so", in tokens.
const SUMMED_REACH: usize = 8;

impl Tracker<'_> {
    /// A thing is named.
    pub(super) fn thing(&mut self, at: usize, mention: &Mention, thing: &Thing) {
        if thing.item.is_some_and(|i| self.is_entered_by_name(mention, i)) {
            return;
        }
        if let Some(last) = self.new_is_of_what_was_summed(mention, thing) {
            let span = Span { first: mention.first, end: mention.first + 1 };
            self.new_is_work(last, &Mention { end: span.end, ..mention.clone() }, thing);
            let old = Thing { new: false, ..thing.clone() };
            return self.named_thing(at, mention, &old);
        }
        self.arrive_by_name(mention, thing);
        let placed = Thing { side: thing.side.or_else(|| self.side_behind(at, mention)), ..thing.clone() };
        self.named_thing(at, mention, &placed);
    }

    /// "so four pair of shutters new porch light": without marks it is the shutters that are new.
    fn new_is_of_what_was_summed(&self, mention: &Mention, thing: &Thing) -> Option<usize> {
        let opens =
            thing.new && self.is(mention.first, self.grammar.classes.new) && self.unmarked(mention.first);
        let last = self.last().filter(|l| opens && self.open(*l))?;
        let e = &self.entities[last];
        let counted = e.quantity.is_some_and(|q| !q.implied) && e.span.end == mention.first;
        let summed =
            (mention.first.saturating_sub(SUMMED_REACH)..mention.first).any(|t| self.word(t) == "so");
        (counted && summed).then_some(last)
    }

    /// "the outlet on the right": the side told right behind the name.
    fn side_behind(&self, at: usize, mention: &Mention) -> Option<crate::model::Side> {
        let next = self.after(at).filter(|m| m.first == mention.end)?;
        let Some(Meaning::Side(side)) = self.meaning(next) else { return None };
        let span = Span { first: next.first, end: next.end };
        if self.word(span.end - 1) == "end" && self.places.here.named {
            return None; // the corner post at the back end: of the side he stands on
        }
        (self.places.here.named && self.points_at(span)).then_some(side)
    }

    fn named_thing(&mut self, at: usize, mention: &Mention, thing: &Thing) {
        if self.recapped(thing) {
            return;
        }
        if self.ignoring() || thing.determiner == Determiner::Negative && !self.is_pending_clear() {
            return self.skip_negative(mention, thing);
        }
        if let Some(Pending::FollowUp { kind, span }) = self.pending.clone() {
            self.pending = None;
            return self.todo_on(mention, thing, kind, span);
        }
        if self.only_tells_where(mention, thing) {
            self.count_by_whole(mention, thing);
            self.passed = mention.end;
            self.landmark = thing.item.map(|i| (i, mention.end));
            self.passed_many = (thing.plural && thing.item.is_some()).then_some(at);
            return;
        }
        if thing.behind.is_some()
            && self.pending.is_none()
            && thing.determiner == Determiner::Bare
            && self.goes_with_work(mention)
            && let Some(work) = self.mentions_before(mention.first - 1).last()
            && let (Kind::Cue(rule), Some(Meaning::Work(what, _))) = (&work.kind, self.meaning(work))
        {
            let span = Span { first: work.first, end: work.end };
            self.pending = Some(Pending::Work { work: what, rule: usize::from(*rule), span });
        }
        let Some(entity) = self.resolve(at, mention, thing) else { return };
        self.entities[entity].weak &= thing.weak || thing.short;
        let second = thing.side.is_some() && mention.first > 0 && self.word(mention.first - 1) == "and";
        let both = second
            && self.mentions_before(mention.first).last().is_some_and(|m| {
                m.end + 1 == mention.first && matches!(self.meaning(m), Some(Meaning::Side(_)))
            }); // front and back gutters
        if both || self.two_sides.is_some() {
            self.leave_side_open(entity);
        }
        self.entities[entity].presented |= self.presents(mention, thing);
        if thing.sounds {
            self.entities[entity].flags.insert(Flag::SoundsLike);
        }
        self.take_words(entity, mention, thing);
        self.make_exception(entity);
        self.settle_pending(entity, mention);
        self.take_unbound(entity, mention);
        self.new_is_work(entity, mention, thing);
        self.take_heading(entity, mention);
    }

    fn is_pending_clear(&self) -> bool {
        matches!(self.pending, Some(Pending::Clear { .. }))
    }

    /// A cue that waited for an object has none in what isn't there.
    fn skip_negative(&mut self, mention: &Mention, thing: &Thing) {
        if let Some(item) = thing.item.filter(|_| !self.ignoring()) {
            self.negated = Some((
                item,
                self.places.of(self.area(thing)),
                Span { first: mention.first, end: mention.end },
            ));
        }
        if thing.determiner == Determiner::Negative && matches!(self.pending, Some(Pending::Work { .. })) {
            self.pending = None;
        }
    }

    /// Something to do about a thing; the thing itself is not brought up by it.
    fn todo_on(&mut self, mention: &Mention, thing: &Thing, kind: crate::model::FollowUpKind, span: Span) {
        let definite = thing.determiner == Determiner::Definite;
        let recent = |n: &usize| {
            let e = &self.entities[*n];
            definite && e.item == thing.item && !e.scratched && e.span.end + TODO_REACH >= mention.first
        };
        let known = if thing.short { self.short_known(mention, thing) } else { self.known(thing) };
        let known = known.or_else(|| self.focus.iter().rev().copied().find(recent));
        if known.is_none() && thing.item.is_some() && !thing.short {
            let asked = Thing { weak: true, ..thing.clone() };
            let entity = self.bring_up(mention, &asked);
            self.take_words(entity, mention, &asked); // "get a picture of the vent, it's cracked, replace it"
        }
        let place = known.map(|e| self.entities[e].place.clone());
        let item = known.map_or(thing.item, |e| self.entities[e].item);
        let place = place.or_else(|| Some(self.place_of(thing)));
        self.follow_up_on(kind, item, place, span.join(Span { first: mention.first, end: mention.end }));
    }

    /// The area a thing belongs to.
    pub(super) fn area(&self, thing: &Thing) -> Area {
        thing.item.map_or(Area::Wall, |i| self.grammar.items[usize::from(i)].area)
    }

    /// Where a thing stands: on the side told with its name, else where the narrator is.
    pub(super) fn place_of(&self, thing: &Thing) -> super::account::Place {
        let place = self.places.of(self.area(thing));
        let marked = !self.unmarked(thing.name.0);
        let here = marked && self.sentence(self.places.slope_at) == self.sentence(thing.name.0);
        match thing.side.or(self.places.slope.filter(|_| here)) {
            Some(side) => super::account::Place { side, named: true, ..place },
            None => place,
        }
    }

    /// "front gutter, forty foot" where no side was named yet, or this one not yet: the narrator is there.
    fn arrive_by_name(&mut self, mention: &Mention, thing: &Thing) {
        let Some(side) = thing.side else { return };
        let opens = thing.determiner == Determiner::Bare && self.opens_clause(mention.first);
        let new = !self.places.here.named || (opens && !self.places.visited(side));
        if new && !self.ignoring() && thing.behind.is_none() {
            self.go(side, Span { first: mention.first, end: mention.first + 1 });
        }
    }

    /// "the light above the door" is not about the door.
    fn only_tells_where(&self, mention: &Mention, thing: &Thing) -> bool {
        let Some(preposition) = thing.behind else { return self.listed_with_passed(mention, thing) };
        if self.except.is_some() || matches!(self.pending, Some(Pending::Work { .. } | Pending::Clear { .. }))
        {
            return false;
        }
        let word = self.grammar.vocabulary.word(preposition);
        if word == "about" && mention.first > 1 && matches!(self.word(mention.first - 2), "what" | "how") {
            return false; // what about the meter?
        }
        let damage = mention.first > 1 && self.is(mention.first - 2, self.grammar.classes.damage);
        let wants = mention.first > 1
            && matches!(
                self.word(mention.first - 2),
                "calling" | "call" | "asking" | "ask" | "allow" | "figure" | "figuring" | "going"
            );
        let told = match word {
            "for" if wants => true, // I'm calling for shingles
            "with" => {
                thing.new
                    || thing.amount.is_some()
                    || thing.determiner == Determiner::Bare && self.goes_with_work(mention)
            }
            "on" | "for" if self.loose.is_some_and(|l| l.end + 1 == mention.first) => true,
            "of" => damage || mention.first > 1 && self.is(mention.first - 2, self.grammar.classes.portion),
            "on" | "in" | "to" => damage,
            "like" | "as" | "for" => thing.amount.is_some_and(|a| !a.sound_alike),
            _ => thing.amount.is_some_and(|a| a.unit.is_some()) && thing.determiner != Determiner::Definite,
        };
        !told
    }

    /// "tear off and replace, with felt and starter": the work goes on to them.
    fn goes_with_work(&self, mention: &Mention) -> bool {
        let with = mention.first - 1;
        self.mentions_before(with)
            .last()
            .is_some_and(|m| m.end == with && matches!(self.meaning(m), Some(Meaning::Work(..))))
    }

    /// "window wraps on both windows": as many as there are of what they are on.
    fn count_by_whole(&mut self, mention: &Mention, thing: &Thing) {
        let Some(last) = self.focus.last().copied() else { return };
        let e = &self.entities[last];
        let part = e.item.zip(thing.item).is_some_and(|(part, whole)| self.grammar.belongs_to(part, whole));
        if !part || e.quantity.is_some_and(|q| !q.implied) || e.span.end + 1 != mention.first {
            return;
        }
        match thing.amount {
            Some(amount) if amount.unit.is_none() => self.set_amount(last, &amount, false),
            None if self.says_both(mention) => {
                self.imply(last, 2, Span { first: mention.first, end: mention.end })
            }
            _ => {}
        }
    }

    /// "around the windows and the door": the door only tells where, as the windows do.
    fn listed_with_passed(&self, mention: &Mention, thing: &Thing) -> bool {
        let joined = self.passed > 0
            && self.passed < mention.first
            && mention.first == self.passed + 1
            && matches!(self.word(self.passed), "and" | "or");
        joined && thing.determiner == Determiner::Definite && thing.amount.is_none() && self.pending.is_none()
    }

    /// The entity a thing stands for: one known, or a new one.
    fn resolve(&mut self, at: usize, mention: &Mention, thing: &Thing) -> Option<usize> {
        if thing.short && self.repeats_a_sum(at, mention, thing) {
            return None;
        }
        if thing.short {
            let known = self.short_for(mention, thing);
            let wanted = matches!(self.pending, Some(Pending::Work { .. }));
            let unnamed = Thing { weak: thing.weak || !wanted, ..thing.clone() };
            let counted = thing.amount.is_some_and(|a| a.unit.is_none())
                && !self.is(thing.name.1 - 1, self.grammar.classes.no_thing);
            let subject = thing.determiner == Determiner::Definite
                && thing.plural
                && (self.is(mention.end, self.grammar.classes.be)
                    || matches!(self.word(mention.end), "need" | "want" | "get" | "all")); // the posts need painted
            let pointed_out = counted
                || subject && thing.behind.is_none()
                || matches!(thing.determiner, Determiner::Definite | Determiner::Indefinite)
                    && !thing.plural
                    && thing.behind.is_none()
                    && !matches!(self.word(mention.first), "that" | "this");
            return known.or_else(|| (wanted || pointed_out).then(|| self.bring_up(mention, &unnamed)));
        }
        if self.repeats_a_sum(at, mention, thing) {
            return None;
        }
        if self.totals(at, mention, thing) {
            return self.merge_total(thing);
        }
        if let Some(generic) = self.generic_of(mention, thing) {
            return Some(self.narrow(generic, thing));
        }
        if let Some(known) = self.same_as(mention, thing) {
            return Some(known);
        }
        if let Some(known) = self.known_by_first_word(mention, thing) {
            return Some(known);
        }
        if thing.weak
            && self.last().is_some_and(|l| {
                self.open(l) && self.sentence(self.entities[l].span.first) == self.sentence(mention.first)
            })
        {
            return None;
        }
        Some(self.bring_up(mention, thing))
    }

    /// Makes a new entity.
    pub(super) fn bring_up(&mut self, mention: &Mention, thing: &Thing) -> usize {
        self.swap_corrected(mention, thing);
        let span = Span { first: mention.first, end: mention.end };
        let group = self.group_for(mention, thing);
        let place = self.place_of(thing);
        let side = match thing.side {
            Some(_) => Origin::SaidOfThing,
            None if place.named => Origin::NarratorStands,
            None => Origin::NoSideYet,
        };
        let sounds = thing.sounds || std::mem::take(&mut self.side_by_sound);
        let evidence = vec![
            Evidence {
                field: Field::Item,
                origin: thing.item.map_or(Origin::NotInCatalogue, Origin::Item),
                span: Span { first: thing.name.0, end: thing.name.1 },
            },
            Evidence { field: Field::Side, origin: side, span },
        ];
        self.entities.push(Entity {
            item: thing.item,
            name: Span { first: thing.name.0, end: thing.name.1 },
            span,
            place,
            plural: thing.plural,
            quantity: None,
            replaced: None,
            pieces: None,
            subset: None,
            size: None,
            detail: Vec::new(),
            works: Vec::new(),
            cleared: None,
            scratched: false,
            weak: thing.weak,
            presented: false,
            group,
            flags: if sounds { [Flag::SoundsLike].into() } else { Default::default() },
            evidence,
        });
        self.entities.len() - 1
    }

    /// Whether the words point a thing out, and don't only name it.
    fn presents(&self, mention: &Mention, thing: &Thing) -> bool {
        let c = &self.grammar.classes;
        let before = (mention.first.saturating_sub(2)..mention.first)
            .any(|t| self.is(t, c.have) && self.sentence(t) == self.sentence(mention.first));
        let behind = self.is(mention.end, c.be)
            && matches!(
                self.word(mention.end + 1),
                "here" | "over" | "on" | "back" | "right" | "up" | "out" | "down"
            );
        thing.determiner == Determiner::Indefinite || thing.more || before || behind
    }

    /// Things joined by no more than "and" and a comma are listed in one breath.
    fn group_for(&mut self, mention: &Mention, thing: &Thing) -> usize {
        let joined = self.focus.last().copied().filter(|l| {
            let end = self.entities[*l].span.end;
            end <= mention.first
                && self.open(*l)
                && (end..mention.first).all(|t| self.lists(t))
                && mention.first - end <= 4
                && self.sentence(end.saturating_sub(1)) == self.sentence(mention.first)
                && !(end == mention.first && self.is(mention.end, self.grammar.classes.be))
                && !thing
                    .item
                    .zip(self.entities[*l].item)
                    .is_some_and(|(part, whole)| self.grammar.belongs_to(part, whole))
        });
        match joined {
            Some(last) => self.entities[last].group,
            None => {
                self.groups += 1;
                self.groups
            }
        }
    }

    pub(super) fn lists(&self, token: usize) -> bool {
        self.is(token, self.grammar.classes.joins)
    }
}
