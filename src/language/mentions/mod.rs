//! Takes the groundwork of a narration, gives mentions: every cue, thing and amount that is spoken of, in the order
//! said; no word belongs to two of them. Knows nothing of what they add up to.

mod compounds;
mod cues;
mod noun_phrase;
mod openers;
mod quantities;
mod thing;
mod unknown;

pub use thing::{Determiner, Thing};

use crate::language::numbers::{Amount, SlopeSaid};
use crate::language::phrases::Groundwork;
use crate::language::rules::{Grammar, Meaning};
use noun_phrase::NounPhrases;

/// Something spoken of.
#[derive(Debug, Clone, PartialEq)]
pub struct Mention {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// What it is.
    pub kind: Kind,
}

/// What a mention is.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// A rule matched, by its place among the rules.
    Cue(u16),
    /// A thing, with what clings to it.
    Thing(Box<Thing>),
    /// A number that clings to no thing.
    Amount(Amount),
    /// How steep a roof is.
    Slope(SlopeSaid),
}

impl Mention {
    /// Whether it is a thing.
    pub fn is_thing(&self) -> bool {
        matches!(self.kind, Kind::Thing(_))
    }

    /// What the cue means, if this is one.
    pub fn meaning(&self, grammar: &Grammar) -> Option<Meaning> {
        match self.kind {
            Kind::Cue(rule) => Some(grammar.rules[usize::from(rule)].meaning),
            _ => None,
        }
    }

    /// The name of the rule, or of the item, that found this.
    pub fn rule_name<'g>(&self, grammar: &'g Grammar) -> Option<&'g str> {
        match &self.kind {
            Kind::Cue(rule) => Some(&grammar.rules[usize::from(*rule)].name),
            Kind::Thing(thing) => thing.item.map(|i| grammar.items[usize::from(i)].id.as_str()),
            Kind::Amount(_) | Kind::Slope(_) => None,
        }
    }
}

/// Every mention of a narration, in order.
pub fn find(ground: &Groundwork) -> Vec<Mention> {
    let mut mentions = things(ground);
    let amounts: Vec<Mention> = free_amounts(ground, &mentions);
    mentions.extend(amounts);
    let slopes: Vec<Mention> = free_slopes(ground, &mentions);
    mentions.extend(slopes);
    mentions.extend(cues::cues(ground, &mentions));
    mentions.sort_by_key(|m| (m.first, m.end));
    mentions
}

/// Things with the amounts that cling to them.
fn things(ground: &Groundwork) -> Vec<Mention> {
    let phrases = NounPhrases { ground };
    let mut things = phrases.of_items();
    phrases.join_compounds(&mut things);
    phrases.join_parts(&mut things);
    unknown::add(&phrases, &mut things);
    things
}

/// Amounts that cling to no thing.
fn free_amounts(ground: &Groundwork, things: &[Mention]) -> Vec<Mention> {
    let free = |a: &&Amount| !things.iter().any(|m| m.first <= a.first && a.end <= m.end);
    let mention = |a: &Amount| Mention { first: a.first, end: a.end, kind: Kind::Amount(*a) };
    ground.amounts().iter().filter(free).map(mention).collect()
}

/// Slopes that hold no words of things and amounts.
fn free_slopes(ground: &Groundwork, others: &[Mention]) -> Vec<Mention> {
    let free = |s: &&SlopeSaid| others.iter().all(|m| m.end <= s.first || m.first >= s.end);
    let mention = |s: &SlopeSaid| Mention { first: s.first, end: s.end, kind: Kind::Slope(*s) };
    ground.slopes().iter().filter(free).map(mention).collect()
}
