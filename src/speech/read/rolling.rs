//! Rolling captions: a cue shows again what the one before showed, with new words under or after it.
//!
//! Whether captions roll is a property of the file, not of two cues: a narrator says the same words twice too.

use super::cue::{Cue, Piece};

/// Captions roll where at least this share of neighbouring cues begins with what was just shown. Rolling ones
/// repeat everywhere but after a pause, speech now and then. Own threshold, no source.
const ROLLING_SHARE: f64 = 0.5;

/// A line that is still on the screen can't have gone for longer than this, in milliseconds. Own threshold.
const LONGEST_GAP: u64 = 500;

/// Leaves out of each cue what only repeats the cue before it, if the captions roll.
pub(super) fn unroll(cues: Vec<Cue>) -> Vec<Cue> {
    let carried: Vec<usize> = cues.windows(2).map(|pair| carried_over(&pair[0], &pair[1])).collect();
    if !roll(&cues, &carried) {
        return cues;
    }
    let carried = std::iter::once(0).chain(carried);
    cues.into_iter().zip(carried).map(|(cue, words)| without_first(cue, words)).collect()
}

/// Whether enough cues repeat, and more than once some go on from what they repeat.
fn roll(cues: &[Cue], carried: &[usize]) -> bool {
    let repeating = carried.iter().filter(|&&words| words > 0).count();
    let goes_on = |(cue, &words): (&Cue, &usize)| words > 0 && cue.words().count() > words;
    let going_on = cues[1.min(cues.len())..].iter().zip(carried).filter(|pair| goes_on(*pair)).count();
    going_on > 1 && repeating as f64 >= ROLLING_SHARE * carried.len() as f64
}

/// How many of the first words of `next` were on the screen already as whole last lines of `before`.
fn carried_over(before: &Cue, next: &Cue) -> usize {
    if next.start.0 > before.end.0 + LONGEST_GAP {
        return 0;
    }
    let unmarked: Vec<String> = unmarked_words(next).map(str::to_lowercase).collect();
    (0..before.lines.len())
        .map(|from| shown_from(before, from))
        .find(|tail| !tail.is_empty() && unmarked.starts_with(tail))
        .map_or(0, |tail| tail.len())
}

/// The words up to the first that has a time of its own, which makes it said anew.
fn unmarked_words(cue: &Cue) -> impl Iterator<Item = &str> {
    cue.lines.iter().flatten().map_while(|piece| match piece {
        Piece::Word(word) => Some(word.as_str()),
        Piece::Mark(_) => None,
    })
}

fn shown_from(cue: &Cue, line: usize) -> Vec<String> {
    let tail = Cue { lines: cue.lines[line..].to_vec(), ..*cue };
    tail.words().map(str::to_lowercase).collect()
}

fn without_first(mut cue: Cue, mut words: usize) -> Cue {
    for line in &mut cue.lines {
        line.retain(|piece| {
            let drop = words > 0 && matches!(piece, Piece::Word(_));
            words -= usize::from(drop);
            !drop
        });
    }
    cue
}
