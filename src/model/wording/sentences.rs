//! What papers and the page say of a draft in whole sentences, and the headings that they share.

use super::{amount, item_of, size, time, whereabouts, work};
use crate::model::{Clip, Draft, FollowUpKind, Line, Reading};

/// What a paper says of itself at its end.
pub const CLOSING: [&str; 2] = [
    "Local code and the authority having jurisdiction decide. Electrical, gas and refrigerant work is for licensed \
     trades.",
    "This is a list of physical work seen and measured. It does not say what any policy covers, what caused the \
     damage or what will be paid.",
];

/// What left and right mean.
pub const SEEN_FROM: &str = "Left and right are as seen from the street.";

/// The heading over words of work and lengths that came to no line.
pub const NOT_USED: &str = "Not used";

/// What conditional lines are, for the reader who meets them.
pub const ONLY_IF: &str = "These lines apply only if their condition holds. Not in totals until confirmed.";

/// What cautions are called by the names that the rules give them, where those words alone wouldn't say it.
const CAUTIONS: [(&str, &str); 5] = [
    ("live-service", "Live electrical service"),
    ("electric-work", "Electrical work"),
    ("gas-vent", "Gas vents"),
    ("refrigerant", "Refrigerant lines"),
    ("old-paint", "Lead paint"),
];

/// How a rule is marked that nobody published.
const UNPUBLISHED: &str = "common practice, no source";

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// The heading of a caution: `Live electrical service`.
pub fn caution(name: &str) -> String {
    let known = CAUTIONS.iter().find(|(id, _)| *id == name);
    known.map_or_else(|| capital(&name.replace('-', " ")), |(_, words)| (*words).to_owned())
}

/// Where a rule is published, or that it is common practice.
pub fn source(source: &str) -> String {
    capital(&source.replace(UNPUBLISHED, "common practice"))
}

/// The heading over what is still needed.
pub fn follow_ups(kind: FollowUpKind) -> &'static str {
    match kind {
        FollowUpKind::Photo => "Photos still needed",
        FollowUpKind::Measure => "Measurements still needed",
        FollowUpKind::Check => "Still to check",
    }
}

/// The day of a moment that is written as RFC 3339 has it: `December 1, 2026`.
pub fn date(at: &str) -> String {
    let told = || {
        let mut parts = at.get(..10)?.split('-').map(|part| part.parse::<usize>().ok());
        let (year, month, day) = (parts.next()??, parts.next()??, parts.next()??);
        Some(format!("{} {day}, {year}", MONTHS.get(month.checked_sub(1)?)?))
    };
    told().unwrap_or_else(|| at.to_owned())
}

/// The same with the time to the minute: `December 1, 2026, 7:10 AM`. A moment in universal time says so.
pub fn date_and_time(at: &str) -> String {
    let told = || {
        let (hour, minute) = (at.get(11..13)?.parse::<usize>().ok()?, at.get(14..16)?);
        let half = if hour < 12 { "AM" } else { "PM" };
        let zone = if at.ends_with('Z') { " UTC" } else { "" };
        let hour = if hour % 12 == 0 { 12 } else { hour % 12 };
        Some(format!("{}, {hour}:{minute} {half}{zone}", date(at)))
    };
    told().unwrap_or_else(|| date(at))
}

/// The recording, in a sentence: how long, and in how many clips; none for text.
pub fn recording(draft: &Draft) -> Option<String> {
    let clips = match draft.clips.len() {
        0 => String::new(),
        clips => format!(", {}", count(clips, "clip", "clips")),
    };
    draft.length.map(|length| format!("Length of the recording: {}{clips}.", time(length)))
}

/// A clip by its file name and its length.
pub fn clip(clip: &Clip) -> String {
    match clip.length {
        Some(length) => format!("{}, {}", clip.source, time(length)),
        None => clip.source.clone(),
    }
}

/// What a reviewer has to look at in a line, each a sentence.
pub fn looks(line: &Line) -> impl Iterator<Item = String> {
    let flags = line.flags.iter().filter(|flag| flag.needs_look()).map(|flag| sentence(flag.sentence()));
    let heard = line
        .other_reading
        .iter()
        .map(|words| format!("A second listen heard “{}”.", words.trim_end_matches(['.', ',', ';'])));
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

/// A draft's counts: `15 lines and 2 conditional lines; 7 need review`.
pub fn summary(draft: &Draft) -> String {
    let only_if = draft.lines.iter().filter(|line| line.only_if).count();
    let flagged = draft.lines.iter().filter(|line| line.needs_look()).count();
    let mut text = count(draft.lines.len() - only_if, "line", "lines");
    if only_if > 0 {
        text += &format!(" and {}", count(only_if, "conditional line", "conditional lines"));
    }
    match flagged {
        0 => text + "; none needs review",
        1 => text + "; 1 needs review",
        _ => format!("{text}; {flagged} need review"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_are_told_as_people_write_them() {
        assert_eq!(date("2026-12-01T07:10:00.123456789Z"), "December 1, 2026");
        assert_eq!(date_and_time("2026-12-01T07:10:00.123456789Z"), "December 1, 2026, 7:10 AM UTC");
        assert_eq!(date_and_time("2026-11-27T00:05:30"), "November 27, 2026, 12:05 AM");
        assert_eq!(date_and_time("2026-11-27T19:15:30"), "November 27, 2026, 7:15 PM");
        for odd in ["", "yesterday", "2026-13-01", "2026-00-01T"] {
            assert_eq!(date(odd), odd);
        }
    }

    #[test]
    fn a_caution_has_a_heading_even_where_the_office_named_it() {
        assert_eq!(caution("live-service"), "Live electrical service");
        assert_eq!(caution("steep-roof"), "Steep roof");
    }

    #[test]
    fn a_rule_that_nobody_published_is_common_practice() {
        assert_eq!(source("up both rakes: common practice, no source"), "Up both rakes: common practice");
        assert_eq!(source("29 CFR 1926.501(b)(1)"), "29 CFR 1926.501(b)(1)");
    }
}
