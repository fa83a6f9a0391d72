//! Work, and what it falls on: the thing after it ("replace the gutter"), or the things before it ("gutter,
//! forty foot, replace"; "all of that comes off and goes back on").

use super::account::{Evidence, Span, WorkSaid};
use super::listener::{Listener, Pending};
use crate::draft::{Flag, Work};
use crate::grammar::{Form, Meaning};
use crate::mentions::{Kind, Mention};
use crate::numbers::Exact;
use crate::tokens::Break;

/// Work said of a list that follows.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Heading {
    pub said: WorkSaid,
    /// "everything I call out": other work in between doesn't end it.
    lasts: bool,
    /// Said in one sentence with its list: "detach and reset: a light, a doorbell".
    one_sentence: bool,
}

impl<'a> Listener<'a> {
    /// Work is said; `None`: only that it comes off.
    pub(super) fn work(&mut self, at: usize, rule: usize, span: Span, work: Option<Work>, form: Form) {
        if self.beside.is_some() {
            self.beside = None;
            return;
        }
        if self.aside.is_some() || self.recap.is_some_and(|r| r.used) {
            return;
        }
        let form = if self.commands(at, span) { Form::Either } else { form };
        if self.negated_work(span.first) {
            return self.take_back_work(work, span);
        }
        let c = &self.grammar.classes;
        let participle = span.end == span.first + 1 && self.is(span.first, c.participle);
        if (participle || self.is(span.first, c.new)) && !self.stands_behind_thing(at, span) {
            return;
        }
        if work == Some(Work::Install) {
            self.bring_up_negated(span);
        }
        let work = match work {
            Some(Work::RemoveReplace)
                if self.lacking.is_some_and(|l| self.sentence(l - 1) == self.sentence(span.first)) =>
            {
                Some(Work::Install)
            }
            other => other,
        };
        let soft = work.is_none() || self.grammar.rules[rule].name.starts_with("soft-");
        let said = WorkSaid {
            work: work.unwrap_or(Work::DetachReset),
            only_if: self.conditional(),
            firmness: if work.is_none() { 0 } else { u8::from(!soft) + 1 },
            announced: self.question.is_some(),
            rule: self.grammar.rules[rule].name.clone(),
            span,
            of: None,
        };
        if let Some(lasts) = self.announces_a_list(span) {
            self.heading = Some(Heading {
                said: WorkSaid { firmness: 0, announced: true, ..said },
                lasts,
                one_sentence: false,
            });
            return;
        }
        if self.opens_a_list(at, span) {
            let said = WorkSaid { announced: true, ..said };
            self.heading = Some(Heading { said, lasts: false, one_sentence: true });
            return;
        }
        if self.new_thing_follows(at, span) || self.thing_inside(at, span) {
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
        let targets = if self.is_of_all(span) { self.open_run() } else { self.subjects(at, span) };
        self.bind(&targets, &said);
    }

    /// "Take down and put back up two lights": it opens a sentence, and a thing follows at once.
    fn commands(&self, at: usize, span: Span) -> bool {
        let opens = self.tokens.list[span.first].before == Break::Sentence;
        let next = self.after(at).filter(|m| m.first == span.end && matches!(m.kind, Kind::Thing(_)));
        opens && next.is_some_and(|m| self.tokens.list[m.first].before == Break::None)
    }

    /// "Next group, detach and reset.", "Detach and reset on this wall as follows.": nothing is named in the sentence.
    /// Then tells whether it lasts though other work is said in between.
    fn announces_a_list(&self, span: Span) -> Option<bool> {
        let sentence = self.sentence(span.first);
        let inside = |t: &usize| self.sentence(*t) == sentence;
        let first = (0..span.first).rev().take_while(inside).last().unwrap_or(span.first);
        let end = (span.first..self.tokens.list.len()).take_while(inside).last().map_or(span.end, |t| t + 1);
        let list_word = |t: usize| self.is(t, self.grammar.classes.list_word);
        let names_nothing = |first: usize, end: usize| {
            self.mentions_in(first, end).iter().all(|m| matches!(m.kind, Kind::Cue(_)))
        };
        // "Stuff that has to come off and go back on is the two lights, the doorbell and the mailbox."
        let subject = (first..span.first)
            .any(|t| list_word(t) && matches!(self.word(t + 1), "that" | "which" | "to"))
            && names_nothing(first, span.first)
            && !names_nothing(span.end, end);
        // "So everything I call out up here is getting replaced."
        let announced = (first..span.first).any(|t| {
            matches!(self.word(t), "everything" | "anything") && matches!(self.word(t + 1), "i" | "we")
        }) && names_nothing(first, end)
            && (self.run..self.entities.len()).all(|e| !self.open(e));
        let list = subject || (first..end).any(list_word) && names_nothing(first, end);
        (announced || list).then_some(announced)
    }

    /// "Felt, thirty square. Starter, a hundred and eighty. All new.": a sentence of its own.
    fn is_of_all(&self, span: Span) -> bool {
        let c = &self.grammar.classes;
        let every = |t: usize| self.is(t, c.every) && !self.is_word_of_two(t) || self.word(t) == "everything";
        let all = span.first.checked_sub(1).filter(|t| every(*t));
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before == Break::Sentence);
        ends && all.is_some_and(|t| self.tokens.list[t].before == Break::Sentence)
    }

