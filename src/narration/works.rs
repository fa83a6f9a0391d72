//! Work, and what it falls on: the thing after it ("replace the gutter"), or the things before it ("gutter,
//! forty foot, replace"; "all of that comes off and goes back on").

use super::account::{Evidence, Span, WorkSaid};
use super::listener::{Listener, Pending};
use crate::draft::{Flag, Work};
use crate::grammar::{Form, Meaning};
use crate::mentions::{Determiner, Kind, Mention, Thing};
use crate::tokens::Break;

/// How many words may stand between work and its object: "replace, just replace, the".
const TO_OBJECT: usize = 3;

impl<'a> Listener<'a> {
    /// Work is said; `None`: only that it comes off.
    pub fn work(&mut self, at: usize, rule: usize, span: Span, work: Option<Work>, form: Form) {
        if self.beside.is_some() {
            self.beside = None;
            return;
        }
        if self.aside.is_some() || self.negated_work(span.first) {
            return;
        }
        if self.is(span.first, self.grammar.classes.new) && !self.stands_behind_thing(at, span) {
            return;
        }
        let soft = work.is_none() || self.grammar.rules[rule].name.starts_with("soft-");
        let said = WorkSaid {
            work: work.unwrap_or(Work::DetachReset),
            only_if: self.conditional(),
            firmness: if work.is_none() { 0 } else { u8::from(!soft) + 1 },
            rule: self.grammar.rules[rule].name.clone(),
            span,
            of: None,
        };
        if self.new_thing_follows(at, span) {
            self.pending = Some(Pending::Work { work: said.work, rule, span });
            return;
        }
        if Self::takes_object(form) && self.object(at, &said, rule, form) {
            return;
        }
        if form == Form::Object && !self.speaks_of_before(at, span) {
            return;
        }
        if self.said_of_the_roof(at, span) {
            self.unbound = Some(said);
            return;
        }
        let targets = self.subjects(at, span);
        self.bind(&targets, &said);
    }

