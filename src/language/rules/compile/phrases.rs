//! Phrases put into the tree, with what their words tell besides: which stand side by side, and how they sound.

use super::Compiler;
use crate::language::rules::alike::Named;
use crate::language::rules::load::Layer;
use crate::language::rules::pattern::{Step, on_one_line};
use crate::language::rules::trie::Target;
use crate::language::vocabulary::WordId;
use serde_spanned::Spanned;

/// Larger classes hold words of every kind, which are never written as one with their neighbours.
const FEW: usize = 24;

impl Compiler<'_> {
    pub(super) fn phrase(
        &mut self,
        layer: &Layer,
        says: &Spanned<String>,
        entry: &str,
        steps: &[Step],
        target: Target,
    ) {
        self.neighbours(steps);
        for other in self.grammar.trie.add(steps, target, &self.grammar.vocabulary) {
            if !of_one_item(other, target) {
                let whose = self.written.get(&other).cloned().unwrap_or_default();
                let phrase = on_one_line(says.get_ref());
                self.fault(layer, says, entry, format!("`{phrase}` already belongs to `{whose}`"));
            }
        }
        self.written.insert(target, entry.to_owned());
    }

    /// Notes which words stand side by side, so that they are known when written as one.
    fn neighbours(&mut self, steps: &[Step]) {
        let few = |step: &Step| {
            let words = step.words(&self.grammar.vocabulary);
            if words.len() <= FEW { words } else { Vec::new() }
        };
        let sides: Vec<Vec<WordId>> = steps.iter().map(few).collect();
        for pair in sides.windows(2) {
            for (left, right) in pair[0].iter().flat_map(|l| pair[1].iter().map(move |r| (*l, *r))) {
                self.grammar.vocabulary.add_neighbours(left, right);
            }
        }
    }

    /// Keeps a name of words alone, so that what sounds like it is recognised.
    pub(super) fn by_sound(&mut self, steps: &[Step], named: Named) {
        let words = steps.iter().map(|s| if let Step::Word(w) = s { Some(*w) } else { None });
        if let Some(words) = words.collect::<Option<Vec<WordId>>>() {
            self.grammar.names.add(words, named);
        }
    }
}

fn of_one_item(a: Target, b: Target) -> bool {
    matches!((a, b), (Target::Item { item: a, .. }, Target::Item { item: b, .. }) if a == b)
}
