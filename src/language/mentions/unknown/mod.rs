//! Things outside the catalogue: what is measured ("sixty foot of skirting"), what is brought up ("there's a
//! dinner bell"), and what work is said of ("replace that cover"), where the words are no others' already.

use super::phrase::Phrases;
use super::thing::Thing;
use super::{Kind, Mention};
use crate::language::rules::{Form, Meaning, Target};
use crate::language::tokens::Break;
use rustc_hash::FxHashSet;

/// How far behind a name its place and its length may be told, in tokens.
const OF_REACH: usize = 8;

/// The most words of a name: "hot tub cover".
const MOST_WORDS: usize = 3;

/// How far behind a counted name its work may stand, in tokens.
const WORK_REACH: usize = 6;

/// Adds the unknown things to the known ones.
pub(super) fn add(phrases: &Phrases, found: &mut Vec<Mention>) {
    let mut taken: Vec<bool> = vec![false; phrases.tokens.list.len()];
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
    let subjects = finder.subjects();
    let inside = finder.inside_work();
    for mention in inside {
        let named =
            |m: &Mention| matches!(m.kind, Kind::Thing(_)) && m.first < mention.end && mention.first < m.end;
        if !found.iter().any(named) {
            found.push(mention);
        }
    }
    let named = short.into_iter().chain(new).chain(again).chain(weak).chain(subjects);
    for mention in named {
        if !found.iter().any(|m| m.first < mention.end && mention.first < m.end) {
            found.push(mention);
        }
    }
    found.sort_by_key(|m| m.first);
}

struct Finder<'a> {
    phrases: &'a Phrases<'a>,
    taken: Vec<bool>,
}

impl<'a> Finder<'a> {
    /// Whether a token may be part of an unknown name.
    fn content(&self, at: usize) -> bool {
        let p = self.phrases;
        let c = p.classes();
        let besides = [c.more, c.every, c.pronoun, c.new];
        at < self.taken.len()
            && !self.taken[at]
            && self.free(at)
            && !c.closed().iter().chain(&besides).any(|class| p.is(at, *class))
            && p.grammar.numbers.get(p.word(at)).is_none()
            && p.tokens.said(at).starts_with(char::is_alphabetic)
    }

    /// Whether no cue holds a token.
    fn free(&self, at: usize) -> bool {
        !self.phrases.cover.inside(at)
            && self.phrases.cover.at(at).is_none_or(|m| match m.target {
                Target::Rule(rule) => self.phrases.grammar.rules[usize::from(rule)].meaning == Meaning::Noun,
                Target::Item { .. } => false,
            })
    }

    /// "that vent", "the wrap", "those wraps": the last word of a longer name, behind a word that points.
    fn short_names(&self) -> Vec<Mention> {
        let p = self.phrases;
        let pointed = |at: usize| {
            (1..=2).any(|n| {
                at >= n
                    && (at + 1 - n..=at).all(|t| self.spoken_on(t))
                    && (p.is(at - n, p.classes().definite) || p.is(at - n, p.classes().every))
                    && (n == 1 || self.content(at - 1))
            })
        };
        let counted = |at: usize| self.spoken_on(at) && (p.count_before(at) || p.is(at - 1, p.classes().new));
        let of_it = |at: usize| {
            self.spoken_on(at + 1)
                && matches!(p.text(at + 1), "on" | "around")
                && matches!(
                    p.text(at + 2),
                    "it" | "them" | "those" | "that" | "all" | "both" | "each" | "every"
                )
        }; // wrap on them, wrap on all six
        // "bay window, wrap is dented, replace wrap"
        let bare_part = |at: usize| {
            let apart = p.tokens.list[at].before != Break::None && p.is(at + 1, p.classes().be);
            p.grammar.is_part(p.word(at)) && (apart || self.spoken_on(at) && self.work_ends(at))
        };
        let free = |at: usize| !self.taken[at] && self.free(at);
        let short = |at: &usize| {
            p.grammar.is_head(p.word(*at))
                && free(*at)
                && (pointed(*at) || counted(*at) || of_it(*at) || bare_part(*at))
        };
        (1..self.taken.len())
            .filter(short)
            .map(|at| {
                let mut mention = self.mention(at, at + 1);
                if let Kind::Thing(thing) = &mut mention.kind {
                    thing.short = true;
                }
                mention
            })
            .collect()
    }