    fn is_word_of_two(&self, token: usize) -> bool {
        self.word(token) == "both"
    }

    /// "Detach and reset: a light, a doorbell.": nothing waits for it, and things follow behind a mark.
    fn opens_a_list(&self, at: usize, span: Span) -> bool {
        let sentence = self.sentence(span.first);
        let waiting = (self.run..self.entities.len()).any(|e| self.open(e));
        let said_before = self.mentions_before(span.first).iter().any(|m| {
            self.sentence(m.first) == sentence
                && (matches!(m.kind, Kind::Thing(_) | Kind::Amount(_))
                    || matches!(
                        self.meaning(m),
                        Some(Meaning::Refer(_) | Meaning::Work(..) | Meaning::Off(_))
                    ))
        });
        let next = self.after(at).filter(|m| {
            m.first == span.end
                && self.tokens.list[m.first].before == Break::Comma
                && sentence == self.sentence(m.first)
        });
        // "full replacement, thirty two square, shingles"
        let measured = self
            .mentions
            .get(at + 2)
            .is_some_and(|m| matches!(m.kind, Kind::Thing(_)) && self.sentence(m.first) == sentence);
        let listed = next.is_some_and(|m| match m.kind {
            Kind::Thing(_) => true,
            Kind::Amount(amount) => measured && amount.end == self.mentions[at + 2].first,
            Kind::Cue(_) => false,
        });
        listed && !waiting && !said_before && !self.unmarked(span.first)
    }

    /// The work of the list that a thing stands in, where none is said of the thing itself.
    pub(super) fn take_heading(&mut self, entity: usize, mention: &Mention) {
        let Some(Heading { said, lasts, one_sentence }) = self.heading.clone().filter(|_| self.open(entity))
        else {
            return;
        };
        let own = self.sentence(said.span.first);
        let ended = (said.span.end..mention.first)
            .any(|t| self.sentence(t) != own && self.is(t, self.grammar.classes.list_word));
        let other = self.last_work.is_some_and(|(work, at)| at > said.span.first && work != said.work);
        let over = one_sentence && own != self.sentence(mention.first);
        if ended || over || other && !lasts {
            self.heading = None;
            return;
        }
        let before = self.last_work;
        self.bind(&[entity], &said);
        self.last_work = before;
    }

