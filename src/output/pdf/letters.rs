//! Letters: the fonts, how wide words are in them, and where a line breaks.

use krilla::text::Font;
use textwrap::core::Fragment;
use textwrap::wrap_algorithms::wrap_first_fit;
use ttf_parser::Face as Metrics;

/// A cut of the font.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Cut {
    Regular,
    Bold,
    Italic,
}

/// The fonts, each to draw with and to measure by.
pub(super) struct Letters {
    cuts: [(Font, Metrics<'static>); 3],
}

const FILES: [&[u8]; 3] = [
    include_bytes!("../fonts/OpenSans-Regular.ttf"),
    include_bytes!("../fonts/OpenSans-Bold.ttf"),
    include_bytes!("../fonts/OpenSans-Italic.ttf"),
];

/// What is drawn for a letter that the font doesn't have.
const UNKNOWN: char = '?';

impl Letters {
    /// The fonts that the program carries.
    pub fn new() -> Option<Self> {
        let cut = |bytes: &'static [u8]| Some((Font::new(bytes.into(), 0)?, Metrics::parse(bytes, 0).ok()?));
        let [regular, bold, italic] = FILES;
        Some(Self { cuts: [cut(regular)?, cut(bold)?, cut(italic)?] })
    }

    /// The font of a cut.
    pub fn font(&self, cut: Cut) -> Font {
        self.cuts[cut as usize].0.clone()
    }

    /// The text as far as the font has its letters.
    pub fn drawable(&self, text: &str, cut: Cut) -> String {
        let metrics = &self.cuts[cut as usize].1;
        let known = |letter: char| metrics.glyph_index(letter).is_some_and(|glyph| glyph.0 != 0);
        let letter = |letter: char| match letter {
            letter if letter.is_whitespace() => ' ',
            letter if known(letter) => letter,
            _ => UNKNOWN,
        };
        text.chars().map(letter).collect()
    }

    /// How wide a text is, in points.
    pub fn width(&self, text: &str, cut: Cut, size: f32) -> f32 {
        let metrics = &self.cuts[cut as usize].1;
        let advance = |letter| {
            f32::from(metrics.glyph_index(letter).and_then(|g| metrics.glyph_hor_advance(g)).unwrap_or(0))
        };
        text.chars().map(advance).sum::<f32>() * size / f32::from(metrics.units_per_em())
    }

    /// The lines that a text takes in a width. A word that is too long for any line is broken.
    pub fn lines(&self, text: &str, cut: Cut, size: f32, width: f32) -> Vec<String> {
        let text = self.drawable(text, cut);
        let words: Vec<Word> =
            text.split_whitespace().flat_map(|word| self.pieces(word, cut, size, width)).collect();
        let lines = wrap_first_fit(&words, &[f64::from(width)]);
        let line = |words: &[Word]| {
            let mut line = String::new();
            for (n, word) in words.iter().enumerate() {
                line.push_str(&word.text);
                if n + 1 < words.len() && word.space > 0.0 {
                    line.push(' ');
                }
            }
            line
        };
        lines.into_iter().map(line).filter(|line| !line.is_empty()).collect()
    }

    fn pieces(&self, word: &str, cut: Cut, size: f32, width: f32) -> Vec<Word> {
        let space = self.width(" ", cut, size);
        let mut pieces = vec![Word::default()];
        for letter in word.chars() {
            let wide = self.width(letter.encode_utf8(&mut [0; 4]), cut, size);
            if pieces.last().is_some_and(|piece| !piece.text.is_empty() && piece.width + wide > width) {
                pieces.push(Word::default());
            }
            if let Some(piece) = pieces.last_mut() {
                piece.text.push(letter);
                piece.width += wide;
            }
        }
        if let Some(last) = pieces.last_mut() {
            last.space = space;
        }
        pieces
    }
}

/// A word, or a piece of one that fits no line.
#[derive(Debug, Default)]
struct Word {
    text: String,
    width: f32,
    space: f32,
}

impl Fragment for Word {
    fn width(&self) -> f64 {
        self.width.into()
    }

    fn whitespace_width(&self) -> f64 {
        self.space.into()
    }

    fn penalty_width(&self) -> f64 {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_wider_than_its_column_and_no_word_is_lost() {
        let letters = Letters::new().unwrap();
        let text = "Two coach lights, detach and reset, a1b2c3d4e5f6a1b2c3d4e5f6a1b2c3d4e5f6, x";
        for width in [30.0, 60.0, 200.0] {
            let lines = letters.lines(text, Cut::Regular, 9.0, width);
            for line in &lines {
                assert!(letters.width(line, Cut::Regular, 9.0) <= width + 0.01, "{line}");
            }
            let letters_of = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            assert_eq!(letters_of(&lines.concat()), letters_of(text));
        }
    }

    #[test]
    fn a_letter_that_the_font_lacks_is_shown_as_unknown() {
        let letters = Letters::new().unwrap();
        assert_eq!(letters.drawable("6 × 4 “ÿ” 家\t√", Cut::Regular), "6 × 4 “ÿ” ? √");
    }
}
