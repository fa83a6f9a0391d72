//! Letter by letter: how a word sounds that stands in no dictionary, well enough to tell what it is like.

use super::phone::Phone;
use std::collections::BTreeMap;

/// The most letters that are one sound together.
const MOST: usize = 4;

/// What letters sound like.
#[derive(Debug, Default)]
pub(super) struct Letters {
    sounds: BTreeMap<String, Vec<Phone>>,
}

impl Letters {
    pub(super) fn add(&mut self, letters: &str, phones: Vec<Phone>) {
        self.sounds.insert(letters.to_owned(), phones);
    }

    /// The phones of a word, the longest group of letters first; a final silent "e" and doubled letters count once.
    pub(super) fn phones(&self, word: &str) -> Vec<Phone> {
        let word = if word.len() > 3 { word.strip_suffix('e').unwrap_or(word) } else { word };
        let mut phones: Vec<Phone> = Vec::new();
        let mut at = 0;
        while at < word.len() {
            let group = (1..=MOST.min(word.len() - at))
                .rev()
                .find_map(|n| Some((n, self.sounds.get(&word[at..at + n])?)));
            let (letters, sound) = group.map_or((1, [].as_slice()), |(n, sound)| (n, sound.as_slice()));
            let doubled = sound.first().is_some_and(|first| phones.last() == Some(first));
            phones.extend(&sound[usize::from(doubled)..]);
            at += letters;
        }
        phones
    }
}
