//! The clues of a gap, by name. A bar stands for the gap: `thing | work` is a thing left of it and work right of it.
//! Words are quoted, what the clause holds so far is in braces, `~` passes over what says nothing of the matter.

use super::clause::Clause;
use super::pieces::{Part, Piece};
use crate::language::rules::Grammar;
use crate::language::tokens::Tokens;

/// How many pieces away what matters next may stand.
const NEAR: usize = 8;

/// Tells clues, gap by gap.
pub(super) struct Clues<'a> {
    tokens: &'a Tokens,
    grammar: &'a Grammar,
    pieces: &'a [Piece<'a>],
    name: String,
}

impl<'a> Clues<'a> {
    pub fn new(tokens: &'a Tokens, grammar: &'a Grammar, pieces: &'a [Piece<'a>]) -> Self {
        Self { tokens, grammar, pieces, name: String::new() }
    }

    /// Names each clue of the gap before a piece.
    pub fn tell(&mut self, at: usize, clause: &Clause, each: &mut dyn FnMut(&str)) {
        let name = &mut self.name;
        let mut tell = |left: &[&str], middle: &str, right: &[&str]| {
            name.clear();
            for part in left {
                name.push_str(part);
                name.push(' ');
            }
            name.push_str(middle);
            for part in right {
                name.push(' ');
                name.push_str(part);
            }
            each(name);
        };
        let sign = |n: Option<usize>| n.and_then(|n| self.pieces.get(n)).map_or("nothing", |p| p.sign);
        let (l3, l2, l1) = (sign(at.checked_sub(3)), sign(at.checked_sub(2)), sign(at.checked_sub(1)));
        let (r1, r2, r3) = (sign(Some(at)), sign(Some(at + 1)), sign(Some(at + 2)));
        tell(&[], "|", &[]);
        tell(&[l1], "|", &[]);
        tell(&[], "|", &[r1]);
        tell(&[l1], "|", &[r1]);
        tell(&[l2, l1], "|", &[]);
        tell(&[], "|", &[r1, r2]);
        tell(&[l1], "|", &[r1, r2]);
        tell(&[l2, l1], "|", &[r1]);
        tell(&[l3, l2, l1], "|", &[]);
        tell(&[], "|", &[r1, r2, r3]);
        tell(&[l2, l1], "|", &[r1, r2]);

        let first = self.pieces[at].first;
        let word = |n: Option<usize>| {
            let token = n.and_then(|n| self.tokens.list.get(n));
            token.map_or("", |t| self.grammar.vocabulary.word(t.word))
        };
        let (w2, w1) = (word(first.checked_sub(2)), word(first.checked_sub(1)));
        let (v1, v2) = (word(Some(first)), word(Some(first + 1)));
        tell(&["'", w1], "|", &[]);
        tell(&[], "|", &["'", v1]);
        tell(&["'", w1], "|", &[v1]);
        tell(&["'", w2, w1], "|", &[]);
        tell(&[], "|", &["'", v1, v2]);

        let (holds, length) = (clause.holds(), clause.length());
        tell(&[holds], "|", &[]);
        tell(&[holds], "|", &[r1]);
        tell(&[holds], "|", &[r1, r2]);
        tell(&[holds, l1], "|", &[]);
        tell(&[holds, l1], "|", &[r1]);
        tell(&[length], "|", &[]);
        tell(&[length], "|", &[r1]);
        if self.tokens.list[first].hesitated {
            tell(&["um"], "|", &[]);
            tell(&["um"], "|", &[r1]);
        }

        let matters = |p: &&Piece| !matches!(p.part, Part::Verb | Part::Other);
        let before = self.pieces[..at].iter().rev().take(NEAR).find(matters).map_or("nothing", |p| p.sign);
        let mut after = self.pieces[at..].iter().take(NEAR).filter(matters).map(|p| p.sign);
        let (a1, a2) = (after.next().unwrap_or("nothing"), after.next().unwrap_or("nothing"));
        tell(&[before], "~", &[a1]);
        tell(&[holds], "~", &[a1, a2]);
    }
}
