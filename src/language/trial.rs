//! The trial of the rules by the sentences beside them: every hit must match its entry, no near-miss may.

use super::mentions::{self, Kind, Mention};
use super::phrases;
use super::rules::{self, Entry, Grammar, GrammarError, Sentence, Target};
use super::tokens::Tokens;
use crate::speech::Transcript;
use std::path::Path;

/// Tries every hit and miss of the built-in rules and of the folder, if one is given, and counts them.
///
/// # Errors
/// The faults, each with file, line and entry.
pub fn check(folder: Option<&Path>) -> Result<usize, GrammarError> {
    let (grammar, sentences) = rules::with_sentences(folder)?;
    let wrong = |sentence: &&Sentence| found(sentence, &grammar) != sentence.hit;
    let faults: Vec<_> = sentences.iter().filter(wrong).map(Sentence::fault).collect();
    if faults.is_empty() { Ok(sentences.len()) } else { Err(GrammarError::Faults(faults)) }
}

/// Whether the entry is found in its sentence: a rule by the words it holds, an item by the things spoken of,
/// so that "the wrap on that window" is a wrap and "soffit vents" are no soffit.
fn found(sentence: &Sentence, grammar: &Grammar) -> bool {
    let tokens = Tokens::new(&Transcript::from_plain(&sentence.text), &grammar.vocabulary);
    match &sentence.entry {
        Entry::Rule(name) => {
            let is = |t| matches!(t, Target::Rule(r) if grammar.rules[usize::from(r)].name == *name);
            phrases::targets(&tokens, grammar).into_iter().any(is)
        }
        Entry::Item(id) => {
            let is = |m: &Mention| is_thing(m) && m.rule_name(grammar) == Some(id);
            mentions::find(&tokens, grammar).iter().any(is)
        }
    }
}

fn is_thing(mention: &Mention) -> bool {
    matches!(mention.kind, Kind::Thing(_))
}
