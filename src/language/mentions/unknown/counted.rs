//! Unknown things that are counted or measured, or that open a sentence, with their work behind them.

use super::Finder;
use crate::language::mentions::Mention;
use crate::language::rules::Meaning;
use crate::language::tokens::Break;

/// How far behind a name its place and its length may be told, in tokens.
const OF_REACH: usize = 8;

/// How far behind a counted name its work may stand, in tokens.
const WORK_REACH: usize = 6;

/// Words that end so are seldom names.
const NO_NOUN: [&str; 3] = ["ed", "ing", "ly"];

impl Finder<'_> {
    /// "sixty foot of skirting".
    pub(super) fn measured(&self) -> Vec<Mention> {
        let c = self.phrases.classes();
        let amounts = self.phrases.ground.amounts().iter();
        let with_unit = amounts.filter(|a| a.unit.is_some() && a.by.is_none() && !a.of_them);
        let of = with_unit
            .map(|a| a.end)
            .filter(|of| self.spoken_on(*of) && self.phrases.is(*of, c.of_joint) && self.spoken_on(of + 1));
        of.filter_map(|of| {
            let from = of + 1 + usize::from(self.phrases.is(of + 1, c.definite));
            Some(self.mention(from, self.name(from)?))
        })
        .collect()
    }

    /// "one weather vane, detach and reset": a number before it, and work behind it.
    pub(super) fn counted(&self) -> Vec<Mention> {
        let amounts = self.phrases.ground.amounts().iter();
        let plain = amounts.filter(|a| a.unit.is_none() && a.by.is_none() && !a.of_them);
        let named = plain.filter(|a| self.spoken_on(a.end)).filter_map(|a| Some((a.end, self.name(a.end)?)));
        named.filter(|(_, end)| self.work_behind(*end)).map(|(from, end)| self.mention(from, end)).collect()
    }

    /// "Weather vane, detach and reset.": it opens a sentence, and work follows at once.
    pub(super) fn opening(&self) -> Vec<Mention> {
        let list = &self.phrases.ground.tokens().list;
        let opens = |at: &usize| list[*at].before == Break::Sentence;
        let named = (0..list.len()).filter(opens).filter_map(|at| Some((at, self.name(at)?)));
        named.filter(|(_, end)| self.tells_of(*end)).map(|(from, end)| self.mention(from, end)).collect()
    }

    /// Whether what follows the name that opens a sentence tells that it is a thing to work on.
    fn tells_of(&self, end: usize) -> bool {
        let said = self.phrases.ground.tokens().said(end - 1);
        let noun = !NO_NOUN.iter().any(|ending| said.ends_with(ending));
        let measured = self.phrases.ground.amounts().iter().any(|a| a.first == end);
        let apart = !self.spoken_on(end);
        noun && (self.placed_and_measured(end) || self.long(end))
            || apart && noun && (self.work_next(end) || self.work_later(end))
            || apart && measured && self.work_next(end)
    }

    /// "Weather strip, thirty foot of it's loose."
    fn long(&self, end: usize) -> bool {
        let from = self.past_hedge(end);
        self.phrases.ground.amounts().iter().any(|a| a.first == from && a.unit.is_some())
    }

    /// Behind the "about" of "about thirty foot", where one stands there.
    fn past_hedge(&self, at: usize) -> usize {
        let hedge = self.phrases.ground.meaning_at(at) == Some(Meaning::Rough);
        self.phrases.ground.cover().at(at).filter(|_| hedge).map_or(at, |m| m.end)
    }

    /// "weather strip around the door, thirty foot, replace".
    fn placed_and_measured(&self, end: usize) -> bool {
        let p = self.phrases;
        let placed = self.spoken_on(end) && p.is(end, p.classes().preposition);
        let measured = p.ground.amounts().iter().find(|a| a.first > end && a.unit.is_some());
        placed
            && measured.is_some_and(|a| {
                a.first <= end + OF_REACH
                    && (end + 1..a.first).all(|t| self.spoken_on(t))
                    && p.ground.tokens().list[a.first].before == Break::Comma
                    && self.work_at(a.end)
            })
    }

    /// The tokens a few words behind one, in the same sentence.
    fn near(&self, from: usize) -> impl Iterator<Item = usize> {
        let list = &self.phrases.ground.tokens().list;
        (from..list.len().min(from + WORK_REACH)).take_while(|t| list[*t].before != Break::Sentence)
    }

    /// Whether work is said a few words behind a token, in the same sentence.
    fn work_behind(&self, from: usize) -> bool {
        self.near(from).any(|t| self.work_at(t))
    }

    /// "Trampoline, frame's bent, replace.": work later in the sentence, and no other thing before it.
    fn work_later(&self, from: usize) -> bool {
        let comma = self.phrases.ground.tokens().list.get(from).is_some_and(|t| t.before == Break::Comma);
        comma && self.near(from).take_while(|t| !self.taken[*t]).any(|t| self.work_at(t))
    }

    /// Whether work is said at a token, or right behind the amount that stands there.
    fn work_next(&self, at: usize) -> bool {
        let amount = self.phrases.ground.amounts().iter().find(|a| a.first == at);
        self.work_at(amount.map_or(at, |a| a.end))
    }
}
