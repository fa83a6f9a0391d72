//! Regular English plurals, for the last word of an item's name.

/// The plural of a noun; irregular ones are written out in the rules files.
pub(super) fn plural(noun: &str) -> String {
    let vowel_before_y = noun.len() > 1 && noun[..noun.len() - 1].ends_with(['a', 'e', 'i', 'o', 'u']);
    if noun.ends_with('y') && !vowel_before_y {
        return format!("{}ies", &noun[..noun.len() - 1]);
    }
    let hisses = ["s", "x", "z", "ch", "sh"].iter().any(|end| noun.ends_with(end));
    format!("{noun}{}", if hisses { "es" } else { "s" })
}

/// Whether a noun is written as a plural already: `fins`, not `glass`.
pub(super) fn is_plural(noun: &str) -> bool {
    noun.ends_with('s') && !["ss", "us", "is"].iter().any(|end| noun.ends_with(end)) && noun.len() > 3
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plurals_follow_the_ending() {
        for (one, many) in [
            ("vent", "vents"),
            ("box", "boxes"),
            ("bush", "bushes"),
            ("awning", "awnings"),
            ("valley", "valleys"),
            ("canopy", "canopies"),
        ] {
            assert_eq!(plural(one), many);
        }
    }

    #[test]
    fn a_written_plural_is_known_and_glass_is_none() {
        assert!(is_plural("fins"));
        assert!(!is_plural("glass"));
        assert!(!is_plural("trellis"));
        assert!(!is_plural("gas"));
    }
}
