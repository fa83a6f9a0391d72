//! Where a narration may have been misheard: runs of words that sound like an item's name, or a phrase that the rules
//! know by its sound, and are none.

use super::weigh::Clues;
use crate::language::phonetics::Phone;
use crate::language::phrases::Groundwork;
use crate::language::rules::{Grammar, Meaning, Named, Target};
use crate::language::tokens::{Break, Tokens};
use crate::language::vocabulary::WordId;
use crate::speech::Transcript;
use rustc_hash::{FxHashMap, FxHashSet};

/// The most words that a name is taken for.
const MOST_WORDS: usize = 4;

/// Names that sound less alike than this are no candidates.
pub(super) const LEAST_ALIKE: f64 = 0.75;

/// By how many phones the name may be longer than what was written.
const LONGER: usize = 3;

/// A word of more letters is no name misheard, and isn't sounded out: the longest of large dictionaries have 45.
const LONGEST_WORD: usize = 60;

/// What a recogniser may have misheard.
#[derive(Debug, Clone)]
pub struct Candidate {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// The words of the name that it sounds like.
    pub words: Vec<WordId>,
    /// What speaks for it and against it.
    pub clues: Clues,
}

/// A name's length as a clue: beyond fourteen phones none is more telling.
fn length(phones: usize) -> f64 {
    phones.min(14) as f64 / 14.0
}

/// Everything that may have been misheard, for each run of words the likest name. `enough` tells from all clues but
/// those of the name how alike a name must sound to be of interest; a fit, to which all are, says 0.
pub fn candidates(
    tokens: &Tokens,
    transcript: &Transcript,
    grammar: &Grammar,
    enough: impl Fn(&Clues) -> f64,
) -> Vec<Candidate> {
    let ground = Groundwork::new(tokens, grammar);
    let named = ground.cover.matches.iter().filter_map(|m| match m.target {
        Target::Item { item, .. } => Some(Named::Item(item)),
        Target::Rule(_) => None,
    });
    let doubts = transcript.words().map(|w| w.probability.map(|p| 1.0 - f64::from(p))).collect();
    let (sounds, known_words) = sounded(tokens, grammar).into_iter().unzip();
    let searcher =
        Searcher { tokens, grammar, named: named.collect(), ground: &ground, doubts, sounds, known_words };
    (0..tokens.list.len())
        .flat_map(|first| (1..=MOST_WORDS).map(move |words| (first, first + words)))
        .filter_map(|(first, end)| searcher.candidate(first, end, &enough))
        .collect()
}

/// How each token sounds, and whether it is a word of English. Most words come often, and are looked up once.
fn sounded(tokens: &Tokens, grammar: &Grammar) -> Vec<(Vec<Phone>, bool)> {
    let mut looked_up: FxHashMap<String, (Vec<Phone>, bool)> = FxHashMap::default();
    let mut sounded = |token: usize| {
        let word = tokens.said(token).to_lowercase();
        if word.len() > LONGEST_WORD {
            return (Vec::new(), false);
        }
        let look_up = |word: &String| (grammar.sounds.phones(word), grammar.sounds.knows(word));
        looked_up.entry(word).or_insert_with_key(look_up).clone()
    };
    (0..tokens.list.len()).map(&mut sounded).collect()
}

struct Searcher<'a> {
    tokens: &'a Tokens,
    grammar: &'a Grammar,
    ground: &'a Groundwork,
    named: FxHashSet<Named>,
    /// By the transcript's words, from 0 to 1; none where nobody told.
    doubts: Vec<Option<f64>>,
    /// By token.
    sounds: Vec<Vec<Phone>>,
    /// Whether it is a word of English, by token.
    known_words: Vec<bool>,
}