    /// "if there's no house wrap under there, install four square of that": what isn't there is put on.
    fn bring_up_negated(&mut self, span: Span) {
        let Some((item, _, said)) = self.negated.clone().filter(|n| n.2.end + 8 >= span.first) else {
            return;
        };
        self.negated = None;
        let name = (said.end - 1, said.end);
        let head = self.tokens.list[said.end - 1].word;
        let thing = crate::mentions::Thing { item: Some(item), name, head, ..Default::default() };
        let mention =
            Mention { first: said.first, end: said.end, kind: Kind::Thing(Box::new(thing.clone())) };
        let entity = self.bring_up(&mention, &thing);
        self.focus.push(entity);
    }

    /// "eighteen foot of downspout new": the word ends what is said of the thing right before it.
    fn stands_behind_thing(&self, at: usize, span: Span) -> bool {
        let before = at.checked_sub(1).map(|b| &self.mentions[b]);
        let also = usize::from(span.first > 0 && matches!(self.word(span.first - 1), "also" | "too" | "all"));
        let thing = before.is_some_and(|m| m.end + also == span.first && !matches!(m.kind, Kind::Cue(_)));
        let c = &self.grammar.classes;
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before != Break::None);
        // "it's new" is work; "it's painted" tells how it is.
        let told = span.first > 0 && self.is(span.first - 1, c.be) && self.is(span.first, c.new);
        let goes = (span.first + 1..span.end).any(|t| matches!(self.word(t), "goes" | "go" | "going"));
        if goes {
            return true; // new goes up there too
        }
        let ones = span.end > span.first + 1 && matches!(self.word(span.end - 1), "one" | "ones");
        // "gutter, painted, thirty foot" only tells what it is like.
        let describes = matches!(self.word(span.first), "painted" | "stained" | "washed");
        let apart = self.tokens.list[span.first].before != Break::None && ends && !describes;
        let of_all = span.first > 0
            && (self.is(span.first - 1, c.every)
                || self.is(span.first - 1, c.pronoun)
                || self.word(span.first - 1) == "everything");
        let opens = self.mentions_in(span.end, span.end + 1).iter().any(|m| !matches!(m.kind, Kind::Cue(_)));
        told || apart
            || of_all
            || thing
                && !(describes && self.tokens.list[span.first].before != Break::None)
                && (ones
                    || (self.unmarked(span.first) && !opens)
                    || ends
                    || self.is(span.end, c.joins)
                    || self.is(span.end, c.function))
    }

    /// "the whole roof's getting replaced": what of it, is said behind.
    fn said_of_the_roof(&self, at: usize, span: Span) -> bool {
        let skipped = |m: &&Mention| {
            !matches!(self.meaning(m), Some(Meaning::Refer(_) | Meaning::Rough | Meaning::Side(..)))
        };
        let before = self.mentions[..at].iter().rev().find(skipped);
        // "the dish on the roof, take it down"
        let places = |m: &Mention| {
            self.mentions_before(m.first).last().is_some_and(|thing| {
                thing.end == m.first
                    && matches!(thing.kind, Kind::Thing(_))
                    && self.tokens.list[m.first].before == Break::None
            })
        };
        before.is_some_and(|m| {
            self.meaning(m) == Some(Meaning::Roof)
                && !places(m)
                && m.end + 8 >= span.first
                && self.sentence(m.first) == self.sentence(span.first)
        })
    }

    /// "take the doorbell off and put it back on": the object stands in the middle of the work.
    pub(super) fn thing_inside(&self, at: usize, span: Span) -> bool {
        let inside = self.mentions[at + 1..].iter().take_while(|m| m.first < span.end);
        inside.into_iter().any(|m| matches!(&m.kind, Kind::Thing(t) if t.behind.is_none()))
    }

    /// "they're getting new siding": the last word of the work opens the name of its object.
    fn new_thing_follows(&self, at: usize, span: Span) -> bool {
        let opens = self.is(span.end - 1, self.grammar.classes.new);
        opens
            && self.after(at).is_some_and(|m| {
                m.first == span.end
                    && matches!(m.kind, Kind::Thing(_))
                    && !(self.is(m.end, self.grammar.classes.be)
                        && self.pronoun_before(at, span.first).is_some())
                    && self.tokens.list[m.first].before == Break::None
            })
    }

    /// "same", "ditto".
    pub(super) fn same(&mut self, at: usize, rule: usize, span: Span, form: Form) {
        if self.same_verdict(at, span) {
            return;
        }
        let Some((work, _)) = self.last_work else { return };
        let placed = at.checked_sub(1).is_some_and(|b| {
            let before = &self.mentions[b];
            before.end + 2 >= span.first
                && matches!(
                    self.meaning(before),
                    Some(Meaning::Side(_) | Meaning::Structure | Meaning::Compass(_))
                )
        });
        if placed && self.arrived.0 == self.entities.len() {
            return; // left side of the garage, same thing, twenty two foot of gutter
        }
        if self.ignoring()
            || self.is_measured_behind(span.end)
            || self.said_plainly_behind(at, span.end)
            || self.likens()
            || self.only_adds(at, span)
        {
            return;
        }
        self.work(at, rule, span, Some(work), form);
    }

    /// "nobody needs to touch that meter, and this camera, same thing": nothing is to be done with it either.
    fn same_verdict(&mut self, at: usize, span: Span) -> bool {
        let latest = self.last_work.is_none_or(|(_, at)| at < self.just_cleared.1);
        let near = self.just_cleared.1 > 0 && self.just_cleared.1 + VERDICT_REACH >= span.first;
        let Some(last) = self.last().filter(|l| latest && near && self.open(*l)) else { return false };
        let first = self.entities[last].name.first;
        let next = self.entities[last].span.end + 8 >= span.first && first >= self.just_cleared.1;
        if next && !self.said_plainly_behind(at, span.end) && !self.is_measured_behind(span.end) {
            self.clear_one(last, span);
            return true;
        }
        false
    }

    /// "same, off and on": the work itself is said right behind.
    fn said_plainly_behind(&self, at: usize, end: usize) -> bool {
        self.after(at)
            .filter(|m| self.sentence(m.first) == self.sentence(end.saturating_sub(1)))
            .is_some_and(|m| m.first <= end + 1 && matches!(self.meaning(m), Some(Meaning::Work(..))))
    }

    /// "too" takes the work over only right behind a thing, at the end: "the gate too."
    fn only_adds(&self, at: usize, span: Span) -> bool {
        let adds = matches!(self.word(span.first), "too" | "as" | "also");
        let behind = at.checked_sub(1).is_some_and(|b| {
            self.mentions[b].end == span.first && matches!(self.mentions[b].kind, Kind::Thing(_))
        });
        let ends = self
            .tokens
            .list
            .get(span.end)
            .is_none_or(|t| t.before == Break::Sentence || t.before == Break::Comma && t.doubt.is_some());
        adds && !(behind && ends)
    }

    /// "one here and another one just past it, same thing": alike, and nothing is said of work yet.
    fn likens(&self) -> bool {
        let Some(last) = self.last() else { return false };
        let group = self.entities[last].group;
        let alike = |n: usize| {
            n != last && self.entities[n].group == group && self.entities[n].item == self.entities[last].item
        };
        self.open(last) && self.lately(last).any(|n| alike(n) && self.open(n))
    }

    /// "same forty six foot": the length is the same, nothing is said of work.
    fn is_measured_behind(&self, end: usize) -> bool {
        self.tokens.list.get(end).is_some_and(|t| t.before == Break::None)
            && self.mentions_in(end, end + 1).iter().any(|m| matches!(m.kind, Kind::Amount(_)))
    }

    /// "One tree limb, haul it off": a noun that wasn't understood opens the sentence.
    fn names_something_else(&self, work: Span) -> bool {
        let c = &self.grammar.classes;
        let sentence = self.sentence(work.first);
        let from = (0..work.first).rev().take_while(|t| self.sentence(*t) == sentence).last();
        let counted = |t: usize| {
            self.is(t, c.indefinite) || self.grammar.numbers.get(self.tokens.list[t].word).is_some()
        };
        from.is_some_and(|f| f < work.first && counted(f) && self.is_plain(f + 1))
    }

    /// Notes work on each thing.
    pub(super) fn bind(&mut self, targets: &[usize], said: &WorkSaid) {
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
        let single = self.singled_out(target, &said);
        let by_it = (said.span.first..said.span.end).any(|t| self.word(t) == "it");
        let of_another = by_it
            && self.several(target)
            && single.is_none()
            && self.entities[target].works.iter().any(|w| w.work != said.work)
            && self.sentence(self.entities[target].name.first) != self.sentence(said.span.first)
            && self.names_something_else(said.span);
        let entity = &mut self.entities[target];
        if of_another {
            entity.flags.insert(Flag::ChangedMind); // "it" may be something that was not understood
        }
        said.of = single.or(entity.subset);
        let whole = entity.quantity.map(|q| q.low);
        let evidence = Evidence { field: "work", rule: said.rule.clone(), span: said.span };
        if place_work(&mut entity.works, said, corrected, &mut entity.flags, whole) {
            entity.weak = false;
            entity.scratched = false;
            entity.cleared = None;
            entity.span = entity.span.join(evidence.span);
            entity.evidence.push(evidence);
        }
    }
}

