//! The words that a draft rests on, quoted with their times.

use crate::language::discourse::Span;
use crate::language::rules::Grammar;
use crate::language::tokens::Tokens;
use crate::model::span::Moment;
use crate::speech::{Transcript, Word};

/// What was said, and the rules it is read by.
pub(super) struct Source<'a> {
    pub transcript: &'a Transcript,
    pub tokens: &'a Tokens,
    pub grammar: &'a Grammar,
    words: Vec<&'a Word>,
}

/// Words further apart than this are no longer one quotation, in tokens.
const ONE_QUOTE: usize = 40;

impl<'a> Source<'a> {
    pub fn new(transcript: &'a Transcript, tokens: &'a Tokens, grammar: &'a Grammar) -> Self {
        Self { transcript, tokens, grammar, words: transcript.words().collect() }
    }

    /// The words of a span, and when they begin and end.
    pub fn quoted(&self, span: Span) -> (String, Option<Moment>, Option<Moment>) {
        let (first, last) =
            (self.word(span.first), self.words[self.tokens.list[span.end - 1].heard_last as usize]);
        (self.tokens.quote(span.first, span.end - 1).replace('\n', " "), first.start, last.end)
    }

    /// The same words without a mark before or behind them.
    pub fn named(&self, span: Span) -> String {
        let is_mark = |c: char| c.is_ascii_punctuation() && c != '"';
        self.tokens.quote(span.first, span.end - 1).replace('\n', " ").trim_matches(is_mark).to_owned()
    }

    /// The first and the last word of a span, counted over the whole transcript.
    pub fn place(&self, span: Span) -> [u32; 2] {
        [self.tokens.list[span.first].heard, self.tokens.list[span.end - 1].heard_last]
    }

    /// The id of an item by its place in the catalogue.
    pub fn id(&self, item: u16) -> String {
        self.grammar.items[usize::from(item)].id.clone()
    }

    /// Whether the recogniser gave some of the words less than this chance.
    pub fn less_sure(&self, span: Span, chance: f32) -> bool {
        (span.first..span.end).any(|token| self.word(token).probability.is_some_and(|p| p < chance))
    }

    /// Whether words were read as what they sound like.
    pub fn by_sound(&self, span: Span) -> bool {
        self.tokens.list[span.first..span.end].iter().any(|token| token.sounds)
    }

    fn word(&self, token: usize) -> &'a Word {
        self.words[self.tokens.list[token].heard as usize]
    }
}

/// Both spans, where they stand near enough for one quotation; else the first.
pub(super) fn join_near(span: Span, other: Span) -> Span {
    let joined = span.join(other);
    if joined.end - joined.first <= ONE_QUOTE { joined } else { span }
}
