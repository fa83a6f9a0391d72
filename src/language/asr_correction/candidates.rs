//! Where a narration may have been misheard: runs of words that sound like an item's name, or a phrase that the rules
//! know by its sound, and are none.

use super::weigh::Clues;
use crate::language::phonetics::Phone;
use crate::language::phrases::Groundwork;
use crate::language::rules::{Grammar, Match, Meaning, Named, Target};
use crate::language::tokens::Tokens;
use crate::language::vocabulary::{UNKNOWN, WordId};
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
    ground: &Groundwork,
    transcript: &Transcript,
    enough: impl Fn(&Clues) -> f64,
) -> Vec<Candidate> {
    let (tokens, grammar) = (ground.tokens(), ground.grammar());
    let named = ground.cover().matches.iter().filter(|m| m.is_item()).map(named_by);
    let doubts = transcript.words().map(|w| w.probability.map(|p| 1.0 - f64::from(p))).collect();
    let (sounds, known_words) = sounded(tokens, grammar).into_iter().unzip();
    let searcher = Searcher { tokens, grammar, named: named.collect(), ground, doubts, sounds, known_words };
    (0..tokens.list.len())
        .flat_map(|first| (1..=MOST_WORDS).map(move |words| (first, first + words)))
        .filter_map(|(first, end)| searcher.candidate(first, end, &enough))
        .collect()
}

/// What a match names.
fn named_by(found: &Match) -> Named {
    match found.target {
        Target::Item { item, .. } => Named::Item(item),
        Target::Rule(rule) => Named::Rule(rule),
    }
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
    ground: &'a Groundwork<'a>,
    named: FxHashSet<Named>,
    /// By the transcript's words, from 0 to 1; none where nobody told.
    doubts: Vec<Option<f64>>,
    /// By token.
    sounds: Vec<Vec<Phone>>,
    /// Whether it is a word of English, by token.
    known_words: Vec<bool>,
}

impl Searcher<'_> {
    /// The likeliest name for a run of words, where it could be one.
    fn candidate(&self, first: usize, end: usize, enough: impl Fn(&Clues) -> f64) -> Option<Candidate> {
        if !self.may_be_a_name(first, end) {
            return None;
        }
        let phones: Vec<Phone> = self.sounds[first..end].concat();
        let unnamed = self.clues_around(first, end, phones.len());
        let least = enough(&unnamed).max(LEAST_ALIKE);
        if least > 1.0 {
            return None;
        }
        let like = self.grammar.names.like(&phones, least, &self.grammar.vocabulary, &self.grammar.sounds);
        let (name, alike) = *like.first()?;
        let named_inside = |m: &Match| first <= m.first && m.end <= end && named_by(m) == name.named;
        if self.ground.cover().matches.iter().any(named_inside) {
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

    /// Whether a run of words is said in one breath and isn't all accounted for.
    fn may_be_a_name(&self, first: usize, end: usize) -> bool {
        end <= self.tokens.list.len()
            && (first + 1..end).all(|t| self.ground.spoken_on(t))
            && (first..end).any(|t| self.open(t))
            && (first..end).all(|t| self.may_be_misheard(t, first, end))
            && !self.names_an_item(first, end)
    }

    /// What speaks for and against a run of words that sound so long, whatever the name.
    fn clues_around(&self, first: usize, end: usize, phones: usize) -> Clues {
        Clues {
            alike: 0.0,
            ahead: 0.0,
            length: length(phones + LONGER),
            doubt: self.doubt(first, end),
            no_word: self.share(first, end, |t| !self.known_words[t]),
            known: self.share(first, end, |t| self.ground.word(t) != UNKNOWN),
            held: self.share(first, end, |t| !self.open(t)),
            counted: f64::from(self.counted(first)),
            worked_on: f64::from(self.worked_on(end)),
            named_too: 0.0,
            unlike_count: 0.0,
        }
    }

    /// Whether a token stands for nothing yet that the rules know.
    fn open(&self, token: usize) -> bool {
        let held =
            self.ground.cover().at(token).is_some_and(|m| m.meaning(self.grammar) != Some(Meaning::Noun));
        self.in_letters(token) && !self.ground.is_closed(token) && !held && !self.is_number(token)
    }

    /// Whether a token may be part of what was misheard: no number and no unit, no part of a phrase that goes on
    /// outside, and no small word at either end but the "it" of "spig it".
    fn may_be_misheard(&self, token: usize, first: usize, end: usize) -> bool {
        let inside = self.ground.cover().at(token).is_none_or(|m| first <= m.first && m.end <= end);
        let closed = self.ground.is_closed(token);
        let closes =
            token + 1 == end && end - first > 1 && !self.ground.is(token, self.grammar.classes.name_tail);
        inside
            && !(closed && (token == first || closes))
            && !self.is_number(token)
            && !self.grammar.begins_a_unit(self.ground.word(token))
            && self.in_letters(token)
            && self.tokens.said(token).len() <= LONGEST_WORD
    }

    fn in_letters(&self, token: usize) -> bool {
        self.tokens.said(token).starts_with(char::is_alphabetic)
    }

    fn is_number(&self, token: usize) -> bool {
        self.grammar.numbers.get(self.ground.word(token)).is_some()
    }

    /// Whether the run is an item's name as it stands.
    fn names_an_item(&self, first: usize, end: usize) -> bool {
        self.ground.cover().item_from(first).is_some_and(|m| m.end == end)
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
        let c = &self.grammar.classes;
        let opens = [c.definite, c.indefinite, c.new, c.every, c.more, c.of_joint];
        self.ground.spoken_on(first)
            && (self.ground.amount_over(before).is_some() || self.ground.is_any(before, &opens))
    }

    /// Whether work is said right behind.
    fn worked_on(&self, end: usize) -> bool {
        let work = |t| {
            matches!(self.ground.meaning_at(t), Some(Meaning::Work(..) | Meaning::Same(_) | Meaning::Off(_)))
        };
        (end..end + 2).any(work)
    }
}

/// The doubt of words that come as text: as much as of a recogniser's word that it is fairly sure of.
const USUAL_DOUBT: f64 = 0.3;
