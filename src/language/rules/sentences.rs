//! What is tried of the rules files: the sentences that stand beside their entries, every phrase of a rule, and every
//! name of an item.

use super::compile::{compile, replaced, stands};
use super::load::{self, Layer, line_of};
use super::pattern::{self, Step};
use super::schema::{ItemEntry, RuleEntry};
use super::trie::{Target, Trie};
use super::{Fault, Grammar, GrammarError, Match};
use crate::language::tokens::Token;
use crate::language::vocabulary::Vocabulary;
use serde_spanned::Spanned;
use std::path::Path;

/// The rules, and what is tried of them.
#[derive(Debug)]
pub struct Trials {
    /// The rules.
    pub grammar: Grammar,
    /// What stands under `hits` and `misses`.
    pub sentences: Vec<Sentence>,
    /// The phrases of the rules.
    pub phrases: Vec<Phrase>,
    /// The names of the items.
    pub names: Vec<Name>,
}

/// A sentence that stands beside an entry of a rules file.
#[derive(Debug, Clone)]
pub struct Sentence {
    /// The entry that it tries.
    pub entry: Entry,
    /// What is said.
    pub text: String,
    /// Whether the entry must be found in it.
    pub hit: bool,
    at: Line,
}

/// A phrase of a rule, which must meet one of the rule's hits.
#[derive(Debug)]
pub struct Phrase {
    /// The rule, by its name.
    pub rule: String,
    written: String,
    alone: Trie,
    at: Line,
}

/// A name of an item, which said alone must name it.
#[derive(Debug)]
pub struct Name {
    /// The item, by its id.
    pub item: String,
    /// Everything that the name stands for, in words: "front post light", "post light".
    pub spoken: Vec<String>,
    at: Line,
}

/// An entry of a rules file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Entry {
    /// A rule, by its name.
    Rule(String),
    /// An item, by its id.
    Item(String),
}

/// A line of a rules file.
#[derive(Debug, Clone)]
struct Line {
    file: String,
    line: usize,
}

impl Line {
    fn of(layer: &Layer, text: &Spanned<String>) -> Self {
        Self { file: layer.file.clone(), line: line_of(&layer.text, text.span().start) }
    }

    fn fault(&self, entry: &str, message: String) -> Fault {
        Fault { file: self.file.clone(), line: self.line, entry: Some(entry.to_owned()), message }
    }
}

impl Sentence {
    /// What to tell of a sentence that does otherwise than it should.
    pub fn fault(&self) -> Fault {
        let (Entry::Rule(entry) | Entry::Item(entry)) = &self.entry;
        let complaint = if self.hit { "should match and doesn't" } else { "shouldn't match and does" };
        self.at.fault(entry, format!("\"{}\" {complaint}", self.text))
    }
}

impl Phrase {
    /// Whether it is this phrase that a match of its rule found.
    pub fn found(&self, tokens: &[Token], found: &Match) -> bool {
        let mut alone = Vec::new();
        self.alone.find(tokens, found.first, &mut alone);
        alone.iter().any(|a| a.end == found.end && a.said == found.said)
    }

    /// What to tell of a phrase that no hit needs.
    pub fn fault(&self) -> Fault {
        let message =
            format!("no sentence under `hits` is found by `{}`: add one, or delete it", self.written);
        self.at.fault(&self.rule, message)
    }
}

impl Name {
    /// What to tell of a name that names something else, or nothing.
    pub fn fault(&self, spoken: &str) -> Fault {
        let why = "one of its words is left out as a filler, or another rule has them";
        self.at.fault(&self.item, format!("\"{spoken}\" said alone doesn't name it: {why}"))
    }
}

/// The built-in rules with those of the folder over them, if one is given, and all that is tried of them.
///
/// # Errors
/// An unreadable folder, or faults in its files, each with file, line and entry.
pub fn trials(folder: Option<&Path>) -> Result<Trials, GrammarError> {
    let mut layers = load::built_in()?;
    if let Some(folder) = folder {
        layers.extend(load::folder(folder)?);
    }
    let grammar = compile(&layers)?;
    let mut trials = Trials { grammar, sentences: Vec::new(), phrases: Vec::new(), names: Vec::new() };
    let replaced = replaced(&layers);
    for layer in &layers {
        let rules = layer.rules.rule.iter().filter(|rule| stands(layer, rule.name.get_ref(), &replaced));
        rules.for_each(|rule| trials.rule(layer, rule));
        layer.rules.item.iter().for_each(|item| trials.item(layer, item));
    }
    Ok(trials)
}

impl Trials {
    fn rule(&mut self, layer: &Layer, rule: &RuleEntry) {
        let name = rule.name.get_ref();
        self.sentences(layer, &Entry::Rule(name.clone()), &rule.hits, &rule.misses);
        for says in &rule.says {
            let mut alone = Trie::new();
            let vocabulary = &mut self.grammar.vocabulary;
            for steps in pattern::expand(says.get_ref(), vocabulary).unwrap_or_default() {
                alone.add(&steps, Target::Rule(0), vocabulary);
            }
            let (rule, written) = (name.clone(), pattern::on_one_line(says.get_ref()));
            self.phrases.push(Phrase { rule, written, alone, at: Line::of(layer, says) });
        }
    }

    fn item(&mut self, layer: &Layer, item: &ItemEntry) {
        let id = item.id.get_ref();
        self.sentences(layer, &Entry::Item(id.clone()), &item.hits, &item.misses);
        for said in &item.said {
            let vocabulary = &mut self.grammar.vocabulary;
            let all = pattern::expand(said.get_ref(), vocabulary).unwrap_or_default();
            let spoken = all.iter().flat_map(|steps| spoken(steps, vocabulary)).collect();
            self.names.push(Name { item: id.clone(), spoken, at: Line::of(layer, said) });
        }
    }

    fn sentences(
        &mut self,
        layer: &Layer,
        entry: &Entry,
        hits: &[Spanned<String>],
        misses: &[Spanned<String>],
    ) {
        let sentence = |hit: bool| {
            move |text: &Spanned<String>| Sentence {
                entry: entry.clone(),
                text: text.get_ref().clone(),
                hit,
                at: Line::of(layer, text),
            }
        };
        self.sentences.extend(hits.iter().map(sentence(true)));
        self.sentences.extend(misses.iter().map(sentence(false)));
    }
}

/// Everything that steps stand for, in words; nothing where any word may stand in them.
fn spoken(steps: &[Step], vocabulary: &Vocabulary) -> Vec<String> {
    let mut all = vec![String::new()];
    for step in steps {
        let words = step.words(vocabulary);
        let longer = |said: &String| {
            let said = said.clone();
            words.iter().map(move |word| format!("{said} {}", vocabulary.word(*word))).collect::<Vec<_>>()
        };
        all = all.iter().flat_map(longer).collect();
    }
    all.iter().map(|said| said.trim_start().to_owned()).collect()
}