    /// The unknown name that begins at a token, one past its last word.
    fn name(&self, from: usize) -> Option<usize> {
        let mut end = from;
        while end - from < MOST_WORDS && self.content(end) && (end == from || self.spoken_on(end)) {
            end += 1;
        }
        let closes = end > from && !(self.spoken_on(end) && self.content(end));
        let c = self.phrases.classes();
        let noun =
            !self.phrases.is(end.max(1) - 1, c.no_thing) && !self.phrases.is(end.max(1) - 1, c.adjective);
        (closes && noun).then_some(end)
    }

    fn spoken_on(&self, at: usize) -> bool {
        self.phrases.tokens.list.get(at).is_some_and(|t| t.before == Break::None)
    }

    fn mention(&self, from: usize, end: usize) -> Mention {
        let head = self.phrases.word(end - 1);
        let plural = self.phrases.tokens.said(end - 1).ends_with('s');
        self.phrases.phrase(Thing { name: (from, end), head, plural, ..Thing::default() })
    }

    /// "take the swamp cooler off and don't put it back": named in the middle of the work.
    fn inside_work(&self) -> Vec<Mention> {
        let p = self.phrases;
        let c = p.classes();
        let inside = |m: &crate::language::rules::Match| {
            let opener = (m.first + 1..m.end).find(|t| p.is(*t, c.definite) || p.is(*t, c.indefinite))?;
            let ends =
                |t: usize| matches!(p.text(t), "off" | "down" | "loose" | "out" | "and" | "back" | "then");
            let end = (opener + 1..m.end).find(|t| ends(*t))?;
            let plain = |t: usize| {
                !c.closed()
                    .iter()
                    .chain(&[c.pronoun, c.every, c.more, c.no_thing])
                    .any(|class| p.is(t, *class))
                    && p.grammar.numbers.get(p.word(t)).is_none()
                    && p.tokens.said(t).starts_with(char::is_alphabetic)
            };
            let named = end > opener + 1 && end - opener - 1 <= MOST_WORDS && (opener + 1..end).all(plain);
            named.then(|| self.mention(opener + 1, end))
        };
        let comes_off = |m: &crate::language::rules::Match| match m.target {
            Target::Rule(rule) => matches!(
                p.grammar.rules[usize::from(rule)].meaning,
                Meaning::Off(Form::Object | Form::Either)
            ),
            Target::Item { .. } => false,
        };
        let works = p.cover.matches.iter().filter(|m| self.takes_object(m.target) || comes_off(m));
        works.filter_map(inside).collect()
    }

    /// "the wreath hook comes off and goes back on": what work behind it is said of.
    fn subjects(&self) -> Vec<Mention> {
        let p = self.phrases;
        let behind = |m: &&crate::language::rules::Match| match m.target {
            Target::Rule(rule) => {
                matches!(
                    p.grammar.rules[usize::from(rule)].meaning,
                    Meaning::Work(_, Form::Predicate) | Meaning::Off(Form::Predicate)
                )
            }
            Target::Item { .. } => false,
        };
        p.cover.matches.iter().filter(behind).filter_map(|m| self.subject(m.first)).collect()
    }

    fn subject(&self, verb: usize) -> Option<Mention> {
        let p = self.phrases;
        let c = p.classes();
        let mut end = verb;
        while end > 0
            && (p.is(end - 1, c.be)
                || p.is(end - 1, c.have)
                || matches!(p.text(end - 1), "too" | "also" | "needs" | "need" | "to" | "just" | "must"))
        {
            end -= 1;
        }
        let first = (1..=MOST_WORDS).take_while(|n| end >= *n && self.content(end - n)).last()?;
        let from = end - first;
        let opened = from > 0
            && self.spoken_on(from)
            && p.text(from - 1) != "them"
            && (p.is(from - 1, c.definite) || p.is(from - 1, c.indefinite));
        let whole = (from + 1..end).all(|t| self.spoken_on(t));
        let opened = opened
            || from > 0
                && p.tokens.list[from].before == Break::Sentence
                && p.tokens.list[from].doubt.is_none();
        let modal =
            matches!(p.text(end - 1), "can" | "could" | "will" | "would" | "should" | "might" | "may");
        (opened && whole && !modal && self.name(from) == Some(end)).then(|| self.mention(from, end))
    }

