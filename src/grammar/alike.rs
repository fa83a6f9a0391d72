//! Names by how they sound: what a recogniser wrote for a name it doesn't know ("mounting black", "screams")
//! is near the name in its consonants, and not far from it in its letters.

use super::pattern::Step;
use super::vocabulary::Vocabulary;

/// The names of all items.
#[derive(Debug, Default)]
pub struct Alike {
    names: Vec<Name>,
}

#[derive(Debug)]
struct Name {
    letters: String,
    sound: String,
    item: u16,
}

/// Shorter names are too easily like something else.
const FEWEST_LETTERS: usize = 5;

/// How many of the letters have to agree, of 1.
const LETTERS_ALIKE: f64 = 0.7;

/// How many where the consonants differ by one.
const LETTERS_ALIKE_IF_NOT_SOUNDS: f64 = 0.75;

impl Alike {
    pub(super) fn add(&mut self, names: &[Vec<Step>], item: u16, vocabulary: &Vocabulary) {
        for steps in names {
            let words =
                steps.iter().map(|s| if let Step::Word(w) = s { Some(vocabulary.word(*w)) } else { None });
            if let Some(letters) = words.collect::<Option<String>>().filter(|l| l.len() >= FEWEST_LETTERS) {
                self.names.push(Name { sound: sound(&letters), letters, item });
            }
        }
    }

    /// The item whose name sounds most like the letters, and how much, of 1; none where none does.
    pub fn nearest(&self, letters: &str) -> Option<(u16, f64)> {
        if letters.len() + 1 < FEWEST_LETTERS {
            return None;
        }
        let heard = sound(letters);
        let near = self.names.iter().filter_map(|n| {
            let sounds = strsim::levenshtein(&n.sound, &heard);
            let alike = strsim::normalized_levenshtein(&n.letters, letters);
            let least = if sounds == 0 { LETTERS_ALIKE } else { LETTERS_ALIKE_IF_NOT_SOUNDS };
            let far = sounds > 1 || (sounds == 1 && n.sound.len() < 3);
            (!far && alike >= least).then_some((n.item, alike - sounds as f64 / 10.0))
        });
        near.max_by(|a, b| a.1.total_cmp(&b.1))
    }
}

/// The consonants that are told apart by ear, without those that are mistaken for each other; a plural's `s`
/// is left out.
fn sound(letters: &str) -> String {
    let stem = letters.strip_suffix('s').unwrap_or(letters);
    let mut sound = String::new();
    for letter in stem.chars() {
        let heard = match letter {
            'b' | 'p' => 'p',
            'd' | 't' => 't',
            'c' | 'g' | 'k' | 'q' => 'k',
            'f' | 'v' => 'f',
            's' | 'z' | 'x' | 'j' => 's',
            'm' | 'n' => 'n',
            'l' => 'l',
            'r' => 'r',
            _ => continue,
        };
        if !sound.ends_with(heard) {
            sound.push(heard);
        }
    }
    sound
}

#[cfg(test)]
mod tests {
    use super::sound;

    #[test]
    fn words_that_are_mistaken_for_each_other_sound_the_same() {
        for (said, heard) in
            [("siding", "siting"), ("screen", "scream"), ("turbine", "turban"), ("gablevent", "cablevent")]
        {
            assert_eq!(sound(said), sound(heard), "{said} {heard}");
        }
        assert_ne!(sound("gutter"), sound("window"));
    }
}
