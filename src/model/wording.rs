//! The values of a draft in plain words, and what is told of it in sentences: the same on every paper and on the page.

mod sentences;

pub use sentences::{
    CLOSING, NOT_USED, ONLY_IF, SEEN_FROM, capital, caution, clip, count, date, date_and_time, follow_ups,
    looks, reading, recording, sentence, source, summary,
};

use crate::model::span::Moment;
use crate::model::{Clip, ClipMoment, Dimension, Line, Shape, Side, Slope, Unit, Work, clip_moment};

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

/// How much, with a hedge or a range as it was said; none where no number was said.
pub fn quantity(line: &Line) -> Option<String> {
    let quantity = line.quantity?;
    let amount = match (line.low, line.high) {
        (Some(low), Some(high)) if low < high => format!("{} to {}", number(low), number(high)),
        _ => number(quantity),
    };
    Some(if line.rough { format!("about {amount}") } else { amount })
}

/// A number with two decimals at most.
pub fn number(number: f64) -> String {
    let text = format!("{number:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// What a line's quantity counts.
pub fn unit(line: &Line) -> &'static str {
    unit_word(line.unit, line.quantity == Some(1.0) && line.high.is_none_or(|high| high <= 1.0))
}

/// A unit, of one or of more.
pub fn unit_word(unit: Unit, one: bool) -> &'static str {
    match (unit, one) {
        (Unit::Each, _) => "each",
        (Unit::Foot, _) => "ft",
        (Unit::SquareFoot, _) => "sq ft",
        (Unit::Inch, _) => "in",
        (Unit::Yard, _) => "yd",
        (Unit::Square, true) => "square",
        (Unit::Square, false) => "squares",
        (Unit::Pair, true) => "pair",
        (Unit::Pair, false) => "pairs",
        (Unit::Set, true) => "set",
        (Unit::Set, false) => "sets",
        (Unit::Roll, true) => "roll",
        (Unit::Roll, false) => "rolls",
        (Unit::Sheet, true) => "sheet",
        (Unit::Sheet, false) => "sheets",
        (Unit::Bundle, true) => "bundle",
        (Unit::Bundle, false) => "bundles",
        (Unit::Box, true) => "box",
        (Unit::Box, false) => "boxes",
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

/// What was measured of a face, in plain words: `wall, width 40 ft, height not said`.
pub fn measured(dimension: &Dimension) -> String {
    let length = |known: Option<f64>| known.map_or_else(|| "not said".to_owned(), feet);
    let (width, height) = (length(dimension.width_ft), length(dimension.height_ft));
    format!("{}, width {width}, height {height}", shape(dimension.shape))
}

/// How steep a roof was said to be: `roof slope, 6 in 12`.
pub fn slope(slope: &Slope) -> String {
    format!("{}, {} in 12", shape(Shape::RoofSlope), number(slope.rise))
}

/// A length in feet as a tape shows it: `8 ft 4 in`, `26 ft`.
pub fn feet(feet: f64) -> String {
    /// Written with two decimals, a third of a foot is this far off a whole inch.
    const NEAR_AN_INCH: f64 = 0.05;
    let inches = (feet * 12.0).round();
    if (feet * 12.0 - inches).abs() > NEAR_AN_INCH {
        return format!("{} ft", number(feet));
    }
    match ((inches / 12.0).floor(), inches % 12.0) {
        (whole, 0.0) => format!("{whole} ft"),
        (0.0, rest) => format!("{rest} in"),
        (whole, rest) => format!("{whole} ft {rest} in"),
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
    fn lengths_read_as_a_tape_shows_them() {
        let said =
            [(26.0, "26 ft"), (8.333, "8 ft 4 in"), (8.33, "8 ft 4 in"), (6.5, "6 ft 6 in"), (0.25, "3 in")];
        for (feet_said, shown) in said {
            assert_eq!(feet(feet_said), shown);
        }
        assert_eq!(feet(8.3), "8.3 ft");
        assert_eq!(feet(11.999), "12 ft");
    }

    #[test]
    fn numbers_keep_two_decimals_and_no_idle_zero() {
        for (value, shown) in [(14.0, "14"), (6.5, "6.5"), (8.3333, "8.33"), (100.0, "100"), (0.0, "0")] {
            assert_eq!(number(value), shown);
        }
    }

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
