//! The sentences that stand beside the rules: hits that an entry must be found in, and near-misses that it must not.

use super::load::{self, Layer, line_of};
use super::{Fault, Grammar, GrammarError, compile};
use serde_spanned::Spanned;
use std::path::Path;

/// A sentence that stands beside an entry of a rules file.
#[derive(Debug, Clone)]
pub struct Sentence {
    /// The entry that it tries.
    pub entry: Entry,
    /// What is said.
    pub text: String,
    /// Whether the entry must be found in it.
    pub hit: bool,
    /// The rules file, and the line the sentence stands on.
    file: String,
    line: usize,
}

/// An entry of a rules file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Entry {
    /// A rule, by its name.
    Rule(String),
    /// An item, by its id.
    Item(String),
}

impl Entry {
    fn name(&self) -> &str {
        match self {
            Self::Rule(name) | Self::Item(name) => name,
        }
    }
}

impl Sentence {
    /// What to tell of a sentence that does otherwise than it should.
    pub fn fault(&self) -> Fault {
        let complaint = if self.hit { "should match and doesn't" } else { "shouldn't match and does" };
        Fault {
            file: self.file.clone(),
            line: self.line,
            entry: Some(self.entry.name().to_owned()),
            message: format!("\"{}\" {complaint}", self.text),
        }
    }
}

/// The built-in rules with those of the folder over them, if one is given, and all sentences beside them.
///
/// # Errors
/// An unreadable folder, or faults in its files, each with file, line and entry.
pub fn with_sentences(folder: Option<&Path>) -> Result<(Grammar, Vec<Sentence>), GrammarError> {
    let mut layers = load::built_in()?;
    if let Some(folder) = folder {
        layers.extend(load::folder(folder)?);
    }
    let grammar = compile::compile(&layers)?;
    Ok((grammar, layers.iter().flat_map(of_layer).collect()))
}

fn of_layer(layer: &Layer) -> Vec<Sentence> {
    let rules = layer.rules.rule.iter().map(|rule| {
        let entry = Entry::Rule(rule.name.get_ref().clone());
        (entry, &rule.hits, &rule.misses)
    });
    let items = layer.rules.item.iter().map(|item| {
        let entry = Entry::Item(item.id.get_ref().clone());
        (entry, &item.hits, &item.misses)
    });
    let of_entry = |(entry, hits, misses): (Entry, &Vec<Spanned<String>>, &Vec<Spanned<String>>)| {
        let sentence = |hit: bool| {
            let entry = entry.clone();
            move |text: &Spanned<String>| Sentence {
                entry: entry.clone(),
                text: text.get_ref().clone(),
                hit,
                file: layer.file.clone(),
                line: line_of(&layer.text, text.span().start),
            }
        };
        hits.iter().map(sentence(true)).chain(misses.iter().map(sentence(false))).collect::<Vec<_>>()
    };
    rules.chain(items).flat_map(of_entry).collect()
}
