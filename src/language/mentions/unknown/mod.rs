//! Things outside the catalogue: what is measured ("sixty foot of skirting"), what is brought up ("there's a
//! dinner bell"), and what work is said of ("replace that cover"), where the words are no others' already.

mod counted;
mod named_again;
mod short;
mod worked_on;

use super::noun_phrase::NounPhrases;
use super::thing::Thing;
use super::{Kind, Mention};
use crate::language::rules::{Form, Match, Meaning};
use rustc_hash::FxHashSet;

/// The most words of a name: "hot tub cover".
const MOST_WORDS: usize = 3;

/// Adds the unknown things to the known ones.
pub(super) fn add(phrases: &NounPhrases, found: &mut Vec<Mention>) {
    let mut taken: Vec<bool> = vec![false; phrases.ground.tokens().list.len()];
    found.iter().for_each(|m| taken[m.first..m.end].fill(true));
    let mut finder = Finder { phrases, taken };
    let short = finder.short_names();
    short.iter().for_each(|m| finder.taken[m.first..m.end].fill(true));
    let mut new = finder.measured();
    new.extend(finder.governed());
    new.extend(finder.counted());
    new.extend(finder.opening());
    let firm: FxHashSet<&str> = new.iter().filter_map(|m| finder.name_text(m)).collect();
    let again = finder.named_again(&firm, &new);
    let weak = finder.brought_up(&new, &again);
    let inside = finder.inside_work();
    let named = short.into_iter().chain(new).chain(again).chain(weak).chain(finder.subjects());
    inside.into_iter().chain(named).for_each(|mention| push_if_free(found, mention));
    found.sort_by_key(|m| m.first);
}

/// Adds a thing where no words of it are another's.
fn push_if_free(found: &mut Vec<Mention>, mention: Mention) {
    if !found.iter().any(|m| m.first < mention.end && mention.first < m.end) {
        found.push(mention);
    }
}

/// Finds names that no phrase holds.
struct Finder<'a> {
    phrases: &'a NounPhrases<'a>,
    /// Whether a token belongs to a thing already.
    taken: Vec<bool>,
}

impl<'a> Finder<'a> {
    /// Whether a token may be part of an unknown name.
    fn content(&self, at: usize) -> bool {
        let c = self.phrases.classes();
        at < self.taken.len()
            && !self.taken[at]
            && self.free(at)
            && self.is_plain(at)
            && !self.phrases.ground.is_any(at, &[c.more, c.every, c.pronoun, c.new])
    }

    /// Whether no cue holds a token.
    fn free(&self, at: usize) -> bool {
        let cover = self.phrases.ground.cover();
        let left_to_names = |m: &Match| m.meaning(self.phrases.grammar()) == Some(Meaning::Noun);
        !cover.inside(at) && cover.at(at).is_none_or(left_to_names)
    }

    /// Whether a token is a word that is neither a number nor one of the small ones.
    fn is_plain(&self, at: usize) -> bool {
        let ground = self.phrases.ground;
        !ground.is_closed(at)
            && self.phrases.grammar().numbers.get(ground.word(at)).is_none()
            && ground.tokens().said(at).starts_with(char::is_alphabetic)
    }

    /// The unknown name that begins at a token, one past its last word.
    fn name(&self, from: usize) -> Option<usize> {
        let mut end = from;
        while end - from < MOST_WORDS && self.content(end) && (end == from || self.spoken_on(end)) {
            end += 1;
        }
        let closes = end > from && !(self.spoken_on(end) && self.content(end));
        let c = self.phrases.classes();
        let noun = !self.phrases.ground.is_any(end.max(1) - 1, &[c.no_thing, c.adjective]);
        (closes && noun).then_some(end)
    }

    fn spoken_on(&self, at: usize) -> bool {
        self.phrases.ground.spoken_on(at)
    }

    fn mention(&self, from: usize, end: usize) -> Mention {
        let head = self.phrases.ground.word(end - 1);
        let plural = self.phrases.ground.tokens().said(end - 1).ends_with('s');
        self.phrases.phrase(Thing { name: (from, end), head, plural, ..Thing::default() })
    }

    /// Past the words that open a noun phrase; none where there are none.
    fn skip_openers(&self, from: usize) -> Option<usize> {
        let p = self.phrases;
        let c = p.classes();
        let mut at = from;
        while self.spoken_on(at) {
            if let Some(amount) = p.ground.amounts().iter().find(|a| a.first == at && !a.of_them) {
                at = amount.end;
            } else if p.ground.is_any(at, &[c.definite, c.indefinite, c.more, c.every, c.new]) {
                at += 1;
            } else if at > from && p.is(at, c.adjective) && p.is(at, c.function) {
                at += 1; // an old antenna
            } else {
                break;
            }
        }
        (at > from && self.spoken_on(at)).then_some(at)
    }

    /// A name as it stands in the text.
    fn name_text(&self, mention: &Mention) -> Option<&'a str> {
        let Kind::Thing(thing) = &mention.kind else { return None };
        let tokens = self.phrases.ground.tokens();
        let (from, to) = (tokens.list[thing.name.0].text, tokens.list[thing.name.1 - 1].text);
        Some(&tokens.text[from.join(to).range()])
    }

    /// Whether work is said from a token on.
    fn work_at(&self, at: usize) -> bool {
        let ground = self.phrases.ground;
        ground.cover().at(at).is_some_and(|m| m.first == at)
            && matches!(ground.meaning_at(at), Some(Meaning::Work(..) | Meaning::Same(_)))
    }

    /// Whether work that takes an object ends right before a token.
    fn work_ends(&self, at: usize) -> bool {
        let cover = self.phrases.ground.cover();
        at > 0 && cover.at(at - 1).is_some_and(|m| m.end == at && self.takes_object(m))
    }

    fn takes_object(&self, found: &Match) -> bool {
        matches!(found.meaning(self.phrases.grammar()), Some(Meaning::Work(_, Form::Object | Form::Either)))
    }
}
