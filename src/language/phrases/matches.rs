//! Every phrase that the words of a narration could stand for, whatever the breaks between them.

use crate::language::rules::{Grammar, Match};
use crate::language::tokens::{Break, Respelling, Token};

/// All matches, in the order in which they begin.
#[derive(Debug, Default)]
pub(super) struct Matches {
    found: Vec<Match>,
    /// For each token, how many tokens from it on decide what begins there.
    reach: Vec<usize>,
}

impl Matches {
    /// Looks for phrases at each token.
    pub fn find(tokens: &[Token], grammar: &Grammar) -> Self {
        let mut all = Self { found: Vec::new(), reach: Vec::with_capacity(tokens.len()) };
        (0..tokens.len()).for_each(|_| all.find_next(tokens, grammar));
        all
    }

    /// Those that the breaks of the tokens let stand.
    pub fn standing<'a>(&'a self, tokens: &'a [Token]) -> impl Iterator<Item = Match> + 'a {
        self.found.iter().copied().filter(|found| stands(found, tokens))
    }

    /// The same for tokens of which some were respelled: only what could reach those is looked for again.
    pub fn respelled(self, all: &[Respelling], tokens: &[Token], grammar: &Grammar) -> Self {
        let mut new = Self::default();
        let mut old = self.found.into_iter().peekable();
        let mut ahead = all.iter().peekable();
        let mut at = 0;
        while at < self.reach.len() {
            if let Some(one) = ahead.next_if(|one| one.first == at) {
                one.words.iter().for_each(|_| new.find_next(tokens, grammar));
                at = one.end;
                continue;
            }
            if ahead.peek().is_some_and(|one| one.first < at + self.reach[at]) {
                new.find_next(tokens, grammar);
            } else {
                while old.next_if(|found| found.first < at).is_some() {}
                let moved_to = new.reach.len();
                let moved = |m: Match| Match { first: moved_to, end: m.end - at + moved_to, ..m };
                new.found.extend(std::iter::from_fn(|| old.next_if(|found| found.first == at)).map(moved));
                new.reach.push(self.reach[at]);
            }
            at += 1;
        }
        new
    }

    /// Looks for what begins at the first token not looked at yet.
    fn find_next(&mut self, tokens: &[Token], grammar: &Grammar) {
        let at = self.reach.len();
        let reached = grammar.matches_at(tokens, at, &mut self.found);
        self.reach.push(reached - at);
    }
}

/// Whether the breaks let a match stand: no break may fall into an item's name or into a gap, and no full stop into the
/// words of a rule.
fn stands(found: &Match, tokens: &[Token]) -> bool {
    let most = if found.is_item() { Break::None } else { Break::Comma };
    (found.first..found.end).all(|token| {
        let before = tokens[token].before;
        if found.says(token) { token == found.first || before <= most } else { before == Break::None }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::tests::GRAMMAR;
    use crate::language::tokens::Tokens;
    use crate::speech::Transcript;

    #[track_caller]
    fn check(text: &str, first: usize, end: usize, read_as: &str) {
        let grammar = &*GRAMMAR;
        let mut tokens = Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary);
        let found = Matches::find(&tokens.list, grammar);
        let words = read_as.split_whitespace().map(|word| grammar.vocabulary.id(word)).collect();
        let all = [Respelling { first, end, words }];
        tokens.respell(&all);
        let again = Matches::find(&tokens.list, grammar);
        let kept = found.respelled(&all, &tokens.list, grammar);
        assert_eq!(kept.found, again.found, "{text}");
        assert_eq!(kept.reach, again.reach, "{text}");
    }

    #[test]
    fn after_a_respelling_the_matches_are_those_of_a_new_search() {
        check("replace the hose real and the gutter, forty foot, take it all down", 2, 4, "hose bib");
        check("take the spig it off and put it back, replace the door", 2, 4, "spigot");
        check("spig it off", 0, 2, "spigot");
        check("detach and reset the spigot", 4, 5, "water spigot");
        check("front of the house two lights", 4, 5, "too");
    }

    #[test]
    fn a_break_undoes_a_name_and_a_full_stop_a_rule() {
        let grammar = &*GRAMMAR;
        let names = |text: &str| {
            let tokens = Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary);
            let found = Matches::find(&tokens.list, grammar);
            let longest = found.standing(&tokens.list).max_by_key(|m| m.end - m.first);
            longest.map(|m| (m.is_item(), m.end - m.first))
        };
        assert_eq!(names("gutter guard"), Some((true, 2)));
        assert_eq!(names("gutter, guard"), Some((true, 1)));
        assert_eq!(names("detach and reset"), Some((false, 3)));
        assert_eq!(names("detach, and reset"), Some((false, 3)));
        assert_ne!(names("detach. And reset"), Some((false, 3)));
    }
}
