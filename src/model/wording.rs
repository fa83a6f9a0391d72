//! The values of a draft in plain words, and what is told of it in sentences: the same on every paper and on the page.

mod amounts;
mod sentences;

pub use amounts::{
    amount, inches, length, measured, much, number, quantity, size, size_of, slope, unit, unit_beside,
    unit_word,
};
pub use sentences::{
    CLOSING, NOT_USED, ONLY_IF, SEEN_FROM, capital, caution, clip, count, date, date_and_time, follow_ups,
    looks, reading, recording, sentence, source, summary,
};

use crate::model::span::Moment;
use crate::model::{Clip, ClipMoment, Line, Shape, Side, Work, clip_moment};

/// A thing by its name in the catalogue, else by the words that named it.
pub fn item(item: Option<&str>, said: &str) -> String {
    let Some(id) = item else { return said.to_owned() };
    match id.split_once('-') {
        // A letter stays with its word: j-channel.
        Some((letter, rest)) if letter.len() == 1 => format!("{letter}-{}", rest.replace('-', " ")),
        _ => id.replace('-', " "),
    }
}

/// A line's thing.
pub fn item_of(line: &Line) -> String {
    item(line.item.as_deref(), &line.said)
}

/// What is to be done.
pub fn work(work: Option<Work>) -> &'static str {
    match work {
        Some(Work::DetachReset) => "detach and reset",
        Some(Work::RemoveReplace) => "remove and replace",
        Some(Work::Remove) => "remove",
        Some(Work::Install) => "install",
        Some(Work::Repair) => "repair",
        Some(Work::Clean) => "clean",
        Some(Work::Paint) => "paint",
        Some(Work::Stain) => "stain",
        Some(Work::Protect) => "protect",
        None => "no work said",
    }
}

/// A side of a structure.
pub fn side(side: Side) -> &'static str {
    match side {
        Side::Front => "front",
        Side::Right => "right",
        Side::Rear => "rear",
        Side::Left => "left",
        Side::None => "no one side",
    }
}

/// Structure and side in one: `house, front`.
pub fn whereabouts(structure: &str, at: Side) -> String {
    match at {
        Side::None => structure.to_owned(),
        _ => format!("{structure}, {}", side(at)),
    }
}

/// What kind of face was measured.
pub fn shape(shape: Shape) -> &'static str {
    match shape {
        Shape::Wall => "wall",
        Shape::Gable => "gable",
        Shape::Opening => "opening",
        Shape::RoofSlope => "roof slope",
        Shape::DormerSides => "dormer sides",
        Shape::HipOrValley => "hip or valley",
    }
}

/// A moment of the recording as a player shows it: `02:41`, `1:02:41`.
pub fn time(moment: Moment) -> String {
    let seconds = moment.0 / 1000;
    let (h, m, s) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if h > 0 { format!("{h}:{m:02}:{s:02}") } else { format!("{m:02}:{s:02}") }
}

/// A moment of the visit within its own clip: `clip 2, 01:13`; as [`time`] where the visit is one recording.
pub fn time_in(clips: &[Clip], moment: Moment) -> String {
    match clip_moment(clips, moment) {
        Some(ClipMoment { clip, at }) => format!("clip {clip}, {}", time(at)),
        None => time(moment),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn catalogue_names_become_words_and_a_letter_keeps_its_word() {
        assert_eq!(item(Some("light-fixture"), "coach light"), "light fixture");
        assert_eq!(item(Some("j-channel"), "jay channel"), "j-channel");
        assert_eq!(item(None, "weather vane"), "weather vane");
    }

    #[test]
    fn hours_show_only_when_there_are_any() {
        assert_eq!(time(Moment(161_999)), "02:41");
        assert_eq!(time(Moment(3_761_000)), "1:02:41");
    }

    #[test]
    fn a_moment_of_several_clips_is_told_within_its_own() {
        let clip = |start| Clip {
            source: "a.wav".to_owned(),
            digest: None,
            start: Moment(start),
            length: None,
            first_word: 0,
        };
        let clips = [clip(0), clip(60_000)];
        assert_eq!(time_in(&clips, Moment(133_000)), "clip 2, 01:13");
        assert_eq!(time_in(&clips, Moment(59_999)), "clip 1, 00:59");
        assert_eq!(time_in(&[], Moment(133_000)), "02:13");
    }
}
