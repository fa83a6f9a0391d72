//! Names of people and addresses, struck out of what was said as far as they can be told: it is a help, and no warrant.

/// Stands for a word that was struck out.
const STRUCK: &str = "[name]";

/// A name comes behind these.
const TITLES: [&str; 9] = ["mr", "mrs", "ms", "miss", "mister", "missus", "dr", "doctor", "officer"];
const INTRODUCTIONS: [[&str; 2]; 4] = [["name", "is"], ["this", "is"], ["names", "is"], ["called", "me"]];

/// A number, a name and one of these are an address.
const STREETS: [&str; 24] = [
    "street",
    "st",
    "avenue",
    "ave",
    "road",
    "rd",
    "drive",
    "dr",
    "lane",
    "ln",
    "court",
    "ct",
    "way",
    "place",
    "circle",
    "boulevard",
    "blvd",
    "terrace",
    "trail",
    "highway",
    "parkway",
    "loop",
    "square",
    "crescent",
];

/// How many words of a street's name may stand between its number and what kind of street it is.
const STREET_NAME: usize = 3;

/// The words with names and addresses struck out. `known` tells whether a word is one of the rules' own; `file` is what
/// the recording is called, which often has the owner's name or the street in it.
pub fn struck(said: &[&str], file: &str, known: &dyn Fn(&str) -> bool) -> Vec<String> {
    let plain: Vec<String> = said.iter().map(|word| bare(word)).collect();
    let strange = |at: usize| {
        plain
            .get(at)
            .is_some_and(|word| word.len() > 1 && word.chars().all(char::is_alphabetic) && !known(word))
    };
    let of_file: Vec<String> = file.split(|c: char| !c.is_alphabetic()).map(str::to_lowercase).collect();
    let in_file = |at: usize| plain[at].len() > 2 && of_file.contains(&plain[at]) && strange(at);
    let begins = |at: usize| at == 0 || said[at - 1].ends_with(['.', '?', '!', ':']);
    let capital = |at: usize| said[at].chars().next().is_some_and(char::is_uppercase);
    let titled = |at: usize| at > 0 && TITLES.contains(&plain[at - 1].as_str()) && strange(at);
    let introduced = |at: usize| {
        at > 1 && INTRODUCTIONS.iter().any(|[a, b]| plain[at - 2] == *a && plain[at - 1] == *b) && strange(at)
    };
    let mut out: Vec<bool> = (0..said.len())
        .map(|at| in_file(at) || titled(at) || introduced(at) || capital(at) && !begins(at) && strange(at))
        .collect();
    for at in 0..said.len() {
        if let Some(end) = address(at, &plain, &strange) {
            out[at..=end].fill(true);
        }
    }
    // A name that was struck out once is struck out everywhere.
    let names: Vec<&String> =
        plain.iter().zip(&out).filter(|(word, out)| **out && !known(word)).map(|x| x.0).collect();
    let told = |at: usize| if out[at] || names.contains(&&plain[at]) { STRUCK } else { said[at] };
    (0..said.len()).map(|at| told(at).to_owned()).collect()
}

/// The last word of the address that begins at a word.
fn address(at: usize, plain: &[String], strange: &dyn Fn(usize) -> bool) -> Option<usize> {
    let number = &plain[at];
    if number.is_empty() || number.len() > 5 || !number.chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    let kind = |end: &usize| plain.get(*end).is_some_and(|word| STREETS.contains(&word.as_str()));
    (at + 2..=at + 1 + STREET_NAME).find(kind).filter(|end| strange(end - 1))
}

/// A word without what is written around it.
fn bare(word: &str) -> String {
    let word = word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    word.strip_suffix("'s").map_or_else(|| word.clone(), str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(said: &str, file: &str) -> String {
        let known = [
            "hello", "this", "is", "from", "the", "office", "at", "front", "gutter", "feet", "on", "street",
            "side",
        ];
        let words: Vec<&str> = said.split_whitespace().collect();
        struck(&words, file, &|word| known.contains(&word)).join(" ")
    }

    #[test]
    fn people_and_addresses_are_struck_out() {
        let said = "Hello, this is Arvo from the office, at 1412 Quince Street. Mrs Tamblyn is at the front. Tamblyn's gutter";
        let expected = "Hello, this is [name] from the office, at [name] [name] [name] Mrs [name] is at the front. [name] gutter";
        assert_eq!(told(said, "walk"), expected);
    }

    #[test]
    fn captions_have_no_capitals() {
        let expected = "this is [name] at [name] [name] [name] front gutter 14 feet";
        assert_eq!(told("this is arvo at 1412 quince street front gutter 14 feet", "walk"), expected);
    }

    #[test]
    fn what_the_recording_is_called_is_struck_out() {
        assert_eq!(told("the quince gutter", "14 Quince front.m4a"), "the [name] gutter");
    }

    #[test]
    fn counts_beside_a_street_stay() {
        assert_eq!(told("Gutter 14 feet on the street side", "14 Elm"), "Gutter 14 feet on the street side");
        assert_eq!(told("gutter 14 on the street side", "14 Elm"), "gutter 14 on the street side");
    }
}
