//! What work falls on: the thing right after it, or those said before it.

use super::account::Span;
use super::entity::WorkHeard;
use super::tracker::{Pending, Tracker};
use crate::language::mentions::{Determiner, Kind, Mention, Thing};
use crate::language::rules::{Form, Meaning, Reach};
use crate::language::tokens::Break;

/// How many words may stand between work and its object: "replace, just replace, the".
const TO_OBJECT: usize = 3;

impl<'a> Tracker<'a> {
    /// Binds to the object after the work, at once or when it is heard; false where there is none.
    pub(super) fn object(&mut self, at: usize, said: &WorkHeard, rule: usize, form: Form) -> bool {
        if self.ends_in_pronoun(said.span) {
            return false;
        }
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
                if self.points_at_the_whole_list(&amount) {
                    let listed = self.open_run();
                    self.bind(&listed, said);
                    return true;
                }
                let targets = self.last_group();
                self.amount_for_work(&targets, &amount, said)
            }
            Kind::Cue(_) => {
                let Some(Meaning::Refer(reach)) = self.meaning(next) else { return false };
                let end = next.end;
                self.note_object(reach, Span { first: next.first, end });
                let targets = if reach == Reach::Rest { self.rest_of_last() } else { self.referred(reach) };
                self.count_both(&targets, reach);
                self.bind(
                    &targets,
                    &WorkHeard { span: said.span.join(Span { first: said.span.first, end }), ..said.clone() },
                );
                !targets.is_empty()
            }
            Kind::Slope(_) => false,
        }
    }

    /// "stain it | there's a grill": the object is in the cue.
    fn ends_in_pronoun(&self, span: Span) -> bool {
        let last = span.end - 1;
        let inside = (span.first + 1..last).any(|t| matches!(self.word(t), "it" | "them" | "that" | "those"));
        let ends = last > span.first
            && matches!(self.word(last), "it" | "them")
            && !matches!(self.word(span.end), "the" | "that" | "this" | "those" | "these");
        inside || ends
    }

    /// "comb both of them": there are two of what counts as one.
    fn count_both(&mut self, targets: &[usize], reach: Reach) {
        let [target] = targets else { return };
        if reach == Reach::Both
            && let Some(q) = self.entities[*target].quantity.as_mut().filter(|q| q.implied)
        {
            (q.low, q.high) = (2.into(), 2.into());
        }
    }

    /// The mention that may be the object of a cue: right behind it, in the same breath.
    pub(super) fn object_mention(&self, at: usize, span: Span) -> Option<&'a Mention> {
        let list = self.word(span.end) == "the" && self.word(span.end + 1) == "following";
        if list {
            let next = self.after(at)?;
            let same =
                self.sentence(next.first) == self.sentence(span.first) && matches!(next.kind, Kind::Thing(_));
            return same.then_some(next);
        }
        let rough = |m: &&Mention| !matches!(self.meaning(m), Some(Meaning::Rough));
        let mentions: &'a [Mention] = self.mentions;
        let next = mentions[at + 1..].iter().find(rough)?;
        let hedged = mentions[at + 1..].first().is_some_and(|m| m.first < next.first);
        let allowed = if hedged { Break::Comma } else { Break::None };
        let bare = |m: &Mention| matches!(m.kind, Kind::Amount(a) if a.unit.is_none()); // replace the thirty
        let close = next.first <= span.end + TO_OBJECT + usize::from(hedged) * 2
            && self.break_between(span.end - 1, next.first) <= allowed
            && !(span.end..next.first).any(|t| self.turns_away(t) && !(self.word(t) == "the" && bare(next)));
        let other = matches!(next.kind, Kind::Amount(_))
            && next.first == span.end + 2
            && self.is(next.first - 1, self.grammar.classes.more); // paint the other fifty foot
        let close = close || other && self.break_between(span.end - 1, next.first) == Break::None;
        let object = match &next.kind {
            Kind::Thing(t) => t.behind.is_none() || self.objects_preposition(next.first),
            Kind::Amount(_) => other || next.first <= span.end + 1,
            Kind::Cue(_) => {
                next.first <= span.end + 2 && matches!(self.meaning(next), Some(Meaning::Refer(_)))
            }
            Kind::Slope(_) => false,
        };
        (close && object).then_some(next)
    }

    /// Words behind which something else is spoken of: "nothing wrong with the pipe but the rain cap".
    fn turns_away(&self, token: usize) -> bool {
        matches!(self.word(token), "but" | "so" | "because" | "and" | "if" | "then" | "when" | "though")
            || self.is(token, self.grammar.classes.definite)
    }

    /// "detach and reset on both of those", "same for the light".
    fn objects_preposition(&self, first: usize) -> bool {
        first > 0 && matches!(self.word(first - 1), "on" | "for" | "of" | "to" | "with")
    }

    /// "gutter forty foot replace downspout": without a word that opens the next thing, the verb belongs to
    /// the thing before it.
    fn claimed_before(&self, at: usize, span: Span, thing: &Thing, form: Form) -> bool {
        let opened = thing.determiner != Determiner::Bare
            || thing.amount.is_some()
            || thing.more
            || thing.every
            || thing.new;
        let said = |l: usize| self.entities[l].span.end;
        let waiting = self.last().is_some_and(|l| {
            (self.open(l) && said(l) + if self.unmarked(span.first) { 8 } else { 4 } >= span.first)
                || said(l) + 3 >= span.first
        });
        let pronoun = self.pronoun_before(at, span.first).is_some();
        let starts = self.tokens.list[span.first].before == Break::Sentence;
        !starts && !opened && (pronoun || waiting) && form != Form::Predicate
    }

    /// A verb without an object speaks of what was listed: "gutter, forty foot, replace".
    pub(super) fn speaks_of_before(&self, at: usize, span: Span) -> bool {
        let ends = self.tokens.list.get(span.end).is_none_or(|t| t.before != Break::None);
        ends || self.after(at).is_none_or(|m| m.first > span.end + TO_OBJECT)
            || self.last().is_some_and(|l| self.open(l))
    }

    /// The things before it that the work falls on.
    pub(super) fn subjects(&mut self, at: usize, span: Span) -> Vec<usize> {
        let cleared = self.just_cleared.1 + 10 >= span.first
            && self.just_cleared.0.len() > 1
            && self.last().is_some_and(|l| self.just_cleared.0.contains(&l));
        if let Some((reach, pronoun)) = self.pronoun_before(at, span.first) {
            if reach == Reach::OneOf {
                self.single_out(Span { first: pronoun.first, end: pronoun.end });
            }
            if let Some(passed) = self.passed_by(reach) {
                return vec![passed];
            }
            return if cleared { self.just_cleared.0.clone() } else { self.referred(reach) };
        }
        if cleared {
            return self.just_cleared.0.clone();
        }
        if let Some(listed) = self.all_counted(at, span) {
            return listed;
        }
        let sentence = self.sentence(span.first);
        let here = self.last().is_some_and(|l| self.sentence(self.entities[l].span.end - 1) == sentence);
        if here {
            let listed: Vec<usize> = self
                .open_run()
                .into_iter()
                .filter(|e| self.sentence(self.entities[*e].span.end - 1) == sentence)
                .collect();
            if let Some(last) = self.last().filter(|l| listed.contains(l)) {
                return self.tied(&listed, last);
            }
        }
        self.last_group()
    }

    /// "a light, a doorbell and the numbers, so all three of those come off": as many as were listed.
    fn all_counted(&self, at: usize, span: Span) -> Option<Vec<usize>> {
        let before = at.checked_sub(1).map(|b| &self.mentions[b]).filter(|m| m.end + 2 >= span.first)?;
        let Kind::Amount(amount) = &before.kind else { return None };
        let word = before.first.checked_sub(1).map_or("", |t| self.word(t));
        let every = before.first > 0 && self.is(before.first - 1, self.grammar.classes.every)
            || matches!(word, "those" | "these" | "them");
        let run = self.open_run();
        let number = crate::language::numbers::Exact::from_integer(run.len() as i64);
        // A name among them may not have been known.
        let single = |e: &usize| self.entities[*e].quantity.is_some_and(|q| q.implied);
        let listed = amount.low == number || amount.low > number && run.iter().all(single);
        (every && amount.unit.is_none() && run.len() > 1 && listed).then_some(run)
    }

    /// "you can't paint behind shutters so those come off": the several things that only told where, if
    /// nothing was named since.
    fn passed_by(&mut self, reach: Reach) -> Option<usize> {
        let passed = self.passed_many.filter(|_| reach == Reach::Many)?;
        let mentions = self.mentions;
        let mention = &mentions[passed];
        let latest = self
            .focus
            .last()
            .is_none_or(|l| self.entities[*l].span.end <= mention.first && !self.several(*l));
        let Kind::Thing(thing) = &mention.kind else { return None };
        self.passed_many = None;
        (latest && !self.is_landmark(thing))
            .then(|| self.bring_up(mention, thing))
            .inspect(|e| self.focus.push(*e))
    }

    fn is_landmark(&self, thing: &Thing) -> bool {
        thing.item.is_some_and(|i| self.grammar.items[usize::from(i)].landmark)
    }

    /// Of the things listed in a sentence, those named in one breath with the last one spoken of.
    fn tied(&self, listed: &[usize], last: usize) -> Vec<usize> {
        let loose = |e: &&usize| self.entities[**e].group == self.entities[last].group;
        listed.iter().filter(loose).copied().collect()
    }
}
