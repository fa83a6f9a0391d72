//! The phrases and amounts of a narration, kept in step with its tokens.

use super::cover::{Cover, cover};
use super::matches::Matches;
use crate::language::numbers::{Amount, Amounts, NumbersFound, SlopeSaid};
use crate::language::rules::{Grammar, Match, Meaning};
use crate::language::tokens::{Break, Respelling, Restored, Tokens};
use crate::language::vocabulary::{ClassId, WordId};

/// What a narration is first seen to hold: phrases of rules and items, and amounts. The stages that correct words and put
/// breaks change the tokens through it, so that all of it stays in step.
#[derive(Debug)]
pub struct Groundwork<'g> {
    grammar: &'g Grammar,
    tokens: Tokens,
    matches: Matches,
    chosen: Chosen,
}

/// What is chosen among the matches as the breaks are, and the numbers that are left by it.
#[derive(Debug)]
pub(super) struct Chosen {
    pub cover: Cover,
    pub amounts: Vec<Amount>,
    pub slopes: Vec<SlopeSaid>,
}

impl<'g> Groundwork<'g> {
    /// Looks for the phrases and the numbers of a narration.
    pub fn new(tokens: Tokens, grammar: &'g Grammar) -> Self {
        let matches = Matches::find(&tokens.list, grammar);
        let chosen = Chosen::new(&matches, &tokens, grammar);
        Self { grammar, tokens, matches, chosen }
    }

    /// Reads tokens as other words; each respelling begins behind the one before.
    pub fn respell(&mut self, all: &[Respelling]) {
        if !all.is_empty() {
            self.tokens.respell(all);
            self.matches = std::mem::take(&mut self.matches).respelled(all, &self.tokens.list, self.grammar);
            self.chosen = Chosen::new(&self.matches, &self.tokens, self.grammar);
        }
    }

    /// Puts other breaks between the tokens.
    pub fn punctuate(&mut self, all: &[Restored]) {
        if self.tokens.punctuate(all) {
            self.chosen = Chosen::new(&self.matches, &self.tokens, self.grammar);
        }
    }

    /// The rules by which it was found.
    pub fn grammar(&self) -> &'g Grammar {
        self.grammar
    }

    /// The tokens as they are read so far.
    pub fn tokens(&self) -> &Tokens {
        &self.tokens
    }

    /// The tokens, without what they hold.
    pub fn into_tokens(self) -> Tokens {
        self.tokens
    }

    /// Every amount, in order, whether or not it clings to a thing.
    pub fn amounts(&self) -> &[Amount] {
        &self.chosen.amounts
    }

    /// Every slope of a roof, in order.
    pub fn slopes(&self) -> &[SlopeSaid] {
        &self.chosen.slopes
    }

    pub(in crate::language) fn cover(&self) -> &Cover {
        &self.chosen.cover
    }

    /// The amount that holds a token.
    pub(in crate::language) fn amount_over(&self, token: usize) -> Option<&Amount> {
        let before = self.amounts().partition_point(|a| a.first <= token);
        self.amounts()[..before].last().filter(|a| token < a.end)
    }

    /// What the rule means that holds a token.
    pub(in crate::language) fn meaning_at(&self, token: usize) -> Option<Meaning> {
        self.cover().at(token)?.meaning(self.grammar)
    }

    /// The word of a token; that of no word where there is none.
    pub(in crate::language) fn word(&self, at: usize) -> WordId {
        self.tokens.list.get(at).map_or(0, |t| t.word)
    }

    /// Whether a token's word is of a class.
    pub(in crate::language) fn is(&self, at: usize, class: ClassId) -> bool {
        self.grammar.vocabulary.is(self.word(at), class)
    }

    /// Whether a token's word is of one of the classes.
    pub(in crate::language) fn is_any(&self, at: usize, classes: &[ClassId]) -> bool {
        classes.iter().any(|class| self.is(at, *class))
    }

    /// Whether a token is one of the small words that are never part of a thing's name.
    pub(in crate::language) fn is_closed(&self, at: usize) -> bool {
        self.is_any(at, &self.grammar.classes.closed())
    }

    /// Whether there is a token, and no break before it.
    pub(in crate::language) fn spoken_on(&self, at: usize) -> bool {
        self.tokens.list.get(at).is_some_and(|t| t.before == Break::None)
    }
}

/// What tokens hold that no stage will change.
pub(super) fn read(tokens: &Tokens, grammar: &Grammar) -> Chosen {
    Chosen::new(&Matches::find(&tokens.list, grammar), tokens, grammar)
}

impl Chosen {
    fn new(matches: &Matches, tokens: &Tokens, grammar: &Grammar) -> Self {
        let cover = cover(matches.standing(&tokens.list), &tokens.list, grammar);
        let NumbersFound { amounts, slopes } = numbers(tokens, grammar, &cover);
        Self { cover, amounts, slopes }
    }
}

/// What the numbers of a narration tell, given its phrases.
fn numbers(tokens: &Tokens, grammar: &Grammar, cover: &Cover) -> NumbersFound {
    let item_at = |at: usize| cover.item_from(at).is_some();
    let taken = |at: usize| cover.at(at).is_some_and(|m| !holds_numbers(m, grammar));
    Amounts::new(tokens, grammar, &item_at, &taken).find()
}

/// Pronouns and rough words may be part of an amount; other phrases are not.
fn holds_numbers(found: &Match, grammar: &Grammar) -> bool {
    matches!(found.meaning(grammar), Some(Meaning::Refer(_) | Meaning::Rough))
}
