//! Cuts words into the pieces that the reader knows: lower case, no accents, marks by themselves, then the longest piece that
//! fits, and again. This is how BERT's models cut words (Devlin et al. 2019, "BERT: Pre-training of Deep Bidirectional
//! Transformers", and its published tokenizer).

use rustc_hash::FxHashMap;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// A word with more letters than this is no word.
const LONGEST: usize = 100;

/// The place of the piece that stands for what isn't known.
pub(super) const UNKNOWN: u32 = 1;
/// The piece before the first of a window.
pub(super) const OPENS: u32 = 2;
/// The piece behind the last of a window.
pub(super) const CLOSES: u32 = 3;

/// The known pieces.
pub(super) struct Pieces {
    places: FxHashMap<String, u32>,
}

impl Pieces {
    pub fn new(pieces: &[String]) -> Self {
        Self { places: pieces.iter().zip(0..).map(|(piece, place)| (piece.clone(), place)).collect() }
    }

    /// The pieces of a word; one that stands for what isn't known where it has none.
    pub fn of(&self, word: &str) -> Vec<u32> {
        let mut all = Vec::new();
        for part in parts(word) {
            self.part(&part, &mut all);
        }
        if all.is_empty() {
            all.push(UNKNOWN);
        }
        all
    }

    fn part(&self, part: &str, all: &mut Vec<u32>) {
        let letters: Vec<char> = part.chars().collect();
        if letters.len() > LONGEST {
            all.push(UNKNOWN);
            return;
        }
        let (before, mut at) = (all.len(), 0);
        while at < letters.len() {
            let longest = (at + 1..=letters.len()).rev().find_map(|end| {
                let mut piece = if at > 0 { "##".to_owned() } else { String::new() };
                piece.extend(&letters[at..end]);
                Some((end, *self.places.get(&piece)?))
            });
            let Some((end, place)) = longest else {
                all.truncate(before);
                all.push(UNKNOWN);
                return;
            };
            all.push(place);
            at = end;
        }
    }
}

/// A word in lower case without accents, cut at its marks.
fn parts(word: &str) -> Vec<String> {
    let plain: String = word
        .nfd()
        .filter(|c| !is_combining_mark(*c) && !is_control(*c))
        .flat_map(char::to_lowercase)
        .collect();
    let mut parts = vec![String::new()];
    for c in plain.chars() {
        if is_mark(c) || is_ideograph(c) {
            parts.push(c.to_string());
            parts.push(String::new());
        } else if c.is_whitespace() {
            parts.push(String::new());
        } else if let Some(last) = parts.last_mut() {
            last.push(c);
        }
    }
    parts.retain(|part| !part.is_empty());
    parts
}

fn is_control(c: char) -> bool {
    c == '\0' || c == '\u{fffd}' || c.is_control() && !c.is_whitespace()
}

/// What BERT takes for a mark: all that is neither letter nor digit in ASCII, and marks elsewhere.
fn is_mark(c: char) -> bool {
    c.is_ascii_punctuation()
        || matches!(c, '\u{a1}' | '\u{a7}' | '\u{ab}' | '\u{b6}' | '\u{b7}' | '\u{bb}' | '\u{bf}')
        || matches!(c, '\u{2010}'..='\u{2027}' | '\u{2030}'..='\u{205e}' | '\u{3001}'..='\u{3003}')
}

fn is_ideograph(c: char) -> bool {
    matches!(c, '\u{4e00}'..='\u{9fff}' | '\u{3400}'..='\u{4dbf}' | '\u{f900}'..='\u{faff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A vocabulary of these pieces behind the five that are always there.
    fn pieces(own: &[&str]) -> Pieces {
        let always = ["[PAD]", "[UNK]", "[CLS]", "[SEP]", "[MASK]"];
        Pieces::new(&always.iter().chain(own).map(|p| (*p).to_owned()).collect::<Vec<_>>())
    }

    #[test]
    fn the_longest_piece_that_fits_is_taken_first() {
        let known = pieces(&["gut", "##ter", "##t", "gutter", "##s", ",", "cafe"]);
        assert_eq!(known.of("Gutters,"), [8, 9, 10]);
        assert_eq!(known.of("gutt"), [5, 7]);
        assert_eq!(known.of("Café"), [11]);
    }

    #[test]
    fn what_has_no_pieces_is_unknown() {
        let known = pieces(&["a", "##b"]);
        assert_eq!(known.of("ac"), [UNKNOWN]);
        assert_eq!(known.of("\u{301}"), [UNKNOWN]);
        assert_eq!(known.of(&"a".repeat(101)), [UNKNOWN]);
        assert_eq!(known.of("ab"), [5, 6]);
    }
}