    /// "eighteen foot of downspout new": the word ends what is said of the thing right before it.
    fn stands_behind_thing(&self, at: usize, span: Span) -> bool {
        let before = at.checked_sub(1).map(|b| &self.mentions[b]);
        let thing = before.is_some_and(|m| m.end == span.first && !matches!(m.kind, Kind::Cue(_)));
        let c = &self.grammar.classes;
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before != Break::None);
        let told = span.first > 0 && self.is(span.first - 1, c.be);
        told || thing && (ends || self.is(span.end, c.joins) || self.is(span.end, c.function))
    }

    /// "don't replace it", "we're not painting that".
    fn negated_work(&self, first: usize) -> bool {
        let said = |n: usize| first.checked_sub(n).map_or("", |t| self.word(t));
        let spoken_on = self.tokens.list[first].before == Break::None;
        let negates = |w: &str| matches!(w, "no" | "not" | "n't" | "never" | "without");
        spoken_on && (negates(said(1)) || (negates(said(2)) && matches!(said(1), "going" | "to" | "be" | "ever" | "need" | "a")))
    }

    /// "the whole roof's getting replaced": what of it, is said behind.
    fn said_of_the_roof(&self, at: usize, span: Span) -> bool {
        let skipped = |m: &&Mention| !matches!(self.meaning(m), Some(Meaning::Refer(_) | Meaning::Rough | Meaning::Side(..)));
        let before = self.mentions[..at].iter().rev().find(skipped);
        before.is_some_and(|m| self.meaning(m) == Some(Meaning::Roof) && m.end + 8 >= span.first && self.sentence(m.first) == self.sentence(span.first))
    }

    /// "they're getting new siding": the last word of the work opens the name of its object.
    fn new_thing_follows(&self, at: usize, span: Span) -> bool {
        let opens = self.is(span.end - 1, self.grammar.classes.new);
        opens && self.after(at).is_some_and(|m| m.first == span.end && matches!(m.kind, Kind::Thing(_)) && self.tokens.list[m.first].before == Break::None)
    }

    /// A verb without an object speaks of what was listed: "gutter, forty foot, replace".
    fn speaks_of_before(&self, at: usize, span: Span) -> bool {
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before != Break::None);
        ends || self.after(at).is_none_or(|m| m.first > span.end + TO_OBJECT) || self.last().is_some_and(|l| self.open(l))
    }

    /// Binds to the object after the work, at once or when it is heard; false where there is none.
    fn object(&mut self, at: usize, said: &WorkSaid, rule: usize, form: Form) -> bool {
        let Some(next) = self.object_mention(at, said.span) else { return false };
        match &next.kind {
            Kind::Thing(thing) => {
                if self.claimed_before(at, said.span, thing, form) {
                    return false;
                }
                self.pending = Some(Pending::Work { work: said.work, rule, span: said.span });
                true
            }
            Kind::Amount(amount) => {
                let amount = *amount;
                let targets = self.last_group();
                self.amount_for_work(&targets, &amount, said)
            }
            Kind::Cue(_) => {
                let Some(Meaning::Refer(reach)) = self.meaning(next) else { return false };
                let targets = if reach == crate::grammar::Reach::Rest { self.rest_of_last() } else { self.referred(reach) };
                let end = next.end;
                self.bind(&targets, &WorkSaid { span: said.span.join(Span { first: said.span.first, end }), ..said.clone() });
                !targets.is_empty()
            }
        }
    }

    /// The mention that may be the object of a cue: right behind it, in the same breath.
    pub fn object_mention(&self, at: usize, span: Span) -> Option<&'a Mention> {
        let rough = |m: &&Mention| !matches!(self.meaning(m), Some(Meaning::Rough));
        let mentions: &'a [Mention] = self.mentions;
        let next = mentions[at + 1..].iter().find(rough)?;
        let hedged = mentions[at + 1..].first().is_some_and(|m| m.first < next.first);
        let allowed = if hedged { Break::Comma } else { Break::None };
        let close = next.first <= span.end + TO_OBJECT + usize::from(hedged) * 2
            && self.break_between(span.end - 1, next.first) <= allowed
            && !(span.end..next.first).any(|t| self.turns_away(t));
        let object = match &next.kind {
            Kind::Thing(t) => t.behind.is_none() || self.objects_preposition(next.first),
            Kind::Amount(_) => next.first <= span.end + 1,
            Kind::Cue(_) => next.first <= span.end + 2 && matches!(self.meaning(next), Some(Meaning::Refer(_))),
        };
        (close && object).then_some(next)
    }

    /// Words behind which something else is spoken of: "nothing wrong with the pipe but the rain cap".
    fn turns_away(&self, token: usize) -> bool {
        matches!(self.word(token), "but" | "so" | "because" | "and" | "if" | "then" | "when" | "though") || self.is(token, self.grammar.classes.definite)
    }

    /// "detach and reset on both of those", "same for the light".
    fn objects_preposition(&self, first: usize) -> bool {
        first > 0 && matches!(self.word(first - 1), "on" | "for" | "of" | "to" | "with")
    }

    /// "gutter forty foot replace downspout": without a word that opens the next thing, the verb belongs to
    /// the thing before it.
    fn claimed_before(&self, at: usize, span: Span, thing: &Thing, form: Form) -> bool {
        let opened = thing.determiner != Determiner::Bare || thing.amount.is_some() || thing.more || thing.every || thing.new;
        let said = |l: usize| self.entities[l].span.end;
        let waiting = self.last().is_some_and(|l| (self.open(l) && said(l) + 4 >= span.first) || said(l) + 3 >= span.first);
        let pronoun = self.pronoun_before(at, span.first).is_some();
        let starts = self.tokens.list[span.first].before == Break::Sentence;
        !starts && !opened && (pronoun || waiting) && form != Form::Predicate
    }

    /// The things before it that the work falls on.
    fn subjects(&mut self, at: usize, span: Span) -> Vec<usize> {
        let cleared = self.just_cleared.1 + 10 >= span.first && self.just_cleared.0.len() > 1;
        if let Some((reach, _)) = self.pronoun_before(at, span.first) {
            if let Some(passed) = self.passed_by(reach) {
                return vec![passed];
            }
            return if cleared { self.just_cleared.0.clone() } else { self.referred(reach) };
        }
        if cleared {
            return self.just_cleared.0.clone();
        }
        let sentence = self.sentence(span.first);
        let here = self.last().is_some_and(|l| self.sentence(self.entities[l].span.end - 1) == sentence);
        if here {
            let listed: Vec<usize> =
                self.open_run().into_iter().filter(|e| self.sentence(self.entities[*e].span.end - 1) == sentence).collect();
            if self.last().is_some_and(|l| listed.contains(&l)) {
                return self.tied(&listed);
            }
        }
        self.last_group()
    }

    /// "you can't paint behind shutters so those come off": the several things that only told where, if
    /// nothing was named since.
    fn passed_by(&mut self, reach: crate::grammar::Reach) -> Option<usize> {
        let passed = self.passed_many.filter(|_| reach == crate::grammar::Reach::Many)?;
        let mentions = self.mentions;
        let mention = &mentions[passed];
        let latest = self.focus.last().is_none_or(|l| self.entities[*l].span.end <= mention.first && !self.several(*l));
        let Kind::Thing(thing) = &mention.kind else { return None };
        self.passed_many = None;
        (latest && !self.is_landmark(thing)).then(|| self.bring_up(mention, thing)).inspect(|e| self.focus.push(*e))
    }

    fn is_landmark(&self, thing: &Thing) -> bool {
        thing.item.is_some_and(|i| self.grammar.items[usize::from(i)].landmark)
    }

    /// Of the things listed in a sentence, those since the last one that something else was said of.
    fn tied(&self, listed: &[usize]) -> Vec<usize> {
        let group = listed.last().map(|l| self.entities[*l].group);
        let loose = |e: &&usize| Some(self.entities[**e].group) == group;
        listed.iter().filter(loose).copied().collect()
    }

    /// "same", "ditto".
    pub fn same(&mut self, at: usize, rule: usize, span: Span, form: Form) {
        let Some((work, _)) = self.last_work else { return };
        if self.ignoring() || self.is_measured_behind(span.end) || self.said_plainly_behind(at, span.end) || self.likens() {
            return;
        }
        let _ = rule;
        self.work(at, rule, span, Some(work), form);
    }

    /// "same, off and on": the work itself is said right behind.
    fn said_plainly_behind(&self, at: usize, end: usize) -> bool {
        self.after(at).is_some_and(|m| m.first <= end + 1 && matches!(self.meaning(m), Some(Meaning::Work(..))))
    }

    /// "one here and another one just past it, same thing": alike, and nothing is said of work yet.
    fn likens(&self) -> bool {
        let Some(last) = self.last() else { return false };
        let group = self.entities[last].group;
        let alike = |n: usize| n != last && self.entities[n].group == group && self.entities[n].item == self.entities[last].item;
        self.open(last) && (0..self.entities.len()).any(|n| alike(n) && self.open(n))
    }

    /// "same forty six foot": the length is the same, nothing is said of work.
    fn is_measured_behind(&self, end: usize) -> bool {
        self.mentions.iter().any(|m| m.first == end && matches!(m.kind, Kind::Amount(_)))
    }

    /// Notes work on each thing.
    pub fn bind(&mut self, targets: &[usize], said: &WorkSaid) {
        for target in targets {
            self.bind_one(*target, said.clone());
        }
        if targets.is_empty() {
            return;
        }
        self.settle(said);
        self.last_work = Some((said.work, said.span.first));
        self.run = self.entities.len();
    }

    /// A condition under which something was bound is used up.
    fn settle(&mut self, said: &WorkSaid) {
        if let Some(condition) = &mut self.condition {
            condition.used = true;
        }
        if self.might.is_some_and(|m| m <= said.span.first) {
            self.might = None;
        }
    }

    fn bind_one(&mut self, target: usize, mut said: WorkSaid) {
        let corrected = self.corrected(target, said.span.first);
        let entity = &mut self.entities[target];
        said.of = entity.subset;
        entity.weak = false;
        entity.scratched = false;
        entity.cleared = None;
        entity.span = entity.span.join(said.span);
        entity.evidence.push(Evidence { field: "work", rule: said.rule.clone(), span: said.span });
        place_work(&mut entity.works, said, corrected, &mut entity.flags);
    }

    /// Whether the narrator corrected himself since work was last said of a thing.
    fn corrected(&self, target: usize, now: usize) -> bool {
        let Some(last) = self.entities[target].works.last() else { return false };
        last.span.end <= now && (self.correcting.is_some_and(|c| c > last.span.first) || self.takes_back(last.span.end, now))
    }

    /// Whether the words between take back what was said before.
    pub fn takes_back(&self, from: usize, to: usize) -> bool {
        to.saturating_sub(from) <= TAKING_BACK && (from..to).any(|t| self.takes_back_here(t))
    }

    /// "no, two" takes back; "no damage" doesn't.
    fn takes_back_here(&self, token: usize) -> bool {
        match self.word(token) {
            "no" | "nope" => {
                let next = self.tokens.list.get(token + 1);
                next.is_some_and(|t| t.before >= Break::Comma) || matches!(self.word(token + 1), "it" | "that" | "they" | "there" | "wait" | "hold" | "i" | "this" | "we")
                    || next.is_some_and(|t| self.grammar.numbers.get(t.word).is_some())
            }
            word => TAKES_BACK.contains(&word),
        }
    }
}

