//! Takes tokens, gives mentions: every cue, thing and amount that is spoken of, in the order said, none
//! overlapping. Knows nothing of what they add up to.

mod cues;
mod phrase;
mod thing;
mod unknown;

pub use thing::{Determiner, Thing};

use crate::language::numbers::{Amount, Rise};
use crate::language::phrases::Groundwork;
use crate::language::rules::{Grammar, Meaning};
use crate::language::tokens::Tokens;

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
    Rise(Rise),
}

impl Mention {
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
            Kind::Amount(_) | Kind::Rise(_) => None,
        }
    }
}

/// Every mention of a narration, in order.
pub fn find(tokens: &Tokens, grammar: &Grammar) -> Vec<Mention> {
    let Groundwork { cover, amounts, rises } = Groundwork::new(tokens, grammar);
    let mut mentions = phrase::things(tokens, grammar, &cover, &amounts);
    let free = |r: &&Rise| mentions.iter().all(|m| m.end <= r.first || m.first >= r.end);
    let rise = |r: &Rise| Mention { first: r.first, end: r.end, kind: Kind::Rise(*r) };
    let rises: Vec<Mention> = rises.iter().filter(free).map(rise).collect();
    mentions.extend(rises);
    mentions.extend(cues::cues(&cover, &mentions, grammar));
    mentions.sort_by_key(|m| (m.first, m.end));
    mentions
}
