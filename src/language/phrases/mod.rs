//! Takes tokens, gives the phrases and the amounts they hold.
//!
//! Every phrase that the words could stand for is found once. Which of them count depends on the breaks between the
//! words. That choice is made anew, without another search, when a later stage corrects a word or puts a break.

mod cover;
mod groundwork;
mod matches;

pub use groundwork::Groundwork;

use crate::language::numbers::{Amount, SlopeSaid};
use crate::language::rules::{Grammar, Match, Target};
use crate::language::tokens::Tokens;

/// What holds words of a narration, rules and items alike.
pub fn matches(tokens: &Tokens, grammar: &Grammar) -> Vec<Match> {
    groundwork::read(tokens, grammar).cover.matches
}

/// The item that all the words of a text together name.
pub fn item_named_by(tokens: &Tokens, grammar: &Grammar) -> Option<u16> {
    let matches = matches::Matches::find(&tokens.list, grammar);
    matches.standing(&tokens.list).find_map(|m| match m.target {
        Target::Item { item, .. } if m.first == 0 && m.end == tokens.list.len() => Some(item),
        _ => None,
    })
}

/// Every amount of a narration, in order, whether or not it clings to a thing.
pub fn amounts(tokens: &Tokens, grammar: &Grammar) -> Vec<Amount> {
    groundwork::read(tokens, grammar).amounts
}

/// Every slope of a roof that a narration tells, in order.
pub fn slopes(tokens: &Tokens, grammar: &Grammar) -> Vec<SlopeSaid> {
    groundwork::read(tokens, grammar).slopes
}