    /// "sixty foot of skirting".
    fn measured(&self) -> Vec<Mention> {
        let with_unit =
            self.phrases.amounts.iter().filter(|a| a.unit.is_some() && a.by.is_none() && !a.of_them);
        with_unit
            .filter_map(|a| {
                let of =
                    self.spoken_on(a.end) && self.phrases.text(a.end) == "of" && self.spoken_on(a.end + 1);
                let from =
                    a.end + 1 + usize::from(self.phrases.is(a.end + 1, self.phrases.classes().definite));
                let end = of.then(|| self.name(from)).flatten()?;
                Some(self.mention(from, end))
            })
            .collect()
    }

    /// "replace that cover", "put on two new post caps".
    fn governed(&self) -> Vec<Mention> {
        self.phrases
            .cover
            .matches
            .iter()
            .filter(|m| self.takes_object(m.target))
            .filter_map(|m| {
                if !self.spoken_on(m.end) {
                    return None;
                }
                let from = self.skip_openers(m.end)?;
                Some(self.mention(from, self.name(from)?))
            })
            .collect()
    }

    /// "one weather vane, detach and reset": a number before it, and work behind it.
    fn counted(&self) -> Vec<Mention> {
        let plain = self.phrases.amounts.iter().filter(|a| a.unit.is_none() && a.by.is_none() && !a.of_them);
        let named = plain.filter(|a| self.spoken_on(a.end)).filter_map(|a| Some((a.end, self.name(a.end)?)));
        named.filter(|(_, end)| self.work_behind(*end)).map(|(from, end)| self.mention(from, end)).collect()
    }

    /// "Weather vane, detach and reset.": it opens a sentence, and work follows at once.
    fn opening(&self) -> Vec<Mention> {
        let opens = |at: &usize| self.phrases.tokens.list[*at].before == Break::Sentence;
        let named = (0..self.taken.len()).filter(opens).filter_map(|at| Some((at, self.name(at)?)));
        let noun =
            |end: usize| !["ed", "ing", "ly"].iter().any(|e| self.phrases.tokens.said(end - 1).ends_with(e));
        let measured = |end: usize| self.phrases.amounts.iter().any(|a| a.first == end);
        // "Weather strip, thirty foot of it's loose."
        let long = |end: usize| {
            let from = self.past_hedge(end);
            self.phrases.amounts.iter().any(|a| a.first == from && a.unit.is_some())
        };
        let fits = |(_, end): &(usize, usize)| {
            !self.spoken_on(*end)
                && (noun(*end) && (self.work_next(*end) || self.work_later(*end))
                    || measured(*end) && self.work_next(*end))
                || noun(*end) && (self.placed_and_measured(*end) || long(*end))
        };
        named.filter(fits).map(|(from, end)| self.mention(from, end)).collect()
    }

    /// Behind the "about" of "about thirty foot", where one stands there.
    fn past_hedge(&self, at: usize) -> usize {
        let hedge = |m: &&crate::language::rules::Match| match m.target {
            Target::Rule(rule) => self.phrases.grammar.rules[usize::from(rule)].meaning == Meaning::Rough,
            Target::Item { .. } => false,
        };
        self.phrases.cover.at(at).filter(hedge).map_or(at, |m| m.end)
    }

    /// "weather strip around the door, thirty foot, replace".
    fn placed_and_measured(&self, end: usize) -> bool {
        let p = self.phrases;
        let placed = self.spoken_on(end) && p.is(end, p.classes().preposition);
        let measured = p.amounts.iter().find(|a| a.first > end && a.unit.is_some());
        placed
            && measured.is_some_and(|a| {
                a.first <= end + OF_REACH
                    && (end + 1..a.first).all(|t| self.spoken_on(t))
                    && p.tokens.list[a.first].before == Break::Comma
                    && self.work_at(a.end)
            })
    }

    /// Whether work is said a few words behind a token, in the same sentence.
    fn work_behind(&self, from: usize) -> bool {
        let list = &self.phrases.tokens.list;
        let near =
            (from..list.len().min(from + WORK_REACH)).take_while(|t| list[*t].before != Break::Sentence);
        near.into_iter().any(|t| self.work_at(t))
    }

    /// "Trampoline, frame's bent, replace.": work later in the sentence, and no other thing before it.
    fn work_later(&self, from: usize) -> bool {
        let list = &self.phrases.tokens.list;
        if list.get(from).is_none_or(|t| t.before != Break::Comma) {
            return false;
        }
        let near =
            (from..list.len().min(from + WORK_REACH)).take_while(|t| list[*t].before != Break::Sentence);
        let mut free = near.take_while(|t| !self.taken[*t]);
        free.any(|t| self.work_at(t))
    }

