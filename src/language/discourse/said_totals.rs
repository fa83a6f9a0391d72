//! Sums that were said in so many words: "eighty foot of gutter in all". What becomes of the number is decided where it is
//! heard; here they are only noted, so that the lines can be held against them. They make no line and change none.

use super::account::{Span, TotalSaid};
use super::tracker::Tracker;
use crate::language::mentions::{Kind, Mention};
use crate::language::numbers::Amount;
use crate::language::rules::Meaning;

/// How near a sum stands behind its cue, in tokens: "that makes six lights".
const REACH: usize = 4;

/// How far a read-back goes on, in tokens: "totals again: gutter eighty, siding five and a half".
const READ_BACK: usize = 60;

/// How many mentions back the thing of a bare number may stand: "gutter, eighteen and twenty two, forty in all".
const THING_BACK: usize = 8;

impl Tracker<'_> {
    /// Every sum that was said.
    pub(super) fn said_totals(&self) -> Vec<TotalSaid> {
        let all = self.mentions.iter().enumerate();
        all.filter_map(|(at, mention)| self.said_total(at, mention)).collect()
    }

    fn said_total(&self, at: usize, mention: &Mention) -> Option<TotalSaid> {
        let (item, amount, first) = match &mention.kind {
            Kind::Thing(thing) if !thing.more && !thing.short => (thing.item?, thing.amount?, mention.first),
            Kind::Amount(amount) => {
                let (item, first) = self.thing_of(at, mention)?;
                (item, *amount, first)
            }
            _ => return None,
        };
        let number = amount.low == amount.high && amount.by.is_none();
        let span = Span { first, end: mention.end };
        (number && self.is_summed(at, mention, &amount)).then_some(TotalSaid { item, amount, span })
    }

    /// The thing that a bare number behind it counts.
    fn thing_of(&self, at: usize, number: &Mention) -> Option<(u16, usize)> {
        let back = self.mentions[..at].iter().rev().take(THING_BACK);
        let mut same = back.take_while(|m| self.sentence(m.first) == self.sentence(number.first));
        same.find_map(|m| match &m.kind {
            Kind::Thing(thing) => thing.item.map(|item| (item, m.first)),
            _ => None,
        })
    }

    /// Whether a cue by the number says that it is a sum. "So" alone is said of much else.
    fn is_summed(&self, at: usize, mention: &Mention, amount: &Amount) -> bool {
        let near = at.saturating_sub(3)..(at + 3).min(self.mentions.len());
        let by_cue = self.mentions[near].iter().any(|m| {
            let sums = match self.meaning(m) {
                Some(Meaning::Total) => m.end - m.first > 1 || self.word(m.first) != "so",
                Some(Meaning::Recap) => true,
                _ => false,
            };
            let behind = m.first >= mention.end && m.first <= mention.end + 1;
            let before = m.end <= amount.first && m.end + REACH >= amount.first;
            sums && self.sentence(m.first) == self.sentence(mention.first) && (behind || before)
        });
        let right_behind = matches!(mention.kind, Kind::Thing(_))
            || at.checked_sub(1).is_some_and(|before| matches!(self.mentions[before].kind, Kind::Thing(_)));
        by_cue || right_behind && self.is_read_back(at, amount)
    }

    /// Whether the number stands in a read-back, before the narrator goes on to another side.
    fn is_read_back(&self, at: usize, amount: &Amount) -> bool {
        let back = self.mentions[..at].iter().rev();
        let here = back.take_while(|m| !matches!(self.meaning(m), Some(Meaning::Side(_))));
        let mut recaps = here.filter(|m| self.meaning(m) == Some(Meaning::Recap));
        recaps.next().is_some_and(|m| m.end + READ_BACK >= amount.first)
    }
}
