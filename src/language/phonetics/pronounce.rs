//! From a written word to its phones: the office's own entries, the dictionary, endings and compounds of what is in
//! it, and letter by letter what is not.

use super::letters::Letters;
use super::phone::Phone;
use std::collections::BTreeMap;

/// Shorter parts of a compound are too easily found where there is none.
const SHORTEST_PART: usize = 3;

/// Tells how words sound.
#[derive(Debug, Default)]
pub struct Pronouncer {
    /// A word a line, in the order of their bytes, each with its phones.
    dictionary: &'static str,
    own: BTreeMap<String, Vec<Phone>>,
    letters: Letters,
}

impl Pronouncer {
    /// Takes a dictionary: on each line a word and its phones in ARPAbet's signs, sorted by their bytes.
    pub fn new(dictionary: &'static str) -> Self {
        Self { dictionary, ..Self::default() }
    }

    /// Takes a word of the rules' own, in ARPAbet's signs: "F EY SH AH".
    ///
    /// # Errors
    /// The sign that is none.
    pub fn add(&mut self, word: &str, signs: &str) -> Result<(), String> {
        self.own.insert(word.to_owned(), read(signs)?);
        Ok(())
    }

    /// Takes what letters sound like: "tch" is "CH".
    ///
    /// # Errors
    /// The sign that is none.
    pub fn add_letters(&mut self, letters: &str, signs: &str) -> Result<(), String> {
        self.letters.add(letters, read(signs)?);
        Ok(())
    }

    /// The phones of a word in small letters; none where it has no letters.
    pub fn phones(&self, word: &str) -> Vec<Phone> {
        let plain: String = word.chars().filter(char::is_ascii_alphabetic).collect();
        self.known(&plain)
            .or_else(|| self.with_ending(&plain))
            .or_else(|| self.compound(&plain))
            .unwrap_or_else(|| self.letters.phones(&plain))
    }

    /// Whether the word stands in the dictionary, or is one of the rules' own.
    pub fn knows(&self, word: &str) -> bool {
        self.own.contains_key(word) || look_up(self.dictionary, word).is_some()
    }

    fn known(&self, word: &str) -> Option<Vec<Phone>> {
        self.own.get(word).cloned().or_else(|| read(look_up(self.dictionary, word)?).ok())
    }

    /// "gutters", "sided".
    fn with_ending(&self, word: &str) -> Option<Vec<Phone>> {
        let ended = |ending: &str, signs: &str| {
            let mut phones = self.known(word.strip_suffix(ending)?)?;
            phones.extend(read(signs).ok()?);
            Some(phones)
        };
        let hard = ["ps", "ts", "ks", "fs", "ths"].iter().any(|ending| word.ends_with(ending));
        ended("s", if hard { "S" } else { "Z" })
            .or_else(|| ended("es", "IH Z"))
            .or_else(|| ended("ed", "D"))
            .or_else(|| ended("ing", "IH NG"))
    }

    /// "sillcock".
    fn compound(&self, word: &str) -> Option<Vec<Phone>> {
        let cuts = SHORTEST_PART..word.len().saturating_sub(SHORTEST_PART - 1);
        // The evener the likelier: "down" and "spout".
        let mut cuts: Vec<usize> = cuts.collect();
        cuts.sort_by_key(|at| ((2 * at).abs_diff(word.len()), *at));
        cuts.into_iter().find_map(|at| {
            let (first, second) = word.split_at(at);
            let second = self.known(second).or_else(|| self.with_ending(second))?;
            Some([self.known(first)?, second].concat())
        })
    }
}

/// The signs of a word in a dictionary.
fn look_up<'d>(dictionary: &'d str, word: &str) -> Option<&'d str> {
    let (mut from, mut to) = (0, dictionary.len());
    while from < to {
        let middle = from + (to - from) / 2;
        let start = dictionary[..middle].rfind('\n').map_or(0, |at| at + 1);
        let end = dictionary[middle..].find('\n').map_or(dictionary.len(), |at| middle + at);
        let (found, signs) = dictionary[start..end].split_once(' ')?;
        match word.cmp(found) {
            std::cmp::Ordering::Equal => return Some(signs),
            std::cmp::Ordering::Less => to = start,
            std::cmp::Ordering::Greater => from = end + 1,
        }
    }
    None
}

fn read(signs: &str) -> Result<Vec<Phone>, String> {
    let mut phones = Vec::new();
    for sign in signs.split_whitespace() {
        phones.extend(Phone::read(sign).ok_or_else(|| sign.to_owned())?);
    }
    Ok(phones)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::phonetics::likeness;

    const DICTIONARY: &str = include_str!("../../../grammars/sounds/cmudict.txt");

    #[track_caller]
    fn check(word: &str, signs: &str) {
        assert_eq!(Pronouncer::new(DICTIONARY).phones(word), read(signs).unwrap(), "{word}");
    }

    #[test]
    fn words_of_the_dictionary_are_found_wherever_they_stand() {
        check("a", "AH");
        check("siding", "S AY D IH NG");
        check("zywicki", "Z IH W IH K IY");
        assert!(!Pronouncer::new(DICTIONARY).knows("conduot"));
    }

    #[test]
    fn endings_and_compounds_are_made_of_what_is_there() {
        check("downspout", "D AW N S P AW T");
        check("sillcocks", "S IH L K AA K S");
        check("spigots", "S P IH G AH T S");
    }

    #[test]
    fn what_is_misheard_is_alike() {
        let sounds = Pronouncer::new(DICTIONARY);
        let alike = |a: &str, b: &str| {
            let phones = |words: &str| words.split(' ').flat_map(|w| sounds.phones(w)).collect::<Vec<_>>();
            likeness(&phones(a), &phones(b))
        };
        for (heard, said) in [
            ("silk cock", "sill cock"),
            ("sighting", "siding"),
            ("gable bent", "gable vent"),
            ("real", "reel"),
        ] {
            assert!(alike(heard, said) > 0.8, "{heard} {said} {}", alike(heard, said));
        }
        for (heard, other) in
            [("cable", "gutter"), ("window", "door"), ("screen", "shutter"), ("mailbox", "meter")]
        {
            assert!(alike(heard, other) < 0.65, "{heard} {other} {}", alike(heard, other));
        }
    }
}
