//! Work that is announced for a list: "next group, detach and reset", "detach and reset: a light, a doorbell".

use super::account::Span;
use super::entity::WorkHeard;
use super::tracker::Tracker;
use crate::language::mentions::{Kind, Mention};
use crate::language::rules::Meaning;
use crate::language::tokens::Break;

/// Work said of a list that follows.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Heading {
    pub said: WorkHeard,
    /// "everything I call out": other work in between doesn't end it.
    lasts: bool,
    /// Said in one sentence with its list: "detach and reset: a light, a doorbell".
    one_sentence: bool,
}

impl Tracker<'_> {
    /// Keeps work that is only announced for what is listed behind it.
    pub(super) fn announces(&mut self, at: usize, said: &WorkHeard) -> bool {
        let (lasts, one_sentence, firmness) = match self.announces_a_list(said.span) {
            Some(lasts) => (lasts, false, 0),
            None if self.opens_a_list(at, said.span) => (false, true, said.firmness),
            None => return false,
        };
        let said = WorkHeard { firmness, announced: true, ..said.clone() };
        self.heading = Some(Heading { said, lasts, one_sentence });
        true
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
            Kind::Cue(_) | Kind::Slope(_) => false,
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
}
