//! The sentences beside the rules: every hit must match its rule, no near-miss may.

use super::load::{self, Layer, line_of};
use super::{Fault, Grammar, GrammarError, Target, compile};
use crate::mentions::{self, Kind, Mention};
use crate::tokens::Tokens;
use crate::words::Transcript;
use serde_spanned::Spanned;
use std::path::Path;

/// Tries every hit and miss of the built-in rules and of the folder, if one is given, and counts them.
///
/// # Errors
/// The faults, each with file, line and entry.
pub fn check(folder: Option<&Path>) -> Result<usize, GrammarError> {
    let mut layers = load::built_in()?;
    if let Some(folder) = folder {
        layers.extend(load::folder(folder)?);
    }
    let grammar = compile::compile(&layers)?;
    let mut tried = Tried { grammar: &grammar, count: 0, faults: Vec::new() };
    layers.iter().for_each(|l| tried.layer(l));
    if tried.faults.is_empty() { Ok(tried.count) } else { Err(GrammarError::Faults(tried.faults)) }
}

struct Tried<'a> {
    grammar: &'a Grammar,
    count: usize,
    faults: Vec<Fault>,
}

impl Tried<'_> {
    fn layer(&mut self, layer: &Layer) {
        for rule in &layer.rules.rule {
            let name = rule.name.get_ref().as_str();
            let is = |g: &Grammar, t: &Tokens| {
                let is = |t| matches!(t, Target::Rule(r) if g.rules[usize::from(r)].name == name);
                mentions::targets(t, g).into_iter().any(is)
            };
            self.entry(layer, name, [&rule.hits, &rule.misses], &is);
        }
        for item in &layer.rules.item {
            let id = item.id.get_ref().as_str();
            let is = |g: &Grammar, t: &Tokens| {
                mentions::find(t, g).iter().any(|m| is_thing(m) && m.rule_name(g) == Some(id))
            };
            self.entry(layer, id, [&item.hits, &item.misses], &is);
        }
    }

    /// Tries the hits, which must match, and the misses, which must not.
    fn entry(
        &mut self,
        layer: &Layer,
        name: &str,
        sentences: [&Vec<Spanned<String>>; 2],
        is: &dyn Fn(&Grammar, &Tokens) -> bool,
    ) {
        for (list, (wanted, complaint)) in sentences
            .into_iter()
            .zip([(true, "should match and doesn't"), (false, "shouldn't match and does")])
        {
            for sentence in list {
                self.count += 1;
                if self.found(sentence.get_ref(), is) != wanted {
                    let message = format!("\"{}\" {complaint}", sentence.get_ref());
                    let line = line_of(&layer.text, sentence.span().start);
                    self.faults.push(Fault {
                        file: layer.file.clone(),
                        line,
                        entry: Some(name.to_owned()),
                        message,
                    });
                }
            }
        }
    }

    /// Whether the entry is found in the sentence: a rule by the words it holds, an item by the things spoken of,
    /// so that "the wrap on that window" is a wrap and "soffit vents" are no soffit.
    fn found(&self, sentence: &str, is: &dyn Fn(&Grammar, &Tokens) -> bool) -> bool {
        is(self.grammar, &Tokens::new(&Transcript::from_plain(sentence), &self.grammar.vocabulary))
    }
}

fn is_thing(mention: &Mention) -> bool {
    matches!(mention.kind, Kind::Thing(_))
}
