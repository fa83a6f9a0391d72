//! What was said of work and of lengths and came to no line: nothing said is lost.

use super::account::{Span, Unused};
use super::tracker::Tracker;
use crate::language::mentions::{Kind, Mention};
use crate::language::rules::Meaning;
use crate::language::tokens::Break;
use crate::model::Unit;

/// Words this near one another, in tokens, are told as one.
const TOGETHER: usize = 8;

impl Tracker<'_> {
    /// Notes work or a length, to see later whether it came to anything.
    pub(super) fn note_heard(&mut self, at: usize) {
        let mention = &self.mentions[at];
        let tells = match &mention.kind {
            Kind::Amount(amount) => amount.unit.is_some_and(|u| u != Unit::Inch) && amount.by.is_none(),
            Kind::Cue(_) => {
                matches!(self.meaning(mention), Some(Meaning::Work(..) | Meaning::Off(_)))
                    && !self.only_describes(mention)
            }
            Kind::Thing(_) | Kind::Slope(_) => false,
        };
        if tells && !self.ignoring() && self.recap.is_none() && !self.negated_work(mention.first) {
            self.heard.push((at, self.places.here.clone()));
        }
    }

    /// "painted", "new": in one word it may only tell what a thing is like.
    fn only_describes(&self, mention: &Mention) -> bool {
        let c = &self.grammar.classes;
        self.is(mention.first, c.participle) || self.is(mention.first, c.new)
    }

    /// The words of work and lengths that no line, no follow-up and no measured face holds.
    pub(super) fn unused(&self) -> Vec<Unused> {
        let mut held = vec![false; self.tokens.list.len()];
        let entities = self.entities.iter().filter(|e| !e.weak); // what is no line holds nothing
        let told = entities.flat_map(|e| {
            let works = e.works.iter().map(|w| w.span);
            e.evidence.iter().map(|v| v.span).chain(works).chain([e.span])
        });
        let beside = self.follow_ups.iter().map(|t| t.span).chain(self.dimensions.iter().map(|f| f.span));
        let cleared = self.cleared.iter().map(|c| c.span);
        for span in told.chain(beside).chain(cleared) {
            held[span.first..span.end].fill(true);
        }
        let free = |m: &Mention| !held[m.first..m.end].contains(&true);
        let mut all: Vec<Unused> = Vec::new();
        for (at, place) in &self.heard {
            let mention = &self.mentions[*at];
            if !free(mention) {
                continue;
            }
            let span = self.in_its_clause(mention, &held);
            match all.last_mut() {
                Some(last)
                    if last.span.end + TOGETHER >= span.first
                        && self.sentence(last.span.first) == self.sentence(span.first) =>
                {
                    last.span = last.span.join(span);
                }
                _ => all.push(Unused { span, place: place.clone() }),
            }
        }
        all
    }

    /// The words with those around them that nothing holds, as far as the clause goes.
    fn in_its_clause(&self, mention: &Mention, held: &[bool]) -> Span {
        let list = &self.tokens.list;
        let mut span = Span { first: mention.first, end: mention.end };
        while span.first > 0
            && mention.first - span.first < TOGETHER
            && list[span.first].before == Break::None
            && !held[span.first - 1]
        {
            span.first -= 1;
        }
        while span.end < list.len()
            && span.end - mention.end < TOGETHER
            && list[span.end].before == Break::None
            && !held[span.end]
        {
            span.end += 1;
        }
        span
    }
}
