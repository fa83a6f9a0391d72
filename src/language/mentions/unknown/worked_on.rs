//! Unknown things that work is said of: behind it, before it, or in the middle of it.

use super::{Finder, MOST_WORDS};
use crate::language::mentions::Mention;
use crate::language::rules::{Form, Match, Meaning};
use crate::language::tokens::Break;

impl Finder<'_> {
    /// "replace that cover", "put on two new post caps".
    pub(super) fn governed(&self) -> Vec<Mention> {
        let object = |m: &Match| {
            let from = self.skip_openers(m.end)?;
            Some(self.mention(from, self.name(from)?))
        };
        let matches = self.phrases.ground.cover().matches.iter();
        matches.filter(|m| self.takes_object(m) && self.spoken_on(m.end)).filter_map(object).collect()
    }

    /// "take the swamp cooler off and don't put it back": named in the middle of the work.
    pub(super) fn inside_work(&self) -> Vec<Mention> {
        let matches = self.phrases.ground.cover().matches.iter();
        let works = matches.filter(|m| self.takes_object(m) || self.takes_off(m));
        works.filter_map(|m| self.inside(m)).collect()
    }

    fn takes_off(&self, found: &Match) -> bool {
        matches!(found.meaning(self.phrases.grammar()), Some(Meaning::Off(Form::Object | Form::Either)))
    }

    fn inside(&self, work: &Match) -> Option<Mention> {
        let ground = self.phrases.ground;
        let c = self.phrases.classes();
        let opener = (work.first + 1..work.end).find(|t| ground.is_any(*t, &[c.definite, c.indefinite]))?;
        let end = (opener + 1..work.end).find(|t| ground.is(*t, c.object_end))?;
        let from = opener + 1;
        let plain =
            |t: usize| self.is_plain(t) && !ground.is_any(t, &[c.pronoun, c.every, c.more, c.no_thing]);
        let named = end > from && end - from <= MOST_WORDS && (from..end).all(plain);
        named.then(|| self.mention(from, end))
    }

    /// "the wreath hook comes off and goes back on": what work behind it is said of.
    pub(super) fn subjects(&self) -> Vec<Mention> {
        let behind = |m: &&Match| {
            let meaning = m.meaning(self.phrases.grammar());
            matches!(meaning, Some(Meaning::Work(_, Form::Predicate) | Meaning::Off(Form::Predicate)))
        };
        let matches = self.phrases.ground.cover().matches.iter();
        matches.filter(behind).filter_map(|m| self.subject(m.first)).collect()
    }

    fn subject(&self, verb: usize) -> Option<Mention> {
        let p = self.phrases;
        let c = p.classes();
        let mut end = verb;
        while end > 0 && p.ground.is_any(end - 1, &[c.be, c.have, c.verb_lead]) {
            end -= 1;
        }
        let words = (1..=MOST_WORDS).take_while(|n| end >= *n && self.content(end - n)).last()?;
        let from = end - words;
        let whole = (from + 1..end).all(|t| self.spoken_on(t));
        let named = self.opens_subject(from) && whole && !p.is(end - 1, c.modal);
        (named && self.name(from) == Some(end)).then(|| self.mention(from, end))
    }

    /// Whether what work is said of may begin at a token: behind an article, or where a sentence opens.
    fn opens_subject(&self, from: usize) -> bool {
        let p = self.phrases;
        let c = p.classes();
        let article = || {
            self.spoken_on(from)
                && !p.is(from - 1, c.object_several)
                && p.ground.is_any(from - 1, &[c.definite, c.indefinite])
        };
        let token = p.ground.tokens().list[from];
        from > 0 && (article() || token.before == Break::Sentence && token.doubt.is_none())
    }
}
