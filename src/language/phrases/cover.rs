//! Which phrase each token belongs to: the longest wins, then the one that begins first.

use crate::language::numbers::{Amount, Amounts, Found, Rise};
use crate::language::rules::{Grammar, Match, Meaning, Target};
use crate::language::tokens::{Break, Tokens};

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
        self.at(token).filter(|m| m.first == token && matches!(m.target, Target::Item { .. }))
    }
}

/// Chooses among all matches.
fn cover(tokens: &Tokens, grammar: &Grammar) -> Cover {
    let mut all = Vec::new();
    for at in 0..tokens.list.len() {
        grammar.matches_at(&tokens.list, at, &mut all);
    }
    let (items, rules): (Vec<Match>, Vec<Match>) = all.into_iter().partition(is_item);
    let named = choose(items.clone(), tokens.list.len());
    let whole =
        rules.into_iter().filter(|r| !cuts(r, &named, grammar) && !runs_over(r, &named, tokens, grammar));
    choose(whole.chain(items).collect(), tokens.list.len())
}

fn is_item(found: &Match) -> bool {
    matches!(found.target, Target::Item { .. })
}

/// Takes the longest first; of two as long, an item before a rule, then the one that begins first.
fn choose(mut all: Vec<Match>, length: usize) -> Cover {
    all.sort_by_key(|m| (std::cmp::Reverse(m.said.count_ones()), !is_item(m), m.first, m.end, m.target));
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
    let Target::Rule(place) = rule.target else { return false };
    if matches!(grammar.rules[usize::from(place)].meaning, Meaning::Nothing | Meaning::Noun) {
        return false;
    }
    let said = |t: usize| t >= rule.first && t < rule.first + 64 && rule.said & (1 << (t - rule.first)) != 0;
    rule.tokens().filter_map(|t| named.at(t)).any(|item| !item.tokens().all(said))
}

/// Whether a rule that needs its words in one breath would run over a break: "replace those, back slope too",
/// "no, scratch that"; or one that means nothing would take a thing's name on one side of it: "siding, crew did two".
fn runs_over(rule: &Match, named: &Cover, tokens: &Tokens, grammar: &Grammar) -> bool {
    let Target::Rule(place) = rule.target else { return false };
    let meaning = grammar.rules[usize::from(place)].meaning;
    let takes_a_name = || rule.tokens().any(|t| named.at(t).is_some());
    (matches!(meaning, Meaning::Side(_) | Meaning::Clear(_) | Meaning::Leave(_))
        || matches!(meaning, Meaning::Nothing | Meaning::Noun) && takes_a_name())
        && tokens.list[rule.first + 1..rule.end].iter().any(|t| t.before != Break::None)
}

/// What the numbers of a narration tell, given its phrases.
fn numbers(tokens: &Tokens, grammar: &Grammar, cover: &Cover) -> Found {
    let item_at = |at: usize| cover.item_from(at).is_some();
    let taken = |at: usize| cover.at(at).is_some_and(|m| !holds_numbers(grammar, m));
    Amounts::new(tokens, grammar, &item_at, &taken).find()
}

/// Pronouns and rough words may be part of an amount; other phrases are not.
fn holds_numbers(grammar: &Grammar, found: &Match) -> bool {
    match found.target {
        Target::Rule(rule) => {
            matches!(grammar.rules[usize::from(rule)].meaning, Meaning::Refer(_) | Meaning::Rough)
        }
        Target::Item { .. } => false,
    }
}

/// What a narration is first seen to hold: phrases of rules and items, and amounts.
pub(crate) struct Groundwork {
    pub cover: Cover,
    pub amounts: Vec<Amount>,
    pub rises: Vec<Rise>,
}

impl Groundwork {
    pub fn new(tokens: &Tokens, grammar: &Grammar) -> Self {
        let cover = cover(tokens, grammar);
        let Found { amounts, rises } = numbers(tokens, grammar, &cover);
        Self { cover, amounts, rises }
    }

    /// The amount that holds a token.
    pub fn amount_over(&self, token: usize) -> Option<&Amount> {
        let before = self.amounts.partition_point(|a| a.first <= token);
        self.amounts[..before].last().filter(|a| token < a.end)
    }
}

/// What holds words of a narration, rules and items alike.
pub fn matches(tokens: &Tokens, grammar: &Grammar) -> Vec<Match> {
    cover(tokens, grammar).matches
}

/// Every amount of a narration, in order, whether or not it clings to a thing.
pub fn amounts(tokens: &Tokens, grammar: &Grammar) -> Vec<Amount> {
    numbers(tokens, grammar, &cover(tokens, grammar)).amounts
}

/// Every slope of a roof that a narration tells, in order.
pub fn rises(tokens: &Tokens, grammar: &Grammar) -> Vec<Rise> {
    numbers(tokens, grammar, &cover(tokens, grammar)).rises
}
