//! Parts that stand on several papers, so that each says the same of the same thing: tables of lines, what is still
//! needed, what was said and not used, cautions, the end.

mod lines;
mod lists;

pub use lines::Depth;
pub(super) use lines::{Lines, anchor, only_if, said, standing};
pub(super) use lists::{cautions, cleared, followed_up, mentioned, unused};

use crate::model::wording::{CLOSING, SEEN_FROM};

/// What a paper about work says at its end.
pub(super) fn closing() -> Vec<String> {
    CLOSING.into_iter().chain([SEEN_FROM]).map(str::to_owned).collect()
}

/// A property by the file name of its recording: without the ending, as far as it has one. What has no name keeps its
/// ending, for a paper needs a title.
pub(super) fn property(source: &str) -> &str {
    let is_ending = |ending: &str| {
        (2..=5).contains(&ending.len()) && ending.bytes().all(|byte| byte.is_ascii_alphanumeric())
    };
    let stem =
        source.rsplit_once('.').filter(|(_, ending)| is_ending(ending)).map_or(source, |(stem, _)| stem);
    let named = [stem, source].into_iter().map(str::trim).find(|name| !name.is_empty());
    named.unwrap_or("Unnamed property")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_property_is_called_what_its_recording_is_without_the_ending() {
        let names = [
            ("14 Elm.flac", "14 Elm"),
            ("walk.around.txt", "walk.around"),
            ("12 St. James Ave", "12 St. James Ave"),
            ("14 Elm", "14 Elm"),
            (".m4a", ".m4a"),
            ("", "Unnamed property"),
        ];
        for (source, name) in names {
            assert_eq!(property(source), name);
        }
    }
}
