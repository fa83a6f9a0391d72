//! The little language of phrases in the rules files.
//!
//! | in a phrase | matches |
//! |---|---|
//! | `gutter guard` | these words, in any case, however they are joined or contracted |
//! | `(take\|pull)` | one of these; an alternative may have several words |
//! | `[the]`, `[all\|both]` | these or nothing |
//! | `<be>` | a word of that class in `classes.toml` |
//! | `_` | up to four words, whatever they are |
//!
//! A long phrase may go on over several lines: blanks and line ends part words and say nothing else.

use crate::language::tokens::split_word;
use crate::language::vocabulary::{SetId, Vocabulary, WordId};

/// How many words `_` may stand for.
const GAP: u8 = 4;

/// One step of a phrase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Step {
    /// This word.
    Word(WordId),
    /// One of these words.
    OneOf(SetId),
    /// Up to so many words.
    Gap(u8),
}

impl Step {
    /// The words that may stand here; none for a gap, where any may.
    pub(super) fn words(&self, vocabulary: &Vocabulary) -> Vec<WordId> {
        match self {
            Self::Word(word) => vec![*word],
            Self::OneOf(set) => vocabulary.words_of(*set).to_vec(),
            Self::Gap(_) => Vec::new(),
        }
    }
}

/// A phrase as it is told: a long one is written over several lines.
pub(super) fn on_one_line(phrase: &str) -> String {
    phrase.split_whitespace().collect::<Vec<_>>().join(" ").replace(" |", "|")
}

/// Every sequence of steps that a phrase stands for.
///
/// # Errors
/// What is wrong with the phrase, in words.
pub(super) fn expand(phrase: &str, vocabulary: &mut Vocabulary) -> Result<Vec<Vec<Step>>, String> {
    let mut reader = Reader { rest: phrase.trim(), vocabulary };
    let all = reader.alternatives(None)?;
    if let Some(open) = all.iter().find(|s| s.iter().all(|step| matches!(step, Step::Gap(_)))) {
        return Err(if open.is_empty() {
            "a phrase needs at least one word that must be said".into()
        } else {
            "a phrase can't be only `_`".into()
        });
    }
    Ok(all)
}

struct Reader<'a> {
    rest: &'a str,
    vocabulary: &'a mut Vocabulary,
}

impl Reader<'_> {
    /// Sequences divided by `|`, up to the closing bracket.
    fn alternatives(&mut self, close: Option<char>) -> Result<Vec<Vec<Step>>, String> {
        let mut all = Vec::new();
        let mut current = vec![Vec::new()];
        loop {
            self.rest = self.rest.trim_start();
            let Some(next) = self.rest.chars().next() else {
                if let Some(close) = close {
                    return Err(format!("`{close}` is missing"));
                }
                break;
            };
            if Some(next) == close || (next == '|' && close.is_some()) {
                self.rest = &self.rest[1..];
                all.append(&mut current);
                if next != '|' {
                    return Ok(all);
                }
                current = vec![Vec::new()];
                continue;
            }
            let steps = self.element(next)?;
            current = join(&current, &steps);
        }
        all.append(&mut current);
        Ok(all)
    }

    fn element(&mut self, next: char) -> Result<Vec<Vec<Step>>, String> {
        match next {
            '(' | '[' => {
                self.rest = &self.rest[1..];
                let inner = self.alternatives(Some(if next == '(' { ')' } else { ']' }))?;
                let mut inner = self.gathered(inner);
                if next == '[' {
                    inner.push(Vec::new());
                }
                Ok(inner)
            }
            ')' | ']' | '|' => Err(format!("`{next}` has no opening bracket")),
            '<' => self.class().map(|set| vec![vec![Step::OneOf(set)]]),
            _ => Ok(vec![self.word()]),
        }
    }

    /// Alternatives of one word each become one step, so that phrases don't multiply.
    fn gathered(&mut self, inner: Vec<Vec<Step>>) -> Vec<Vec<Step>> {
        let (single, mut rest): (Vec<_>, Vec<_>) =
            inner.into_iter().partition(|s| matches!(s[..], [Step::Word(_)]));
        if single.len() < 2 {
            return single.into_iter().chain(rest).collect();
        }
        let words =
            single.iter().flatten().filter_map(|s| if let Step::Word(w) = s { Some(*w) } else { None });
        let set = self.vocabulary.set(words.collect());
        rest.insert(0, vec![Step::OneOf(set)]);
        rest
    }

    fn class(&mut self) -> Result<SetId, String> {
        let (name, rest) = self.rest[1..].split_once('>').ok_or("`>` is missing")?;
        self.rest = rest;
        let hint = super::error::did_you_mean(name, self.vocabulary.class_names());
        let class =
            self.vocabulary.class(name).ok_or_else(|| format!("there is no class `<{name}>`{hint}"))?;
        Ok(self.vocabulary.class_as_set(class))
    }

    fn word(&mut self) -> Vec<Step> {
        let end =
            self.rest.find(|c: char| c.is_whitespace() || "()[]|<".contains(c)).unwrap_or(self.rest.len());
        let (word, rest) = self.rest.split_at(end);
        self.rest = rest;
        if word == "_" {
            return vec![Step::Gap(GAP)];
        }
        if word.starts_with('\'') {
            return vec![Step::Word(self.vocabulary.add(word))]; // a contraction's ending: 's, 'd
        }
        let mut steps = Vec::new();
        split_word(word, |piece, _| {
            let lower = piece.to_lowercase();
            match self.vocabulary.spelled(&lower) {
                Some(parts) => steps.extend(parts.iter().map(|p| Step::Word(*p))),
                None => steps.push(Step::Word(self.vocabulary.add(&lower))),
            }
        });
        if steps.is_empty() {
            steps.push(Step::Word(self.vocabulary.add(word))); // the mark of feet or inches
        }
        steps
    }
}

fn join(left: &[Vec<Step>], right: &[Vec<Step>]) -> Vec<Vec<Step>> {
    left.iter().flat_map(|l| right.iter().map(move |r| [l.as_slice(), r].concat())).collect()
}
