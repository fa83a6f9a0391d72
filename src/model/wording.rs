//! The values of a draft in plain words, the same in every document.

mod amounts;

pub use amounts::{
    amount, inches, length, measured, much, number, quantity, size, size_of, slope, unit, unit_beside,
    unit_word,
};

use crate::model::span::Moment;
use crate::model::{Clip, ClipMoment, Draft, FollowUpKind, Line, Reading, Shape, Side, Work, clip_moment};

/// What a document says of itself at its end.
pub const CLOSING: [&str; 2] = [
    "Local code and the authority having jurisdiction decide; electrical, gas and refrigerant work is for licensed \
     trades.",
    "This is a list of physical work seen and measured. It does not say what any policy covers, what caused the \
     damage or what will be paid.",
];

/// Heading over words of work and lengths that came to no line.
pub(crate) const UNPLACED: &str = "Said, but not placed";

/// What conditional lines are, for the reader who meets them.
pub const ONLY_IF: &str =
    "The narrator made these conditional. They stand outside every total until confirmed.";

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

/// The heading over things still to be done.
pub fn follow_ups(kind: FollowUpKind) -> &'static str {
    match kind {
        FollowUpKind::Photo => "Photos to take",
        FollowUpKind::Measure => "Tapes to run",
        FollowUpKind::Check => "To check",
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

/// The same for a column: `#2 01:13`.
pub fn short_time_in(clips: &[Clip], moment: Moment) -> String {
    match clip_moment(clips, moment) {
        Some(ClipMoment { clip, at }) => format!("#{clip} {}", time(at)),
        None => time(moment),
    }
}

/// The recording, in a sentence: how long, and in how many clips; none for text.
pub fn recording(draft: &Draft) -> Option<String> {
    let clips = match draft.clips.len() {
        0 => String::new(),
        clips => format!(" in {}", count(clips, "clip", "clips")),
    };
    draft.length.map(|length| format!("Recording of {}{clips}. ", time(length)))
}

/// A clip by its file name and its length.
pub fn clip(clip: &Clip) -> String {
    match clip.length {
        Some(length) => format!("{}, {}", clip.source, time(length)),
        None => clip.source.clone(),
    }
}

/// What a reviewer has to settle about a line, each a sentence.
pub fn looks(line: &Line) -> impl Iterator<Item = String> {
    let flags = line.flags.iter().filter(|flag| flag.needs_look()).map(|flag| sentence(flag.sentence()));
    let heard = line.other_reading.iter().map(|words| {
        format!("The other time it was heard as “{}”.", words.trim_end_matches(['.', ',', ';']))
    });
    let readings = line.readings.iter().filter(|_| line.needs_look());
    let or = readings.map(|r| sentence(&format!("or {}: {}", reading(line, r), r.because)));
    flags.chain(heard).chain(or)
}

/// What another reading of a line gives otherwise: `11 ft`, `right`, `hose reel`.
pub fn reading(line: &Line, reading: &Reading) -> String {
    let other = line.read_as(reading);
    let place = reading.side.is_some() || reading.structure.is_some();
    let told = [
        reading.item.as_ref().map(|_| item_of(&other)),
        place.then(|| whereabouts(&other.structure, other.side)),
        reading.work.map(|w| work(Some(w)).to_owned()),
        amount(&other).filter(|_| reading.quantity.is_some()),
        reading.size.as_ref().map(size),
    ];
    told.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The words with a capital and a full stop.
pub fn sentence(words: &str) -> String {
    let end = if words.ends_with(['.', '!', '?']) { "" } else { "." };
    capital(words) + end
}

/// The words with a capital.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// How many of something: `1 line`, `2 lines`.
pub fn count(number: usize, one: &str, more: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { more })
}

/// A draft's counts in a sentence.
pub fn summary(draft: &Draft) -> String {
    let only_if = draft.lines.iter().filter(|line| line.only_if).count();
    let looks = draft.lines.iter().filter(|line| line.needs_look()).count();
    let mut text = count(draft.lines.len() - only_if, "line", "lines");
    if only_if > 0 {
        text += &format!(" and {only_if} conditional");
    }
    match looks {
        0 => text + "; nothing needs a look",
        1 => text + "; 1 needs a look",
        _ => format!("{text}; {looks} need a look"),
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
        assert_eq!(short_time_in(&clips, Moment(59_999)), "#1 00:59");
        assert_eq!(
            (time_in(&[], Moment(133_000)), short_time_in(&[], Moment(1_000))),
            ("02:13".into(), "00:01".into())
        );
    }
}
