//! The trial of the rules: every hit must match its entry, no near-miss may, every phrase of a rule must meet one of the
//! rule's hits, and every name of an item must name it.

use super::mentions::Mention;
use super::rules::{self, Entry, Grammar, GrammarError, Match, Name, Sentence, Target, Trials};
use super::tokens::Tokens;
use super::{phrases, pieces};
use crate::speech::Transcript;
use rustc_hash::FxHashMap;
use std::path::Path;

/// Tries the built-in rules and those of the folder, if one is given, and counts the sentences, phrases and names tried.
///
/// # Errors
/// The faults, each with file, line and entry.
pub fn check(folder: Option<&Path>) -> Result<usize, GrammarError> {
    let trials = rules::trials(folder)?;
    let grammar = &trials.grammar;
    let wrong = |sentence: &&Sentence| found(sentence, grammar) != sentence.hit;
    let mut faults: Vec<_> = trials.sentences.iter().filter(wrong).map(Sentence::fault).collect();
    faults.extend(unmet(&trials));
    faults.extend(trials.names.iter().filter_map(|name| nameless(name, grammar)));
    let tried = trials.sentences.len() + trials.phrases.len() + trials.names.len();
    if faults.is_empty() { Ok(tried) } else { Err(GrammarError::Faults(faults)) }
}

fn tokens(text: &str, grammar: &Grammar) -> Tokens {
    Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary)
}

/// Whether the entry is found in its sentence: a rule by the words it holds, an item by the things spoken of,
/// so that "the wrap on that window" is a wrap and "soffit vents" are no soffit.
fn found(sentence: &Sentence, grammar: &Grammar) -> bool {
    match &sentence.entry {
        Entry::Rule(name) => {
            let tokens = tokens(&sentence.text, grammar);
            phrases::matches(&tokens, grammar).iter().any(|found| rule_of(found, grammar) == Some(name))
        }
        Entry::Item(id) => names(&sentence.text, grammar, id),
    }
}

fn rule_of<'g>(found: &Match, grammar: &'g Grammar) -> Option<&'g str> {
    match found.target {
        Target::Rule(rule) => Some(&grammar.rules[usize::from(rule)].name),
        Target::Item { .. } => None,
    }
}

/// Whether a thing spoken of is the item.
fn names(text: &str, grammar: &Grammar, id: &str) -> bool {
    let is = |m: &Mention| m.is_thing() && m.rule_name(grammar) == Some(id);
    pieces::as_written(text, grammar).mentions.iter().any(is)
}

/// The phrases that no hit of their rule needs.
fn unmet(trials: &Trials) -> Vec<rules::Fault> {
    let grammar = &trials.grammar;
    let mut hits: FxHashMap<&str, Vec<(Tokens, Vec<Match>)>> = FxHashMap::default();
    for sentence in trials.sentences.iter().filter(|sentence| sentence.hit) {
        let Entry::Rule(rule) = &sentence.entry else { continue };
        let tokens = tokens(&sentence.text, grammar);
        let mut found = phrases::matches(&tokens, grammar);
        found.retain(|found| rule_of(found, grammar) == Some(rule));
        hits.entry(rule).or_default().push((tokens, found));
    }
    let met = |phrase: &&rules::Phrase| {
        let mut of_rule = hits.get(phrase.rule.as_str()).into_iter().flatten();
        of_rule.any(|(tokens, found)| found.iter().any(|found| phrase.found(&tokens.list, found)))
    };
    trials.phrases.iter().filter(|phrase| !met(phrase)).map(rules::Phrase::fault).collect()
}

/// The fault of a name that doesn't name its item.
fn nameless(name: &Name, grammar: &Grammar) -> Option<rules::Fault> {
    let other = |spoken: &&String| !names(spoken, grammar, &name.item);
    name.spoken.iter().find(other).map(|spoken| name.fault(spoken))
}
