//! Rules: what each means, and the phrases it is said in.

use super::Compiler;
use crate::language::rules::alike::Named;
use crate::language::rules::grammar::Rule;
use crate::language::rules::load::Layer;
use crate::language::rules::meaning::Meaning;
use crate::language::rules::means::Misnamed;
use crate::language::rules::pattern::{self, Step};
use crate::language::rules::schema::RuleEntry;
use crate::language::rules::trie::Target;
use serde_spanned::Spanned;

impl Compiler<'_> {
    pub(super) fn rule(&mut self, layer: &Layer, entry: &RuleEntry) {
        let name = entry.name.get_ref();
        let Some(meaning) = self.meaning(layer, entry) else { return };
        for (list, what) in [(&entry.hits, "hits"), (&entry.misses, "misses")] {
            if list.is_empty() {
                self.fault(layer, &entry.name, name, format!("`{what}` needs at least one sentence"));
            }
        }
        if self.grammar.rules.iter().any(|rule| rule.name == *name) {
            return self.fault(layer, &entry.name, name, "there is a rule of this name already".into());
        }
        let place = self.grammar.rules.len() as u16;
        self.grammar.rules.push(Rule { name: name.clone(), meaning, soft: entry.soft });
        for says in &entry.says {
            for steps in self.expanded(layer, says, name) {
                self.phrase(layer, says, name, &steps, Target::Rule(place));
            }
        }
        for says in &entry.by_sound {
            for steps in self.expanded(layer, says, name) {
                self.by_sound(&steps, Named::Rule(place));
            }
        }
    }

    /// Every sequence of steps that a phrase stands for; none, and a fault, where it can't be read.
    pub(super) fn expanded(&mut self, layer: &Layer, says: &Spanned<String>, entry: &str) -> Vec<Vec<Step>> {
        pattern::expand(says.get_ref(), &mut self.grammar.vocabulary).unwrap_or_else(|message| {
            self.fault(layer, says, entry, message);
            Vec::new()
        })
    }

    fn meaning(&mut self, layer: &Layer, entry: &RuleEntry) -> Option<Meaning> {
        let value = entry.value.as_ref();
        let named = Meaning::named(entry.means.get_ref(), value.map(|v| v.get_ref().as_str()), entry.form);
        let (at, message) = match named {
            Ok(meaning) => return Some(meaning),
            Err(Misnamed::Means(message)) => (&entry.means, message),
            Err(Misnamed::Value(message)) => (value.unwrap_or(&entry.means), message),
        };
        self.fault(layer, at, entry.name.get_ref(), message);
        None
    }
}
