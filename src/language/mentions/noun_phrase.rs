//! Noun phrases: from each item's name leftwards over adjectives, sizes, numbers and the word that opens it.

use super::thing::{Determiner, Thing};
use super::{Kind, Mention, unknown};
use crate::language::numbers::Amount;
use crate::language::phrases::Cover;
use crate::language::rules::{Classes, Grammar, LengthBefore, Match, Meaning, Target};
use crate::language::tokens::{Break, Tokens};
use crate::language::vocabulary::WordId;
use crate::model::{Side, Unit};

/// How many plain words may stand between a number and the name: "four little old wood screens".
const MOST_ADJECTIVES: usize = 3;

/// Things with the amounts that cling to them, and the amounts that cling to none.
pub(super) fn things(tokens: &Tokens, grammar: &Grammar, cover: &Cover, amounts: &[Amount]) -> Vec<Mention> {
    let phrases = Phrases { tokens, grammar, cover, amounts };
    let mut names: Vec<&Match> =
        cover.matches.iter().filter(|m| matches!(m.target, Target::Item { .. })).collect();
    names.sort_by_key(|m| m.first);
    let mut found: Vec<Mention> = names.iter().map(|m| phrases.of_item(m)).collect();
    phrases.join_compounds(&mut found);
    phrases.join_parts(&mut found);
    unknown::add(&phrases, &mut found);
    let used = |a: &&Amount| !found.iter().any(|m| m.first <= a.first && a.end <= m.end);
    let free: Vec<Mention> = amounts
        .iter()
        .filter(used)
        .map(|a| Mention { first: a.first, end: a.end, kind: Kind::Amount(*a) })
        .collect();
    found.extend(free);
    found.sort_by_key(|m| m.first);
    found
}

/// What noun phrases are read from.
pub(super) struct Phrases<'a> {
    pub tokens: &'a Tokens,
    pub grammar: &'a Grammar,
    pub cover: &'a Cover,
    pub amounts: &'a [Amount],
}

/// What came before a name, read leftwards.
#[derive(Default)]
struct Walk {
    at: usize,
    adjectives: usize,
    after_of: bool,
    done: bool,
}

