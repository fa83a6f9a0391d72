//! The chance that a line is right. Each doubt lowers it by a factor; the factors are estimates, set by
//! hand and not yet fitted to labelled narrations.

use super::flag::Flag;
use super::model::Line;

/// Words the recogniser gave less than this chance are unclear.
pub(super) const UNCLEAR: f32 = 0.35;

/// The chance that a line without any doubt is right.
const CLEAN: f64 = 0.97;

/// What a doubt leaves of it.
fn left(flag: Flag) -> f64 {
    match flag {
        Flag::RoughNumber => 0.99,
        Flag::NoNumber | Flag::OnlyIf | Flag::NotInCatalogue => 0.9,
        Flag::NoSide | Flag::ChangedMind => 0.85,
        Flag::OddSize | Flag::SoundsLike => 0.8,
        Flag::NoWork | Flag::OddUnit | Flag::MaybeRepeat => 0.7,
        Flag::UnclearAudio => 0.6,
    }
}

/// The confidence of a line with its flags, to two decimals.
pub(super) fn of(line: &Line) -> f64 {
    let chance: f64 = line.flags.iter().map(|f| left(*f)).product();
    (chance * CLEAN * 100.0).round() / 100.0
}
