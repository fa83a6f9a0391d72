//! Punctuation restoration: commas and full stops in words that were written down without marks.
//!
//! Takes tokens, gives them breaks. Most recognisers of captions write no comma and no full stop, and then nothing
//! tells "gutter, 38 foot, replace. Garage door, fine" from "replace garage door". Each gap between two words has its
//! clues: what is found on either side of it, and what was said since the last break. Each clue has its weight in
//! `models/punctuation.toml`; their sums are the log-odds of a comma and of a full stop: two logistic regressions.
//! `cargo run --release --no-default-features --example fit-punctuation` fits them to speech with marks, and measures: each
//! fifth of 109 narrations marked by a fit to the others, 0.912 of the breaks it puts are written there too, and it puts
//! 0.879 of the 15,536 that are written (F1 0.895; 27 November 2026).

mod chunks;
mod clause;
mod clues;

use crate::language::phrases::Groundwork;
use crate::language::rules::Grammar;
use crate::language::tokens::{Break, Restored, Tokens};
use chunks::Part;
use clause::Clause;
use clues::ClueNames;

/// A stretch of more words than this without a full stop was written down without marks.
const LONGEST_SENTENCE: usize = 40;

/// A recogniser may take a pause in mid-sentence for its end. A mark is misplaced where the log-odds of a break are
/// below this.
const NO_BREAK: f32 = -1.0;

/// More than one misplaced full stop in so many, and the marks tell little.
const MISLEADING: usize = 5;

/// What a recogniser's mark adds to the log-odds of a break where its marks tell little.
const WRITTEN: f32 = 1.0;

/// Puts breaks where none are written, in the stretches that have no marks.
pub fn restore(ground: &mut Groundwork) {
    let bare = stretches_without_marks(ground);
    if !bare.contains(&true) {
        return;
    }
    // Inside a chunk there is no break.
    let unbroken = |at: usize| Restored { token: at, before: ground.tokens().list[at].before, doubt: 0 };
    let mut restored: Vec<Restored> = (0..bare.len()).filter(|at| bare[*at]).map(unbroken).collect();
    restored.extend(guess(ground, &bare));
    ground.punctuate(&restored);
}

/// Which tokens stand in a stretch without marks, or with marks of a recogniser that tell little.
fn stretches_without_marks(ground: &Groundwork) -> Vec<bool> {
    if ground.tokens().from_sound && marks_mislead(ground) {
        return vec![true; ground.tokens().list.len()];
    }
    without_marks(ground.tokens())
}

/// Whether a recogniser put so many full stops where the words go on that its marks tell little.
fn marks_mislead(ground: &Groundwork) -> bool {
    let (mut stops, mut misplaced) = (0, 0);
    walk(ground, |first, gap, _| {
        let written = ground.tokens().list[first].before;
        if written == Break::Sentence {
            stops += 1;
            misplaced += usize::from(likeliest(gap, ground.grammar()).odds < NO_BREAK);
        }
        written
    });
    misplaced * MISLEADING > stops
}

/// Which tokens stand in a stretch without marks.
fn without_marks(tokens: &Tokens) -> Vec<bool> {
    let mut bare = vec![false; tokens.list.len()];
    let mut from = 0;
    for at in 1..=tokens.list.len() {
        if tokens.list.get(at).is_none_or(|t| t.before == Break::Sentence) {
            bare[from..at].fill(at - from > LONGEST_SENTENCE);
            from = at;
        }
    }
    bare
}

/// The likeliest break of each gap of the stretches without marks.
fn guess(ground: &Groundwork, bare: &[bool]) -> Vec<Restored> {
    let tokens = ground.tokens();
    let mut guessed = Vec::new();
    walk(ground, |first, gap, awaited| {
        let written = tokens.list[first].before;
        if !bare[first] {
            return written;
        }
        let Guess { before, doubt, odds } = likeliest(gap, ground.grammar());
        let before = if awaited { Break::None } else { before };
        let mark_counts = written != Break::None && (!tokens.from_sound || odds + WRITTEN > 0.0);
        let before = if mark_counts { before.max(written) } else { before };
        guessed.push(Restored { token: first, before, doubt });
        before
    });
    guessed
}

/// Goes from gap to gap, each given with the token it stands before, its clues, and whether the name behind it is
/// awaited; what is taken for its break opens a new clause.
fn walk(ground: &Groundwork, mut take: impl FnMut(usize, GapClues, bool) -> Break) {
    let chunks = chunks::chunks(ground);
    let mut clues = ClueNames::new(ground, &chunks);
    let mut clause = Clause::default();
    let mut named = false;
    for at in 1..chunks.len() {
        let (last, next) = (&chunks[at - 1], &chunks[at]);
        clause.take(last);
        named |= last.part == Part::Thing;
        let new = ground.is(last.end - 1, ground.grammar().classes.new);
        // "front slope's nine square new | shingles": nothing was named yet that could be new.
        let measured = at > 1 && chunks[at - 2].part == Part::Amount;
        let awaited = new && measured && next.part == Part::Thing && !named;
        let taken = take(next.first, &mut |told| clues.tell(at, &clause, told), awaited);
        if taken != Break::None {
            clause = Clause::default();
        }
        named &= taken != Break::Sentence;
    }
}

/// Tells the clues of one gap.
type GapClues<'a> = &'a mut dyn FnMut(&mut dyn FnMut(&str));

/// What a gap is taken for.
struct Guess {
    before: Break,
    /// The chance in percent that there is a break where none is taken, or none where one is.
    doubt: u8,
    /// The log-odds of any break.
    odds: f32,
}

/// What a gap is likeliest to be.
fn likeliest(gap: GapClues, grammar: &Grammar) -> Guess {
    let (mut any, mut full_stop) = (0.0, 0.0);
    gap(&mut |clue| {
        if let Some(weight) = grammar.punctuation.get(clue) {
            any += weight[0];
            full_stop += weight[1];
        }
    });
    let before = match (any > 0.0, full_stop > 0.0) {
        (_, true) => Break::Sentence,
        (true, false) => Break::Comma,
        (false, false) => Break::None,
    };
    let doubt = (100.0 / (1.0 + any.abs().exp())).round() as u8;
    Guess { before, doubt, odds: any }
}

/// A gap between two words as a fit needs it: the break that is written there, and its clues.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gap {
    /// What is written.
    pub written: Break,
    /// What tells.
    pub clues: Vec<String>,
}

/// The gaps of a narration that was written down with marks, told as if it had none.
pub fn gaps(tokens: &Tokens, grammar: &Grammar) -> Vec<Gap> {
    let mut bare = tokens.clone();
    bare.list.iter_mut().for_each(|t| t.before = Break::None);
    let mut gaps = Vec::new();
    walk(&Groundwork::new(bare, grammar), |first, told, _| {
        let written = tokens.list[first].before;
        let mut clues = Vec::new();
        told(&mut |clue| clues.push(clue.to_owned()));
        gaps.push(Gap { written, clues });
        written
    });
    gaps
}
