//! Turning rules files into a [`Grammar`]: every fault is found before any is reported.

mod items;
mod phrases;
mod rules;
mod words;

use super::classes::Classes;
use super::error::{Fault, GrammarError};
use super::grammar::Grammar;
use super::house_rules;
use super::load::{Layer, Over, line_of};
use super::schema::PartEntry;
use super::trie::Target;
use rustc_hash::FxHashMap;
use serde_spanned::Spanned;

/// Compiles all layers, the later over the earlier.
pub(super) fn compile(layers: &[Layer]) -> Result<Grammar, GrammarError> {
    let mut compiler = Compiler::new();
    layers.iter().for_each(|layer| compiler.words(layer));
    layers.iter().for_each(|layer| compiler.items(layer));
    let replaced = replaced(layers);
    for layer in layers {
        let rules = layer.rules.rule.iter().filter(|rule| stands(layer, rule.name.get_ref(), &replaced));
        rules.for_each(|rule| compiler.rule(layer, rule));
    }
    compiler.parts();
    layers.iter().for_each(|layer| compiler.kinds(layer));
    compiler.house(layers);
    compiler.finish()
}

/// The names of rules that an office's folder writes anew.
pub(super) fn replaced(layers: &[Layer]) -> Vec<&str> {
    let user = layers.iter().filter(|layer| layer.over == Over::User);
    user.flat_map(|layer| &layer.rules.rule).map(|rule| rule.name.get_ref().as_str()).collect()
}

/// Whether a rule stands: a built-in one whose name an office's rule has gives way to it.
pub(super) fn stands(layer: &Layer, name: &str, replaced: &[&str]) -> bool {
    layer.over == Over::User || !replaced.contains(&name)
}

/// A grammar as it is put together, and what is wrong with its files.
struct Compiler<'a> {
    grammar: Grammar,
    /// Parts wait until all items are known.
    part_entries: Vec<(&'a Layer, u16, &'a PartEntry)>,
    /// The entry that each target was written in.
    written: FxHashMap<Target, String>,
    faults: Vec<Fault>,
}

impl Compiler<'_> {
    fn new() -> Self {
        Self {
            grammar: Grammar::empty(),
            part_entries: Vec::new(),
            written: FxHashMap::default(),
            faults: Vec::new(),
        }
    }

    fn fault<T>(&mut self, layer: &Layer, at: &Spanned<T>, entry: &str, message: String) {
        let line = line_of(&layer.text, at.span().start);
        let entry = (!entry.is_empty()).then(|| entry.to_owned());
        let fault = Fault { file: layer.file.clone(), line, entry, message };
        if self.faults.last() != Some(&fault) {
            self.faults.push(fault);
        }
    }

    /// What the whole house is asked about.
    fn house(&mut self, layers: &[Layer]) {
        let (house, faults) = house_rules::compile(layers, &self.grammar.items);
        self.grammar.house = house;
        self.faults.extend(faults);
    }

    fn finish(mut self) -> Result<Grammar, GrammarError> {
        match Classes::resolve(&self.grammar.vocabulary) {
            Ok(classes) => self.grammar.classes = classes,
            Err(missing) => self.faults.push(Fault {
                file: "classes.toml".into(),
                line: 1,
                entry: None,
                message: format!("the class `{missing}` is missing"),
            }),
        }
        if self.faults.is_empty() { Ok(self.grammar) } else { Err(GrammarError::Faults(self.faults)) }
    }
}
