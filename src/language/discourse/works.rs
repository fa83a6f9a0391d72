//! Work, and what it falls on: the thing after it ("replace the gutter"), or the things before it ("gutter,
//! forty foot, replace"; "all of that comes off and goes back on").

use super::account::{Origin, Span};
use super::entity::WorkHeard;
use super::tracker::{Pending, Tracker};
use crate::language::mentions::{Kind, Mention};
use crate::language::rules::{Form, Meaning};
use crate::language::tokens::Break;
use crate::model::Work;

/// How far behind a verdict "same" may take it up, in tokens.
const VERDICT_REACH: usize = 20;

impl<'a> Tracker<'a> {
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
        let soft = work.is_none() || self.grammar.rules[rule].soft;
        let said = WorkHeard {
            work: work.unwrap_or(Work::DetachReset),
            only_if: self.conditional(),
            firmness: if work.is_none() { 0 } else { u8::from(!soft) + 1 },
            announced: self.question.is_some(),
            origin: Origin::Rule(rule),
            span,
            of: None,
        };
        if self.announces(at, &said) {
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

    /// "Felt, thirty square. Starter, a hundred and eighty. All new.": a sentence of its own.
    fn is_of_all(&self, span: Span) -> bool {
        let c = &self.grammar.classes;
        let every = |t: usize| self.is(t, c.every) && self.word(t) != "both" || self.word(t) == "everything";
        let all = span.first.checked_sub(1).filter(|t| every(*t));
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before == Break::Sentence);
        ends && all.is_some_and(|t| self.tokens.list[t].before == Break::Sentence)
    }

    /// "if there's no house wrap under there, install four square of that": what isn't there is put on.
    fn bring_up_negated(&mut self, span: Span) {
        let Some((item, _, said)) = self.negated.clone().filter(|n| n.2.end + 8 >= span.first) else {
            return;
        };
        self.negated = None;
        let name = (said.end - 1, said.end);
        let head = self.tokens.list[said.end - 1].word;
        let thing = crate::language::mentions::Thing { item: Some(item), name, head, ..Default::default() };
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
        before.is_some_and(|m| {
            self.meaning(m) == Some(Meaning::Roof)
                && !self.places_a_thing(m)
                && m.end + 8 >= span.first
                && self.sentence(m.first) == self.sentence(span.first)
        })
    }

    /// "the dish on the roof, take it down", "shingles, whole roof, replace": the roof only tells where a thing is.
    fn places_a_thing(&self, roof: &Mention) -> bool {
        let Some(named) = self.mentions_before(roof.first).last() else { return false };
        let Kind::Thing(thing) = &named.kind else { return false };
        let apart = self.break_between(named.end - 1, roof.first);
        let on_roof = || {
            thing
                .item
                .is_some_and(|item| self.grammar.items[usize::from(item)].area == crate::model::Area::Roof)
        };
        let by_word = roof.first == named.end + 1 && self.is(named.end, self.grammar.classes.preposition);
        let right_behind = roof.first == named.end;
        apart == Break::None && (right_behind || by_word)
            || apart == Break::Comma && right_behind && on_roof()
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
}
