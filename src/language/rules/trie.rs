//! All phrases of all rules in one tree, so that a narration is read once however many rules there are.

use super::pattern::Step;
use crate::language::tokens::{Break, Token};
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

#[derive(Debug, Default)]
struct Node {
    /// What was built: one child a step.
    edges: FxHashMap<Step, u32>,
    /// What is matched: every child a word leads to.
    words: FxHashMap<WordId, Vec<u32>>,
    gap: Option<(u8, u32)>,
    ends: Vec<Target>,
}

/// The tree.
#[derive(Debug)]
pub(super) struct Trie {
    nodes: Vec<Node>,
}

/// Where a phrase was found.
#[derive(Debug, Clone, Copy)]
pub(super) struct Found {
    /// One past the last token.
    pub end: usize,
    /// What it belongs to.
    pub target: Target,
    /// The tokens that were said, as bits from the first on; those of a gap are left out.
    pub said: u64,
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

    /// Every phrase that begins at `start`.
    pub fn find(&self, tokens: &[Token], start: usize, out: &mut Vec<Found>) {
        let mut walk = Walk { trie: self, tokens, start, out };
        walk.from(0, start, Break::None, 0);
    }
}

struct Walk<'a> {
    trie: &'a Trie,
    tokens: &'a [Token],
    start: usize,
    out: &'a mut Vec<Found>,
}

impl Walk<'_> {
    /// Goes on from a node with the token at `at`; `crossed` is the strongest break inside so far.
    fn from(&mut self, node: u32, at: usize, crossed: Break, said: u64) {
        let node = &self.trie.nodes[node as usize];
        for target in &node.ends {
            if crossed < Break::Comma || matches!(target, Target::Rule(_)) {
                self.out.push(Found { end: at, target: *target, said });
            }
        }
        if let Some((most, child)) = node.gap {
            self.skip(child, at, most, crossed, said);
        }
        let Some(token) = self.tokens.get(at) else { return };
        let crossed = if at > self.start { crossed.max(token.before) } else { crossed };
        if crossed >= Break::Sentence || at - self.start >= 63 {
            return;
        }
        let said = said | 1 << (at - self.start);
        for child in node.words.get(&token.word).into_iter().flatten() {
            self.from(*child, at + 1, crossed, said);
        }
    }

    fn skip(&mut self, child: u32, at: usize, most: u8, crossed: Break, said: u64) {
        for n in 0..=usize::from(most) {
            let inside = self.tokens.get(at..at + n).unwrap_or_default();
            if inside.len() < n || inside.iter().any(|t| t.before >= Break::Comma) {
                return;
            }
            self.from(child, at + n, crossed, said);
        }
    }
}