/// Two works of one thing said this near, in tokens, are said in one breath: "comes off, and new goes on".
const SAME_BREATH: usize = 6;

/// How far behind a verdict "same" may take it up, in tokens.
const VERDICT_REACH: usize = 20;

/// Work said in plain words.
pub(super) const FIRM: u8 = 2;

/// Adds work to those said already: again, instead, or as well. False where what was said already holds against it.
fn place_work(
    works: &mut Vec<WorkSaid>,
    said: WorkSaid,
    corrected: bool,
    flags: &mut std::collections::BTreeSet<Flag>,
    whole: Option<Exact>,
) -> bool {
    works.retain(|w| !w.announced || said.announced || w.work == said.work);
    // "two get reset, one gets replaced": each work of its own number.
    let parts: Option<Exact> = works.iter().chain([&said]).map(|w| w.of).sum();
    if !works.is_empty() && parts.zip(whole).is_some_and(|(parts, whole)| parts <= whole) {
        works.push(said);
        return true;
    }
    if let Some(known) = works.iter_mut().find(|w| w.work == said.work) {
        known.announced &= said.announced;
        known.only_if &= said.only_if;
        known.firmness = known.firmness.max(said.firmness);
        return true;
    }
    if corrected {
        works.pop();
        flags.insert(Flag::ChangedMind);
        works.push(said);
        return true;
    }
    if works.iter().any(|w| w.firmness > said.firmness) && said.firmness < FIRM {
        return false;
    }
    let far = |w: &WorkSaid| w.span.end + SAME_BREATH < said.span.first;
    if works.iter().any(|w| w.firmness < FIRM && far(w) && w.work != said.work) {
        flags.insert(Flag::ChangedMind); // it may be said of something else
    }
    works.retain(|w| w.firmness == FIRM || w.firmness > 0 && !excludes(w.work, said.work));
    if let Some(known) = works.iter_mut().find(|w| excludes(w.work, said.work)) {
        if !said.only_if {
            flags.insert(Flag::ChangedMind);
            *known = said;
            return true;
        }
        return false;
    }
    works.push(said);
    true
}

/// Work that one thing can't have twice over: it is either put back or renewed.
fn excludes(a: Work, b: Work) -> bool {
    let whole = |w| matches!(w, Work::DetachReset | Work::RemoveReplace | Work::Remove | Work::Install);
    whole(a) && whole(b)
}
