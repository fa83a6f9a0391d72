//! The clues of a gap, by name. A bar stands for the gap: `thing | work` is a thing left of it and work right of it.
//! Words are quoted, what the clause holds so far is in braces, `~` passes over what says nothing of the matter.

use super::chunks::{Chunk, Part};
use super::clause::Clause;
use crate::language::phrases::Groundwork;

/// How many chunks away what matters next may stand.
const NEAR: usize = 8;

/// Tells clues, gap by gap.
pub(super) struct ClueNames<'a> {
    ground: &'a Groundwork<'a>,
    chunks: &'a [Chunk<'a>],
    name: String,
}

/// Puts the names of clues together, and passes them on.
struct ClueTeller<'a> {
    name: &'a mut String,
    each: &'a mut dyn FnMut(&str),
}

impl ClueTeller<'_> {
    fn tell(&mut self, left: &[&str], middle: &str, right: &[&str]) {
        self.name.clear();
        for part in left {
            self.name.push_str(part);
            self.name.push(' ');
        }
        self.name.push_str(middle);
        for part in right {
            self.name.push(' ');
            self.name.push_str(part);
        }
        (self.each)(self.name);
    }
}

impl<'a> ClueNames<'a> {
    pub fn new(ground: &'a Groundwork, chunks: &'a [Chunk<'a>]) -> Self {
        Self { ground, chunks, name: String::new() }
    }

    /// Names each clue of the gap before a chunk.
    pub fn tell(&mut self, at: usize, clause: &Clause, each: &mut dyn FnMut(&str)) {
        let mut name = std::mem::take(&mut self.name);
        let mut teller = ClueTeller { name: &mut name, each };
        self.chunks_around(at, &mut teller);
        self.words_around(self.chunks[at].first, &mut teller);
        self.clause_so_far(at, clause, &mut teller);
        self.what_matters_next(at, clause, &mut teller);
        self.name = name;
    }

    fn sign(&self, at: Option<usize>) -> &'a str {
        at.and_then(|at| self.chunks.get(at)).map_or("nothing", |chunk| chunk.sign)
    }

    /// What stands up to three chunks left and right of the gap.
    fn chunks_around(&self, at: usize, clues: &mut ClueTeller) {
        let [l3, l2, l1] = [3, 2, 1].map(|n| self.sign(at.checked_sub(n)));
        let [r1, r2, r3] = [0, 1, 2].map(|n| self.sign(Some(at + n)));
        clues.tell(&[], "|", &[]);
        clues.tell(&[l1], "|", &[]);
        clues.tell(&[], "|", &[r1]);
        clues.tell(&[l1], "|", &[r1]);
        clues.tell(&[l2, l1], "|", &[]);
        clues.tell(&[], "|", &[r1, r2]);
        clues.tell(&[l1], "|", &[r1, r2]);
        clues.tell(&[l2, l1], "|", &[r1]);
        clues.tell(&[l3, l2, l1], "|", &[]);
        clues.tell(&[], "|", &[r1, r2, r3]);
        clues.tell(&[l2, l1], "|", &[r1, r2]);
    }

    /// The words themselves, up to two on each side; `first` is the token behind the gap.
    fn words_around(&self, first: usize, clues: &mut ClueTeller) {
        let vocabulary = &self.ground.grammar().vocabulary;
        let word = |at: Option<usize>| at.map_or("", |at| vocabulary.word(self.ground.word(at)));
        let [w2, w1] = [2, 1].map(|n| word(first.checked_sub(n)));
        let [v1, v2] = [0, 1].map(|n| word(Some(first + n)));
        clues.tell(&["'", w1], "|", &[]);
        clues.tell(&[], "|", &["'", v1]);
        clues.tell(&["'", w1], "|", &[v1]);
        clues.tell(&["'", w2, w1], "|", &[]);
        clues.tell(&[], "|", &["'", v1, v2]);
    }

    /// What the clause holds so far, how long it is, and whether the narrator hesitates.
    fn clause_so_far(&self, at: usize, clause: &Clause, clues: &mut ClueTeller) {
        let (holds, length) = (clause.holds(), clause.length());
        let [l1, r1, r2] = [at.checked_sub(1), Some(at), Some(at + 1)].map(|at| self.sign(at));
        clues.tell(&[holds], "|", &[]);
        clues.tell(&[holds], "|", &[r1]);
        clues.tell(&[holds], "|", &[r1, r2]);
        clues.tell(&[holds, l1], "|", &[]);
        clues.tell(&[holds, l1], "|", &[r1]);
        clues.tell(&[length], "|", &[]);
        clues.tell(&[length], "|", &[r1]);
        if self.ground.tokens().list[self.chunks[at].first].hesitated {
            clues.tell(&["um"], "|", &[]);
            clues.tell(&["um"], "|", &[r1]);
        }
    }

    /// The nearest things, amounts, verdicts and places on either side.
    fn what_matters_next(&self, at: usize, clause: &Clause, clues: &mut ClueTeller) {
        let matters = |chunk: &&Chunk| !matches!(chunk.part, Part::Verb | Part::Other);
        let sign = |chunk: Option<&Chunk<'a>>| chunk.map_or("nothing", |chunk| chunk.sign);
        let before = sign(self.chunks[..at].iter().rev().take(NEAR).find(matters));
        let mut after = self.chunks[at..].iter().take(NEAR).filter(matters);
        let (a1, a2) = (sign(after.next()), sign(after.next()));
        clues.tell(&[before], "~", &[a1]);
        clues.tell(&[clause.holds()], "~", &[a1, a2]);
    }
}