/// Words that take back what was just said, between two values of the same field.
const TAKES_BACK: &[&str] = &["wait", "sorry", "actually", "scratch", "correction", "mean"];

/// How far apart two values of a field may stand for the second to take the first's place, in tokens.
const TAKING_BACK: usize = 18;

/// Work said in plain words.
pub(super) const FIRM: u8 = 2;

/// Adds work to those said already: again, instead, or as well.
fn place_work(works: &mut Vec<WorkSaid>, said: WorkSaid, corrected: bool, flags: &mut std::collections::BTreeSet<Flag>) {
    if let Some(known) = works.iter_mut().find(|w| w.work == said.work) {
        known.only_if &= said.only_if;
        known.firmness = known.firmness.max(said.firmness);
        return;
    }
    if corrected {
        works.pop();
        flags.insert(Flag::ChangedMind);
        works.push(said);
        return;
    }
    if works.iter().any(|w| w.firmness > said.firmness) && said.firmness < FIRM {
        return;
    }
    works.retain(|w| w.firmness == FIRM);
    if let Some(known) = works.iter_mut().find(|w| excludes(w.work, said.work)) {
        if !said.only_if {
            flags.insert(Flag::ChangedMind);
            *known = said;
        }
        return;
    }
    works.push(said);
}

/// Work that one thing can't have twice over: it is either put back or renewed.
fn excludes(a: Work, b: Work) -> bool {
    let whole = |w| matches!(w, Work::DetachReset | Work::RemoveReplace | Work::Remove | Work::Install);
    whole(a) && whole(b)
}