impl Phrases<'_> {
    pub fn classes(&self) -> &Classes {
        &self.grammar.classes
    }

    pub fn word(&self, at: usize) -> WordId {
        self.tokens.list.get(at).map_or(0, |t| t.word)
    }

    pub fn text(&self, at: usize) -> &str {
        self.grammar.vocabulary.word(self.word(at))
    }

    pub fn is(&self, at: usize, class: crate::language::vocabulary::ClassId) -> bool {
        self.grammar.vocabulary.is(self.word(at), class)
    }

    /// "twenty square yards of siding": behind a unit that drafts lack, "of" tells what was measured, not where.
    fn measured_out(&self, of: usize) -> bool {
        let unit = |from: usize| self.grammar.unit_at(&self.tokens.list, from, true);
        let number =
            |at: usize| self.grammar.numbers.get(self.word(at)).is_some() || self.text(at).is_empty();
        self.text(of) == "of"
            && (1..3.min(of)).any(|n| number(of - n - 1) && unit(of - n).is_some_and(|u| u == (None, of)))
    }

    fn amount_ending(&self, end: usize) -> Option<&Amount> {
        let at = self.amounts.partition_point(|a| a.end < end);
        self.amounts.get(at).filter(|a| a.end == end && !a.of_them)
    }

    /// Whether a bare count stands right before a token: "three wraps".
    pub fn count_before(&self, at: usize) -> bool {
        self.amount_ending(at).is_some_and(|a| a.unit.is_none() && a.by.is_none())
    }

    /// "soffit vents": the item's name only tells what kind of another thing is meant.
    fn names_another(&self, name: &Match) -> bool {
        let next = self.tokens.list.get(name.end).filter(|t| t.before == Break::None);
        next.is_some_and(|t| self.grammar.vocabulary.is(t.word, self.classes().thing_word))
            && self.cover.at(name.end).is_none()
    }

    fn of_item(&self, name: &Match) -> Mention {
        let Target::Item { item, plural, sounds } = name.target else {
            unreachable!("only items are asked for")
        };
        let another = self.names_another(name);
        let end = name.end + usize::from(another);
        let sounds = sounds || name.tokens().any(|t| self.tokens.list[t].sounds);
        let thing = Thing {
            item: (!another).then_some(item),
            sounds,
            plural,
            name: (name.first, end),
            head: self.word(end - 1),
            ..Thing::default()
        };
        self.phrase(thing)
    }

    /// The noun phrase around a name.
    pub fn phrase(&self, mut thing: Thing) -> Mention {
        let mut walk = Walk { at: thing.name.0, ..Walk::default() };
        while walk.at > 0 && !walk.done && self.tokens.list[walk.at].before == Break::None {
            self.step(&mut thing, &mut walk);
        }
        let first = walk.at;
        let free = first > 0
            && !self.part_of_verb(first)
            && self
                .cover
                .at(first - 1)
                .is_none_or(|m| m.end - m.first == 1 || !self.holds_cue(first - 1) || self.says_nothing(m));
        if free
            && !(thing.amount.is_some() && thing.determiner == Determiner::Bare && self.is_rough(first - 1))
            && self.tokens.list[first].before == Break::None
            && self.is(first - 1, self.classes().preposition)
            && !self.measured_out(first - 1)
        {
            thing.behind = Some(self.word(first - 1));
        }
        Mention { first, end: thing.name.1, kind: Kind::Thing(Box::new(thing)) }
    }

    /// "replacing about | four sheets": a hedge, no place.
    fn is_rough(&self, at: usize) -> bool {
        self.cover.at(at).is_some_and(|m| {
            matches!(m.target, Target::Rule(r) if self.grammar.rules[usize::from(r)].meaning == Meaning::Rough)
        })
    }

    /// "right under | the deck": words that were only claimed so that they mean nothing else.
    fn says_nothing(&self, found: &Match) -> bool {
        matches!(found.target, Target::Rule(r) if self.grammar.rules[usize::from(r)].meaning == Meaning::Nothing)
    }

    /// "since they moved in | this hood": the word belongs to the verb before it.
    fn part_of_verb(&self, first: usize) -> bool {
        let (verb, word) = (self.text(first.max(2) - 2), self.text(first - 1));
        let looks = word == "at" && matches!(verb, "look" | "looked" | "looking" | "see");
        let ends = matches!(word, "in" | "on" | "off" | "up")
            && matches!(verb, "moved" | "came" | "hooked" | "plugged" | "caved");
        first > 1 && (looks || ends)
    }

    /// Takes the word or the amount to the left, or ends the phrase.
    fn step(&self, thing: &mut Thing, walk: &mut Walk) {
        let at = walk.at - 1;
        if let Some(amount) = self.amount_ending(walk.at) {
            return self.take_amount(thing, walk, *amount);
        }
        if self.holds_cue(at) {
            walk.done = true;
        } else if self.text(at) == "of" {
            self.take_of(thing, walk, at);
        } else if !self.take_opener(thing, walk, at) {
            self.take_adjective(thing, walk, at);
        }
    }

    /// Whether a token belongs to a cue that no noun phrase reaches over.
    fn holds_cue(&self, at: usize) -> bool {
        self.cover.at(at).is_some_and(|m| match m.target {
            Target::Item { .. } => true,
            Target::Rule(_)
                if m.end - m.first == 1
                    && (self.is(at, self.classes().negative) || self.is(at, self.classes().new)) =>
            {
                false
            }
            Target::Rule(rule) => match self.grammar.rules[usize::from(rule)].meaning {
                Meaning::Refer(_) | Meaning::Rough | Meaning::Noun => false,
                Meaning::Side(_) => self.side_of_thing(at).is_none(),
                _ => true,
            },
        })
    }

    /// "the front gutter": a side told in one word right before the name.
    fn side_of_thing(&self, at: usize) -> Option<Side> {
        let held = self.cover.at(at)?;
        let Target::Rule(rule) = held.target else { return None };
        let Meaning::Side(side) = self.grammar.rules[usize::from(rule)].meaning else { return None };
        let last = at + 1 == held.end || self.is(at, self.classes().definite);
        let one_word = !(held.first..held.end).any(|t| self.is(t, self.classes().side_noun));
        (last && one_word && self.is(held.end - 1, self.classes().adjective)).then_some(side)
    }

    /// "of" joins a name to an amount before it: "forty foot of gutter", "a thirty foot run of gutter".
    fn take_of(&self, thing: &Thing, walk: &mut Walk, at: usize) {
        let mut before = at;
        if before > 0 && self.text(before - 1) == "out" {
            before -= 1; // three out of the five
        }
        if before > 0
            && self.is(before - 1, self.classes().no_thing)
            && self.amount_ending(before - 1).is_some()
        {
            before -= 1;
        }
        let every = before > 0 && (self.is(before - 1, self.classes().every) || self.vague(before - 1));
        let one_piece = before < at && self.measured_item(thing) && self.count_before(before);
        if one_piece {
            walk.at = self.amount_ending(before).map_or(before, |a| a.first);
            walk.done = true; // one piece of gutter: how much it is, is said elsewhere
        } else if self.amount_ending(before).is_some() || every {
            walk.at = before;
            walk.after_of = true;
        } else {
            walk.done = true;
        }
    }

    fn measured_item(&self, thing: &Thing) -> bool {
        thing.item.is_some_and(|i| !self.grammar.items[usize::from(i)].counted())
    }

    /// "a bunch of", "some of", "a piece of": no number, but no place either.
    fn vague(&self, at: usize) -> bool {
        let number =
            self.grammar.numbers.get(self.word(at)) == Some(crate::language::rules::NumberWord::Vague);
        number
            || matches!(
                self.text(at),
                "piece" | "section" | "bit" | "part" | "stretch" | "run" | "lot" | "row" | "length"
            )
    }

    fn take_amount(&self, thing: &mut Thing, walk: &mut Walk, amount: Amount) {
        let in_pieces = |i: u16| {
            let item = &self.grammar.items[usize::from(i)];
            amount.run_on && thing.plural && amount.is_length() && !walk.after_of && item.takes(Unit::Each)
        }; // two ten foot downspouts
        let sized = thing.item.is_some_and(|i| in_pieces(i) || self.sizes(i, &amount, walk.after_of));
        if sized && amount.is_length() && amount.by.is_none() && self.tokens.list[amount.end].hesitated {
            walk.done = true; // sixteen foot, um, shutters
            return;
        }
        if amount.by.is_some() || sized {
            match self.split(&amount).filter(|_| amount.run_on) {
                Some((count, size)) => {
                    thing.size = Some(size);
                    thing.amount = Some(count);
                }
                None => thing.size = Some(amount),
            }
            walk.at = amount.first;
            return;
        }
        let of_those = |whole: &Amount| {
            walk.after_of && whole.unit.is_none() && amount.unit.is_none() && amount.low < whole.low
        };
        if thing.some.is_none() && thing.amount.as_ref().is_some_and(of_those) {
            thing.some = Some(amount); // two of the four screens
            walk.at = amount.first;
            walk.done = true;
            return;
        }
        let closed = thing.determiner != Determiner::Bare && !walk.after_of;
        walk.done = thing.amount.is_some() || closed;
        if !walk.done {
            thing.more |= self.is(amount.first, self.classes().more);
            thing.amount = Some(amount);
            walk.at = amount.first;
            walk.after_of = false;
        }
    }

    /// Whether a length right before the name tells how large each is.
    fn sizes(&self, item: u16, amount: &Amount, after_of: bool) -> bool {
        let item = &self.grammar.items[usize::from(item)];
        let thickness =
            amount.unit.is_none() && amount.high < crate::language::numbers::Exact::from_integer(1);
        if thickness && !after_of {
            return true;
        }
        if !amount.is_length() || after_of {
            return false;
        }
        let small = amount.unit == Some(Unit::Inch) && item.unit != Unit::Inch;
        small || item.counted() || item.length_before == LengthBefore::Size
    }

    /// "one ten foot gate": one, of ten foot.
    fn split(&self, amount: &Amount) -> Option<(Amount, Amount)> {
        let speaker = crate::language::numbers::Speaker { tokens: self.tokens, grammar: self.grammar };
        let rest = speaker.number(amount.first + 1)?;
        let hundreds = (amount.low - rest.value) / 100;
        let count = Amount {
            end: amount.first + 1,
            low: hundreds,
            high: hundreds,
            unit: None,
            run_on: false,
            ..*amount
        };
        let size =
            Amount { first: amount.first + 1, low: rest.value, high: rest.value, run_on: false, ..*amount };
        Some((count, size))
    }

    /// The word that opens a phrase, and those that may stand before it: "all the other".
    fn take_opener(&self, thing: &mut Thing, walk: &mut Walk, at: usize) -> bool {
        let c = self.classes();
        if self.is(at, c.more) {
            thing.more = true;
        } else if self.is(at, c.every) {
            thing.every = true;
        } else if let Some(determiner) = self.determiner(at) {
            let hesitated = self.tokens.list[at + 1].hesitated
                && matches!(self.text(at), "that" | "this" | "those" | "these");
            let several = thing.plural || thing.amount.is_some_and(|a| a.unit.is_none() && a.high > 1.into());
            let pronoun = if several {
                matches!(self.text(at), "that" | "this") && thing.amount.is_some()
            } else {
                matches!(self.text(at), "those" | "these" | "them")
            };
            // "twelve, no, thirteen screens": a second thought, not none of them.
            let corrected =
                self.text(at) == "no" && thing.amount.is_some() && self.amount_ending(at).is_some();
            if thing.determiner != Determiner::Bare
                || pronoun
                || hesitated
                || corrected
                || self.belongs_before(thing, at)
            {
                walk.done = true;
                return true;
            }
            thing.determiner = determiner;
        } else {
            return false;
        }
        walk.at = at;
        walk.adjectives = MOST_ADJECTIVES;
        true
    }

    /// "both of those | shingles": what isn't counted isn't both of anything.
    fn belongs_before(&self, thing: &Thing, at: usize) -> bool {
        let counted = thing.item.is_none_or(|i| self.grammar.items[usize::from(i)].counted());
        !counted && at >= 2 && self.text(at - 1) == "of" && self.text(at - 2) == "both"
    }

    fn determiner(&self, at: usize) -> Option<Determiner> {
        let c = self.classes();
        let of = [
            (c.definite, Determiner::Definite),
            (c.indefinite, Determiner::Indefinite),
            (c.negative, Determiner::Negative),
        ];
        of.iter().find(|(class, _)| self.is(at, *class)).map(|(_, d)| *d)
    }

    fn take_adjective(&self, thing: &mut Thing, walk: &mut Walk, at: usize) {
        let c = self.classes();
        let told = self.is(at, c.new) || self.is(at, c.material);
        if (self.closes(at) && !told) || walk.adjectives >= MOST_ADJECTIVES {
            walk.done = true;
            return;
        }
        if self.is(at, c.new) {
            let told =
                at > 1 && self.is(at - 1, c.be) && self.is(at - 2, c.pronoun) && self.is(thing.name.1, c.be);
            if told {
                walk.done = true; // that's new, slider's good
                return;
            }
            thing.new = true;
        } else if self.is(at, c.material) {
            thing.detail.insert(0, at);
        } else if let Some(side) = self.side_of_thing(at) {
            let alone = self.cover.at(at).is_some_and(|m| m.end == m.first + 1);
            if thing.amount.is_some() || alone && matches!(side, Side::Right | Side::Left) {
                walk.done = true;
                return;
            }
            thing.side = Some(side);
        } else if !self.leads_to_opener(at) {
            walk.done = true;
            return;
        }
        walk.adjectives += 1;
        walk.at = at;
    }

    /// Whether a word can't stand between the word that opens a phrase and the name.
    fn closes(&self, at: usize) -> bool {
        let c = self.classes();
        let closed = [c.function, c.be, c.have, c.preposition, c.joins];
        !self.is(at, c.adjective) && closed.iter().any(|class| self.is(at, *class))
    }

    /// Whether plain words lead on to a number or to the word that opens the phrase; else they belong to
    /// what was said before.
    fn leads_to_opener(&self, at: usize) -> bool {
        for back in 0..MOST_ADJECTIVES {
            let Some(here) = at.checked_sub(back) else { return false };
            if self.amount_ending(here).is_some() {
                return true;
            }
            if here == 0 || self.tokens.list[here].before != Break::None || self.holds_cue(here - 1) {
                return false;
            }
            let c = self.classes();
            if self.determiner(here - 1).is_some() || self.is(here - 1, c.more) || self.is(here - 1, c.every)
            {
                return true;
            }
            if self.closes(here - 1) {
                return false;
            }
        }
        false
    }

    /// "two house number plaques": the name before only tells what kind it is; without marks they may be listed.
    fn join_compounds(&self, found: &mut Vec<Mention>) {
        for at in (1..found.len()).rev() {
            let (before, last) = (&found[at - 1], &found[at]);
            let (Kind::Thing(kind), Kind::Thing(head)) = (&before.kind, &last.kind) else { continue };
            let token = &self.tokens.list[last.first];
            let runs_on = before.end == last.first && token.before == Break::None && token.doubt.is_none();
            let bare = head.determiner == Determiner::Bare && head.amount.is_none() && !head.new;
            let ends = self.tokens.list.get(last.end).is_none_or(|t| t.before != Break::None);
            let listed =
                at > 1 && found[at - 2].end == before.first && matches!(found[at - 2].kind, Kind::Thing(_));
            if !runs_on || !bare || kind.plural || !ends || listed {
                continue;
            }
            let opener = kind.clone();
            let first = before.first;
            let Kind::Thing(head) = &mut found[at].kind else { continue };
            head.determiner = opener.determiner;
            head.amount = opener.amount;
            head.some = opener.some;
            head.more = opener.more;
            head.new = opener.new;
            head.every = opener.every;
            head.side = head.side.or(opener.side);
            head.size = head.size.or(opener.size);
            head.behind = opener.behind;
            found[at].first = first;
            found.remove(at - 1);
        }
    }

    /// "the wrap on that window" names the window's wrap.
    fn join_parts(&self, found: &mut [Mention]) {
        for mention in found {
            let first = mention.first;
            let Kind::Thing(thing) = &mut mention.kind else { continue };
            let Some(of) = thing.item else { continue };
            if thing.behind.is_none() || first < 2 || self.tokens.list[first - 1].before != Break::None {
                continue;
            }
            if self.cover.at(first - 2).is_some_and(|m| self.says_nothing(m)) {
                continue; // wrap up this window
            }
            let word = self.word(first - 2);
            let singular =
                [word, self.grammar.singular(word)].into_iter().find_map(|w| self.grammar.part_of(w, of));
            if let Some(item) = singular {
                self.join_part(thing, &mut mention.first, item);
            }
        }
    }

    fn join_part(&self, thing: &mut Thing, first: &mut usize, item: u16) {
        let head = *first - 2;
        let part = self.phrase(Thing {
            item: Some(item),
            name: (head, head + 1),
            head: self.word(head),
            ..Thing::default()
        });
        let Kind::Thing(named) = part.kind else { return };
        let amount = named.amount.or(thing.amount);
        *thing = Thing { amount, name: thing.name, plural: thing.plural, ..*named };
        *first = part.first;
    }
}