impl Searcher<'_> {
    fn candidate(&self, first: usize, end: usize, enough: impl Fn(&Clues) -> f64) -> Option<Candidate> {
        let list = &self.tokens.list;
        if end > list.len() || !self.in_one_breath(first, end) || !(first..end).any(|t| self.open(t)) {
            return None;
        }
        if !(first..end).all(|t| self.may_be_misheard(t, first, end)) || self.names_an_item(first, end) {
            return None;
        }
        let phones: Vec<Phone> = self.sounds[first..end].concat();
        let unnamed = Clues {
            alike: 0.0,
            ahead: 0.0,
            length: length(phones.len() + LONGER),
            doubt: self.doubt(first, end),
            no_word: self.share(first, end, |t| !self.known_words[t]),
            known: self.share(first, end, |t| list[t].word != crate::language::vocabulary::UNKNOWN),
            held: self.share(first, end, |t| !self.open(t)),
            counted: f64::from(self.counted(first)),
            worked_on: f64::from(self.worked_on(end)),
            named_too: 0.0,
            unlike_count: 0.0,
        };
        let least = enough(&unnamed).max(LEAST_ALIKE);
        if least > 1.0 {
            return None;
        }
        let like = self.grammar.names.like(&phones, least, &self.grammar.vocabulary, &self.grammar.sounds);
        let (name, alike) = *like.first()?;
        let named_inside = self.ground.cover.matches.iter().any(|m| {
            let named = match m.target {
                Target::Item { item, .. } => Named::Item(item),
                Target::Rule(rule) => Named::Rule(rule),
            };
            first <= m.first && m.end <= end && named == name.named
        });
        if named_inside {
            return None; // "single garage doors" is named as it stands
        }
        let rival = like.iter().find(|(other, _)| other.named != name.named).map_or(LEAST_ALIKE, |(_, l)| *l);
        let clues = Clues {
            alike,
            ahead: alike - rival.min(alike),
            length: length(name.phones.len()),
            named_too: f64::from(self.named.contains(&name.named)),
            unlike_count: (end - first).abs_diff(name.words.len()) as f64,
            ..unnamed
        };
        Some(Candidate { first, end, words: name.words.clone(), clues })
    }

    fn in_one_breath(&self, first: usize, end: usize) -> bool {
        (first + 1..end).all(|t| self.tokens.list[t].before == Break::None)
    }

    /// Whether a token stands for nothing yet that the rules know.
    fn open(&self, token: usize) -> bool {
        let (word, classes) = (self.tokens.list[token].word, &self.grammar.classes);
        let closed = classes.closed().iter().any(|class| self.grammar.vocabulary.is(word, *class));
        let letters = self.tokens.said(token).starts_with(char::is_alphabetic);
        let held = self.ground.cover.at(token).is_some_and(|m| match m.target {
            Target::Rule(rule) => self.grammar.rules[usize::from(rule)].meaning != Meaning::Noun,
            Target::Item { .. } => true,
        });
        letters && !closed && !held && self.grammar.numbers.get(word).is_none()
    }

    /// Whether a token may be part of what was misheard: no number and no unit, no part of a phrase that goes on
    /// outside, and no small word at either end but the "it" of "spig it".
    fn may_be_misheard(&self, token: usize, first: usize, end: usize) -> bool {
        let (word, classes) = (self.tokens.list[token].word, &self.grammar.classes);
        let inside = self.ground.cover.at(token).is_none_or(|m| first <= m.first && m.end <= end);
        let opens =
            token == first && classes.closed().iter().any(|class| self.grammar.vocabulary.is(word, *class));
        let closes = token + 1 == end
            && end - first > 1
            && !self.tokens.said(token).eq_ignore_ascii_case("it")
            && classes.closed().iter().any(|class| self.grammar.vocabulary.is(word, *class));
        inside
            && !opens
            && !closes
            && self.grammar.numbers.get(word).is_none()
            && !self.grammar.begins_a_unit(word)
            && self.tokens.said(token).starts_with(char::is_alphabetic)
            && self.tokens.said(token).len() <= LONGEST_WORD
    }

    /// Whether the run is an item's name as it stands.
    fn names_an_item(&self, first: usize, end: usize) -> bool {
        self.ground.cover.item_from(first).is_some_and(|m| m.end == end)
    }

    fn doubt(&self, first: usize, end: usize) -> f64 {
        let told = (first..end).filter_map(|t| self.doubts[self.tokens.list[t].heard as usize]);
        told.reduce(f64::max).unwrap_or(USUAL_DOUBT)
    }

    fn share(&self, first: usize, end: usize, is: impl Fn(usize) -> bool) -> f64 {
        (first..end).filter(|t| is(*t)).count() as f64 / (end - first) as f64
    }

    /// "two", "the", "new", "of" right before.
    fn counted(&self, first: usize) -> bool {
        let Some(before) = first.checked_sub(1) else { return false };
        let (word, classes) = (self.tokens.list[before].word, &self.grammar.classes);
        let opens = [classes.definite, classes.indefinite, classes.new, classes.every, classes.more];
        self.tokens.list[first].before == Break::None
            && (self.ground.amount_over(before).is_some()
                || self.tokens.said(before).eq_ignore_ascii_case("of")
                || opens.iter().any(|class| self.grammar.vocabulary.is(word, *class)))
    }

    /// Whether work is said right behind.
    fn worked_on(&self, end: usize) -> bool {
        (end..(end + 2).min(self.tokens.list.len())).any(|t| {
            self.ground.cover.at(t).is_some_and(|m| match m.target {
                Target::Rule(rule) => matches!(
                    self.grammar.rules[usize::from(rule)].meaning,
                    Meaning::Work(..) | Meaning::Same(_) | Meaning::Off(_)
                ),
                Target::Item { .. } => false,
            })
        })
    }
}

/// The doubt of words that come as text: as much as of a recogniser's word that it is fairly sure of.
const USUAL_DOUBT: f64 = 0.3;
