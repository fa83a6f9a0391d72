//! One line of caption text, in words and time marks.

use super::cue::Piece;
use super::text::is_invisible;
use crate::model::span::Moment;
use crate::speech::clock;

/// The words of a line and the time marks among them. Tags are left out and part no words; neither does a time
/// mark in the middle of a word.
pub(super) fn pieces(line: &str) -> Vec<Piece> {
    let mut scribe = Scribe::default();
    let mut rest = line;
    while let Some((before, tag, after)) = split_at_tag(rest) {
        scribe.text(before);
        scribe.tag(tag);
        rest = after;
    }
    scribe.text(rest);
    scribe.end_word();
    scribe.pieces
}

/// What stands before, in and after the first tag: `<c>`, `</c>`, `<v Name>`, `<00:01.000>`. A `<` that begins
/// none of these was meant as text.
fn split_at_tag(line: &str) -> Option<(&str, &str, &str)> {
    let begins_tag = |c: char| c.is_ascii_alphanumeric() || c == '/' || c == '.';
    line.match_indices('<').find_map(|(at, _)| {
        let (tag, after) = line[at + 1..].split_once('>')?;
        (tag.starts_with(begins_tag) && !tag.contains('<')).then_some((&line[..at], tag, after))
    })
}

/// Writes down the pieces of one line.
#[derive(Default)]
struct Scribe {
    pieces: Vec<Piece>,
    word: String,
    /// A mark just met; it counts once it is known not to stand inside a word.
    mark: Option<Moment>,
}

impl Scribe {
    fn tag(&mut self, tag: &str) {
        self.mark = clock::parse(tag).or(self.mark);
    }

    fn text(&mut self, text: &str) {
        let text = html_escape::decode_html_entities(text);
        for c in text.chars().filter(|c| !is_invisible(*c)) {
            match (c.is_whitespace(), self.word.is_empty()) {
                (true, _) => self.end_word(),
                (false, true) => {
                    self.end_word();
                    self.word.push(c);
                }
                (false, false) => {
                    self.mark = None;
                    self.word.push(c);
                }
            }
        }
    }

    fn end_word(&mut self) {
        if !self.word.is_empty() {
            self.pieces.push(Piece::Word(std::mem::take(&mut self.word)));
        }
        self.pieces.extend(self.mark.take().map(Piece::Mark));
    }
}
