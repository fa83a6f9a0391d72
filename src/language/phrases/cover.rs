//! Which phrase each token belongs to: the longest wins, then the one that begins first.

use crate::language::rules::{Grammar, Match, Meaning};
use crate::language::tokens::{Break, Token};

/// The chosen matches, and for each token the match that holds it.
#[derive(Debug, Default)]
pub(crate) struct Cover {
    pub matches: Vec<Match>,
    holder: Vec<Option<u32>>,
    /// Tokens in the gap of a phrase: "take it *all* down".
    gaps: Vec<bool>,
}

impl Cover {
    /// The match that holds a token.
    pub fn at(&self, token: usize) -> Option<&Match> {
        self.holder.get(token).copied().flatten().map(|m| &self.matches[m as usize])
    }

    /// Whether a token stands in the gap of a phrase.
    pub fn inside(&self, token: usize) -> bool {
        self.gaps.get(token).copied().unwrap_or_default()
    }

    /// The item named from a token on.
    pub fn item_from(&self, token: usize) -> Option<&Match> {
        self.at(token).filter(|m| m.first == token && m.is_item())
    }
}

/// Chooses among the matches that the breaks let stand.
pub(super) fn cover(standing: impl Iterator<Item = Match>, tokens: &[Token], grammar: &Grammar) -> Cover {
    let (items, rules): (Vec<Match>, Vec<Match>) = standing.partition(Match::is_item);
    let named = choose(items.clone(), tokens.len());
    let whole =
        rules.into_iter().filter(|r| !cuts(r, &named, grammar) && !runs_over(r, &named, tokens, grammar));
    choose(whole.chain(items).collect(), tokens.len())
}

/// Takes the longest first; of two as long, an item before a rule, then the one that begins first.
fn choose(mut all: Vec<Match>, length: usize) -> Cover {
    all.sort_by_key(|m| (std::cmp::Reverse(m.said.count_ones()), !m.is_item(), m.first, m.end, m.target));
    let mut cover = Cover { matches: Vec::new(), holder: vec![None; length], gaps: vec![false; length] };
    for found in all {
        if found.tokens().all(|t| cover.holder[t].is_none()) {
            let place = cover.matches.len() as u32;
            found.tokens().for_each(|t| cover.holder[t] = Some(place));
            (found.first..found.end)
                .filter(|t| cover.holder[*t].is_none())
                .for_each(|t| cover.gaps[t] = true);
            cover.matches.push(found);
        }
    }
    cover
}

/// Whether a rule takes some words of an item's name but not all: "over the front" of "over the front door".
fn cuts(rule: &Match, named: &Cover, grammar: &Grammar) -> bool {
    let claims = matches!(rule.meaning(grammar), Some(Meaning::Nothing | Meaning::Noun));
    !claims && rule.tokens().filter_map(|t| named.at(t)).any(|item| !item.tokens().all(|t| rule.says(t)))
}

/// Whether a rule that needs its words in one breath would run over a break: "replace those, back slope too",
/// "no, scratch that"; or one that means nothing would take a thing's name on one side of it: "siding, crew did two".
fn runs_over(rule: &Match, named: &Cover, tokens: &[Token], grammar: &Grammar) -> bool {
    let in_one_breath = match rule.meaning(grammar) {
        Some(Meaning::Side(_) | Meaning::Clear(_) | Meaning::Leave(_)) => true,
        Some(Meaning::Nothing | Meaning::Noun) => rule.tokens().any(|t| named.at(t).is_some()),
        _ => false,
    };
    in_one_breath && tokens[rule.first + 1..rule.end].iter().any(|t| t.before != Break::None)
}
