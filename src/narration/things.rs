//! Things as they are named: which are new, which were named before, which only tell where another one is.

use super::account::{Entity, Evidence, Quantity, Span, WorkSaid};
use super::listener::{Listener, Pending};
use crate::draft::{Area, Flag, Work};
use crate::grammar::Meaning;
use crate::mentions::{Determiner, Mention, Thing};
use crate::numbers::Exact;

impl Listener<'_> {
    /// A thing is named.
    pub fn thing(&mut self, at: usize, mention: &Mention, thing: &Thing) {
        if self.ignoring() || thing.determiner == Determiner::Negative && !self.is_pending_clear() {
            return self.skip_negative(mention, thing);
        }
        if let Some(Pending::Todo { kind, span }) = self.pending.clone() {
            self.pending = None;
            return self.todo_on(mention, thing, kind, span);
        }
        if self.only_tells_where(mention, thing) {
            self.passed = mention.end;
            self.passed_many = (thing.plural && thing.item.is_some()).then_some(at);
            return;
        }
        let Some(entity) = self.resolve(at, mention, thing) else { return };
        self.take_words(entity, mention, thing);
        self.make_exception(entity);
        self.settle_pending(entity, mention);
        self.take_unbound(entity, mention);
        self.new_is_work(entity, mention, thing);
    }

    fn is_pending_clear(&self) -> bool {
        matches!(self.pending, Some(Pending::Clear { .. }))
    }

    /// A cue that waited for an object has none in what isn't there.
    fn skip_negative(&mut self, mention: &Mention, thing: &Thing) {
        if let Some(item) = thing.item.filter(|_| !self.ignoring()) {
            self.negated = Some((item, self.places.of(self.area(thing)), Span { first: mention.first, end: mention.end }));
        }
        if thing.determiner == Determiner::Negative && matches!(self.pending, Some(Pending::Work { .. })) {
            self.pending = None;
        }
    }

    /// Something to do about a thing; the thing itself is not brought up by it.
    fn todo_on(&mut self, mention: &Mention, thing: &Thing, kind: crate::draft::FollowUpKind, span: Span) {
        let known = if thing.short { self.short_known(mention, thing) } else { self.known(thing) };
        let place = known.map(|e| self.entities[e].place.clone());
        let item = known.map_or(thing.item, |e| self.entities[e].item);
        let place = place.or_else(|| Some(self.places.of(self.area(thing))));
        self.todo(kind, item, place, span.join(Span { first: mention.first, end: mention.end }));
    }

    /// The area a thing belongs to.
    pub fn area(&self, thing: &Thing) -> Area {
        thing.item.map_or(Area::Wall, |i| self.grammar.items[usize::from(i)].area)
    }

    /// "the light above the door" is not about the door.
    fn only_tells_where(&self, mention: &Mention, thing: &Thing) -> bool {
        let Some(preposition) = thing.behind else { return self.listed_with_passed(mention, thing) };
        if self.except.is_some() || matches!(self.pending, Some(Pending::Work { .. } | Pending::Clear { .. })) {
            return false;
        }
        let word = self.grammar.vocabulary.word(preposition);
        let damage = mention.first > 1 && self.is(mention.first - 2, self.grammar.classes.damage);
        let told = match word {
            "with" => thing.new || thing.amount.is_some(),
            "on" | "for" if self.loose.is_some_and(|l| l.end + 1 == mention.first) => true,
            "on" | "in" | "of" | "to" => damage,
            "like" | "as" | "for" => thing.amount.is_some_and(|a| !a.sound_alike),
            _ => thing.amount.is_some_and(|a| a.unit.is_some()) && thing.determiner != Determiner::Definite,
        };
        !told
    }

    /// "around the windows and the door": the door only tells where, as the windows do.
    fn listed_with_passed(&self, mention: &Mention, thing: &Thing) -> bool {
        let joined = self.passed > 0 && self.passed < mention.first && mention.first == self.passed + 1 && matches!(self.word(self.passed), "and" | "or");
        joined && thing.determiner == Determiner::Definite && thing.amount.is_none() && self.pending.is_none()
    }

    /// The entity a thing stands for: one known, or a new one.
    fn resolve(&mut self, at: usize, mention: &Mention, thing: &Thing) -> Option<usize> {
        if thing.short {
            let known = self.short_for(mention, thing);
            let wanted = matches!(self.pending, Some(Pending::Work { .. }));
            return known.or_else(|| wanted.then(|| self.bring_up(mention, thing)));
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
        if thing.weak && self.last().is_some_and(|l| self.open(l) && self.sentence(self.entities[l].span.first) == self.sentence(mention.first)) {
            return None;
        }
        Some(self.bring_up(mention, thing))
    }

    /// Makes a new entity.
    pub fn bring_up(&mut self, mention: &Mention, thing: &Thing) -> usize {
        self.swap_corrected(mention, thing);
        let span = Span { first: mention.first, end: mention.end };
        let group = self.group_for(mention);
        let place = self.places.of(self.area(thing));
        let side = if place.named { "where the narrator stands" } else { "none named yet" };
        let evidence = vec![
            Evidence { field: "item", rule: self.item_name(thing), span: Span { first: thing.name.0, end: thing.name.1 } },
            Evidence { field: "side", rule: side.into(), span },
        ];
        self.entities.push(Entity {
            item: thing.item,
            name: Span { first: thing.name.0, end: thing.name.1 },
            span,
            place,
            plural: thing.plural,
            quantity: None,
            subset: None,
            size: None,
            detail: Vec::new(),
            works: Vec::new(),
            cleared: None,
            scratched: false,
            weak: thing.weak,
            group,
            flags: if thing.sounds { [Flag::SoundsLike].into() } else { Default::default() },
            evidence,
        });
        self.entities.len() - 1
    }

    fn item_name(&self, thing: &Thing) -> String {
        thing.item.map_or("not in the catalogue".into(), |i| self.grammar.items[usize::from(i)].id.clone())
    }

    /// "a spigot, no wait, it's a gas meter": the thing just named falls away.
    fn swap_corrected(&mut self, mention: &Mention, thing: &Thing) {
        let Some(correcting) = self.correcting.filter(|c| mention.first <= c + 4) else { return };
        let Some(last) = self.last().filter(|l| self.open(*l) && self.entities[*l].item != thing.item) else { return };
        if self.entities[last].span.end + 6 >= correcting && !thing.more && self.sentence(self.entities[last].span.first) == self.sentence(mention.first) {
            self.entities[last].scratched = true;
        }
    }

    /// Things joined by no more than "and" and a comma are listed in one breath.
    fn group_for(&mut self, mention: &Mention) -> usize {
        let joined = self.focus.last().copied().filter(|l| {
            let end = self.entities[*l].span.end;
            end <= mention.first && self.open(*l) && (end..mention.first).all(|t| self.lists(t)) && mention.first - end <= 4
                && self.sentence(end.saturating_sub(1)) == self.sentence(mention.first)
        });
        match joined {
            Some(last) => self.entities[last].group,
            None => {
                self.groups += 1;
                self.groups
            }
        }
    }

    fn lists(&self, token: usize) -> bool {
        self.is(token, self.grammar.classes.joins)
    }

    /// Takes number, size and the rest from the words around a thing's name.
    fn take_words(&mut self, entity: usize, mention: &Mention, thing: &Thing) {
        let span = Span { first: mention.first, end: mention.end };
        if let Some(size) = thing.size {
            self.set_size(entity, &size);
        }
        match thing.amount {
            Some(amount) => self.set_amount(entity, &amount, self.rough_near(amount.first, amount.end)),
            None if self.take_loose(entity, mention) => {}
            None if self.like_before.is_some() => self.take_like_before(entity),
            None if thing.every && self.says_both(mention) => self.imply(entity, 2, span),
            None => self.imply_one(entity, thing, span),
        }
        let e = &mut self.entities[entity];
        e.detail.extend(&thing.detail);
        e.plural |= thing.plural;
        e.span = e.span.join(span);
        self.focus.retain(|f| *f != entity);
        self.focus.push(entity);
        if self.focus.len() > 16 {
            self.focus.remove(0);
        }
    }

    /// "forty feet of it, six foot board on board": the number came first.
    fn take_loose(&mut self, entity: usize, mention: &Mention) -> bool {
        let Some(loose) = self.loose.take().filter(|l| l.end + 12 >= mention.first && l.end <= mention.first) else { return false };
        let same = self.sentence(loose.first) == self.sentence(mention.first);
        let fits = same && self.entities[entity].quantity.is_none() && self.suits(entity, &loose) && !self.fit_says_none(entity, &loose);
        if fits {
            let rough = self.rough_near(loose.first, loose.end);
            self.set_amount(entity, &loose, rough);
        }
        fits
    }

    /// A length that isn't joined to the thing by "of it" is left alone.
    fn fit_says_none(&self, _entity: usize, loose: &crate::numbers::Amount) -> bool {
        !loose.of_them && loose.unit.is_none()
    }

    fn take_like_before(&mut self, entity: usize) {
        if let Some((quantity, span)) = self.like_before.take() {
            let e = &mut self.entities[entity];
            e.quantity = Some(quantity);
            e.evidence.push(Evidence { field: "quantity", rule: "the same as before".into(), span });
        }
    }

    fn says_both(&self, mention: &Mention) -> bool {
        (mention.first..mention.end).any(|t| self.word(t) == "both")
    }

    /// A single thing that is counted in pieces is one.
    fn imply_one(&mut self, entity: usize, thing: &Thing, span: Span) {
        let item = thing.item.map(|i| &self.grammar.items[usize::from(i)]);
        let one = item.is_none_or(|i| i.counted() && (!thing.plural || i.as_one));
        if one && !(thing.item.is_none() && thing.plural) {
            self.imply(entity, 1, span);
        }
    }

    fn imply(&mut self, entity: usize, count: i64, span: Span) {
        let e = &mut self.entities[entity];
        if e.quantity.is_none() && !(e.plural && count == 1 && !self.grammar.items.get(e.item.map_or(usize::MAX, usize::from)).is_some_and(|i| i.as_one)) {
            let count = Exact::from_integer(count);
            e.quantity = Some(Quantity { low: count, high: count, unit: None, rough: false, implied: true });
            e.evidence.push(Evidence { field: "quantity", rule: "said in the singular".into(), span });
        }
    }

    /// A cue that waited for this thing.
    fn settle_pending(&mut self, entity: usize, mention: &Mention) {
        let span = Span { first: mention.first, end: mention.end };
        match self.pending.take() {
            Some(Pending::Work { work, rule, span: cue }) => {
                let said = WorkSaid {
                    work,
                    only_if: self.conditional(),
                    firmness: super::works::FIRM,
                    rule: self.grammar.rules[rule].name.clone(),
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
            other => self.pending = other,
        }
    }

    /// "replace the fascia, the soffit and the gutter": the work goes on to what is listed.
    fn lists_on(&self, end: usize) -> bool {
        let next = self.mentions.iter().find(|m| m.first >= end);
        next.is_some_and(|m| {
            matches!(m.kind, crate::mentions::Kind::Thing(_))
                && (end..m.first).all(|t| self.lists(t))
                && self.sentence(end - 1) == self.sentence(m.first)
                && !self.own_work_behind(m.end)
                && !self.own_clause(m.end)
        })
    }

    /// "power wash the columns and the rail here that's eighteen foot": the next thing opens a clause of its own.
    fn own_clause(&self, end: usize) -> bool {
        let near = (end..end + 6).take_while(|t| self.tokens.list.get(*t).is_some_and(|t| t.before == crate::tokens::Break::None));
        near.into_iter().any(|t| self.is(t, self.grammar.classes.be))
    }

    /// Whether the next thing has work of its own right behind it.
    fn own_work_behind(&self, end: usize) -> bool {
        let skipped = |m: &&Mention| m.first >= end && !matches!(self.meaning(m), Some(Meaning::Refer(_) | Meaning::Rough));
        let next = self.mentions.iter().find(skipped);
        next.is_some_and(|m| {
            m.first <= end + 11
                && self.sentence(end - 1) == self.sentence(m.first)
                && matches!(self.meaning(m), Some(Meaning::Work(..) | Meaning::Off(_) | Meaning::Clear(_) | Meaning::Leave(_)))
        })
    }

    /// "all of that comes off except for the outlet": what is said of it next stands alone.
    fn make_exception(&mut self, entity: usize) {
        if self.except.take().is_some() {
            self.entities[entity].works.clear();
        }
    }

    /// Work said of the roof as a whole falls on the covering that is named behind it.
    fn take_unbound(&mut self, entity: usize, mention: &Mention) {
        let measured = self.entities[entity].quantity.is_some_and(|q| !q.implied);
        if !measured || !self.entities[entity].works.is_empty() || self.area_of(&self.entities[entity]) != Area::Roof {
            return;
        }
        if let Some(said) = self.unbound.take() {
            let span = said.span.join(Span { first: mention.first, end: mention.end });
            self.bind(&[entity], &WorkSaid { span, ..said });
        }
    }

    /// "forty foot of new gutter" is work in itself.
    fn new_is_work(&mut self, entity: usize, mention: &Mention, thing: &Thing) {
        if !thing.new || !self.entities[entity].works.is_empty() {
            return;
        }
        let span = Span { first: mention.first, end: mention.end };
        let said = WorkSaid {
            work: Work::RemoveReplace,
            only_if: self.conditional(),
            firmness: 1,
            rule: "named as new".into(),
            span,
            of: None,
        };
        self.bind(&[entity], &said);
    }
}
