//! All phrases of all rules in one tree, so that a narration is read once however many rules there are.

use super::pattern::Step;
use crate::language::tokens::Token;
use crate::language::vocabulary::{Vocabulary, WordId};
use rustc_hash::FxHashMap;

/// What a phrase belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Target {
    /// A rule, by its place among the rules.
    Rule(u16),
    /// An item, by its place among the items.
    Item {
        /// Its place.
        item: u16,
        /// Said in the plural.
        plural: bool,
        /// Said in words that only sound like it.
        sounds: bool,
    },
}

/// A match of a phrase in a narration.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Match {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// What was matched.
    pub target: Target,
    /// The tokens that were said, as bits from the first on; those of a gap are left out.
    pub said: u64,
}

impl Match {
    /// Whether it names an item.
    pub fn is_item(&self) -> bool {
        matches!(self.target, Target::Item { .. })
    }

    /// Whether a token was said for it, and doesn't stand in a gap of it.
    pub fn says(&self, token: usize) -> bool {
        (self.first..self.first + 64).contains(&token) && self.said & (1 << (token - self.first)) != 0
    }

    /// The tokens that were said.
    pub fn tokens(&self) -> impl Iterator<Item = usize> + use<> {
        let (first, said) = (self.first, self.said);
        (0..64).filter(move |n| said & (1 << n) != 0).map(move |n| first + n)
    }
}

#[derive(Debug, Default)]
struct Node {
    /// What was built: one child a step.
    edges: FxHashMap<Step, u32>,
    /// What is matched: every child a word leads to.
    words: FxHashMap<WordId, Vec<u32>>,
    gap: Option<(u8, u32)>,
    ends: Vec<Target>,
}

/// No match takes more tokens: each is a bit of [`Match::said`].
const LONGEST: usize = 63;

/// The tree.
#[derive(Debug)]
pub(super) struct Trie {
    nodes: Vec<Node>,
}

impl Trie {
    pub fn new() -> Self {
        Self { nodes: vec![Node::default()] }
    }

    /// Adds a phrase; gives what else the same steps belong to already.
    pub fn add(&mut self, steps: &[Step], target: Target, vocabulary: &Vocabulary) -> Vec<Target> {
        let mut at = 0;
        for step in steps {
            at = self.child(at, *step, vocabulary);
        }
        let ends = &mut self.nodes[at as usize].ends;
        let others = ends.iter().copied().filter(|t| *t != target).collect();
        if !ends.contains(&target) {
            ends.push(target);
        }
        others
    }

    fn child(&mut self, at: u32, step: Step, vocabulary: &Vocabulary) -> u32 {
        let new = self.nodes.len() as u32;
        let node = &mut self.nodes[at as usize];
        let found = *node.edges.entry(step).or_insert(new);
        if found != new {
            return found;
        }
        match step {
            Step::Word(word) => node.words.entry(word).or_default().push(new),
            Step::Gap(most) => node.gap = Some((most, new)),
            Step::OneOf(set) => {
                for word in vocabulary.words_of(set) {
                    node.words.entry(*word).or_default().push(new);
                }
            }
        }
        self.nodes.push(Node::default());
        new
    }

    /// Every phrase that the words from `start` on stand for, whatever the breaks between them. Gives one past the last
    /// token that was looked at.
    pub fn find(&self, tokens: &[Token], start: usize, out: &mut Vec<Match>) -> usize {
        let mut walk = Walk { trie: self, tokens, start, out, reached: start };
        walk.from(0, start, 0);
        walk.reached
    }
}

struct Walk<'a> {
    trie: &'a Trie,
    tokens: &'a [Token],
    start: usize,
    out: &'a mut Vec<Match>,
    reached: usize,
}

impl Walk<'_> {
    /// Goes on from a node with the token at `at`.
    fn from(&mut self, node: u32, at: usize, said: u64) {
        let node = &self.trie.nodes[node as usize];
        let found = |target: &Target| Match { first: self.start, end: at, target: *target, said };
        self.out.extend(node.ends.iter().map(found));
        if let Some((most, child)) = node.gap {
            let last = self.tokens.len().min(at + usize::from(most));
            (at..=last).for_each(|next| self.from(child, next, said));
        }
        let Some(token) = self.tokens.get(at).filter(|_| at - self.start < LONGEST) else { return };
        self.reached = self.reached.max(at + 1);
        let said = said | 1 << (at - self.start);
        for child in node.words.get(&token.word).into_iter().flatten() {
            self.from(*child, at + 1, said);
        }
    }
}