    /// Whether work is said at a token, or right behind the amount that stands there.
    fn work_next(&self, at: usize) -> bool {
        let amount = self.phrases.amounts.iter().find(|a| a.first == at);
        self.work_at(amount.map_or(at, |a| a.end))
    }

    fn work_at(&self, at: usize) -> bool {
        self.phrases.cover.at(at).is_some_and(|m| match m.target {
            Target::Rule(rule) => {
                let meaning = self.phrases.grammar.rules[usize::from(rule)].meaning;
                m.first == at && matches!(meaning, Meaning::Work(..) | Meaning::Same(_))
            }
            Target::Item { .. } => false,
        })
    }

    /// Whether work that takes an object ends right before a token.
    fn work_ends(&self, at: usize) -> bool {
        at > 0 && self.phrases.cover.at(at - 1).is_some_and(|m| m.end == at && self.takes_object(m.target))
    }

    fn takes_object(&self, target: Target) -> bool {
        let Target::Rule(rule) = target else { return false };
        matches!(
            self.phrases.grammar.rules[usize::from(rule)].meaning,
            Meaning::Work(_, Form::Object | Form::Either)
        )
    }

    /// Past the words that open a noun phrase; none where there are none.
    fn skip_openers(&self, from: usize) -> Option<usize> {
        let p = self.phrases;
        let c = p.classes();
        let mut at = from;
        while self.spoken_on(at) {
            if let Some(amount) = p.amounts.iter().find(|a| a.first == at && !a.of_them) {
                at = amount.end;
            } else if [c.definite, c.indefinite, c.more, c.every, c.new].iter().any(|class| p.is(at, *class))
            {
                at += 1;
            } else if at > from && p.is(at, c.adjective) && p.is(at, c.function) {
                at += 1; // an old antenna
            } else {
                break;
            }
        }
        (at > from && self.spoken_on(at)).then_some(at)
    }

    fn name_text(&self, mention: &Mention) -> Option<&'a str> {
        let Kind::Thing(thing) = &mention.kind else { return None };
        let list = &self.phrases.tokens.list;
        let (from, to) = (list[thing.name.0].text, list[thing.name.1 - 1].text);
        Some(&self.phrases.tokens.text[from.join(to).range()])
    }

    /// Another mention of what was firmly named elsewhere: "Skirting, twenty foot more".
    fn named_again(&self, firm: &FxHashSet<&str>, already: &[Mention]) -> Vec<Mention> {
        let mut found: Vec<Mention> = Vec::new();
        for at in 0..self.taken.len() {
            let free = found.last().is_none_or(|m| m.end <= at)
                && !already.iter().any(|m| m.first <= at && at < m.end);
            if !free || !self.content(at) {
                continue;
            }
            let mention =
                (1..=MOST_WORDS).rev().filter(|n| (at..at + n).all(|t| self.content(t))).find_map(|n| {
                    let mention = self.mention(at, at + n);
                    let same = self
                        .name_text(&mention)
                        .is_some_and(|t| firm.iter().any(|f| f.eq_ignore_ascii_case(t)));
                    same.then_some(mention)
                });
            found.extend(mention);
        }
        found
    }

    /// "there's a dinner bell": a thing only if work is said of it later.
    fn brought_up(&self, firm: &[Mention], again: &[Mention]) -> Vec<Mention> {
        let p = self.phrases;
        let c = p.classes();
        let near = |at: usize| firm.iter().chain(again).any(|m| m.first <= at + 1 && at < m.end);
        (1..self.taken.len())
            .filter(|at| (p.is(at - 1, c.have) || p.is(at - 1, c.be)) && self.spoken_on(*at) && !near(*at))
            .filter_map(|at| {
                let here = at > 1 && matches!(p.text(at - 2), "there" | "here");
                let pointed_out = p.is(at, c.definite) && (p.is(at - 1, c.have) || here);
                let opens = p.is(at, c.indefinite) || p.is(at, c.more) || pointed_out;
                let from = opens.then(|| self.skip_openers(at)).flatten()?;
                let mut mention = self.mention(from, self.name(from)?);
                if let Kind::Thing(thing) = &mut mention.kind {
                    thing.weak = true;
                }
                Some(mention)
            })
            .collect()
    }
}
