//! The chance that every field of a line is right, from named evidence: its doubts, and whether the words came
//! with sentence marks. A logistic regression, fitted on 1,606 drafted lines of 50 labelled narrations
//! (`tests/narrations`, 25 November 2026); each narration judged by a fit to the other 49, its expected calibration
//! error over ten equal bins is 0.025. Six captions that no one had read while writing rules stand at 0.66 where it
//! says 0.85: on speech like theirs it is too sure.

use super::flag::Flag;
use super::model::Line;

/// Words the recogniser gave less than this chance are unclear.
pub(super) const UNCLEAR: f32 = 0.35;

/// A text with fewer sentence marks than one in so many words was written down without them.
pub(super) const WORDS_A_MARK: usize = 40;

/// Log-odds of a line without any doubt, in a text with sentence marks.
const CLEAN: f64 = 3.82;

/// What it loses where the text has no sentence marks.
const UNMARKED: f64 = -1.36;

/// What a doubt adds to the log-odds, and what it adds besides where the text has no sentence marks. `OddSize` and
/// `UnclearAudio` stand in no labelled line: theirs are estimates, set by hand to those of `NoNumber`.
fn weight(flag: Flag) -> (f64, f64) {
    match flag {
        Flag::RoughNumber => (-0.01, -0.47),
        Flag::NoNumber | Flag::OddSize | Flag::UnclearAudio => (-1.31, -0.5),
        Flag::NoWork => (-3.77, 0.0),
        Flag::NoSide => (-3.6, 0.0),
        Flag::OnlyIf => (1.47, 0.0),
        Flag::ChangedMind | Flag::MaybeRepeat => (-1.52, -0.05),
        Flag::OddUnit => (0.03, 0.0),
        Flag::SoundsLike => (0.01, 0.0),
        Flag::NotInCatalogue => (-1.5, -1.01),
    }
}

/// The confidence of a line with its flags, to two decimals.
pub(super) fn of(line: &Line, unmarked: bool) -> f64 {
    let besides = |w: (f64, f64)| w.0 + if unmarked { w.1 } else { 0.0 };
    let base = CLEAN + if unmarked { UNMARKED } else { 0.0 };
    let odds = base + line.flags.iter().map(|f| besides(weight(*f))).sum::<f64>();
    (100.0 / (1.0 + (-odds).exp())).round() / 100.0
}
