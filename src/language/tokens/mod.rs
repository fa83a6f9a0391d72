//! Takes a transcript, gives tokens: the units that rules match. Lower-cased words, contractions and joined
//! spellings taken apart, fillers left out, punctuation turned into breaks between tokens. Never changes
//! the text: every token knows where it stands in it.

mod split;

pub use split::split_word;

use crate::language::vocabulary::{ClassId, UNKNOWN, Vocabulary, WordId};
use crate::model::span::{Moment, TextSpan};
use crate::speech::Transcript;

/// How strongly a token is cut off from the one before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Break {
    /// Spoken on.
    #[default]
    None,
    /// A comma, a dash, or a pause in the recording.
    Comma,
    /// The end of a sentence.
    Sentence,
}

/// A pause of at least this many milliseconds counts as a comma: shorter ones fall inside phrases.
const PAUSE_MS: u64 = 1_200;

/// A recogniser that writes line after line without a mark begins each with a capital, behind a pause of at least
/// this many milliseconds.
const LINE_MS: u64 = 250;

/// A word as rules see it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token {
    /// Its number in the vocabulary.
    pub word: WordId,
    /// What cuts it off from the token before.
    pub before: Break,
    /// In a stretch without marks: the chance in percent that a breath was taken here where none is guessed, or none
    /// where one is.
    pub doubt: Option<u8>,
    /// A sound that says nothing, left out, stood before it.
    pub hesitated: bool,
    /// Where it stands in the text.
    pub text: TextSpan,
    /// The transcript's word it is part of, counted from 0.
    pub heard: u32,
    /// The last of them, where it stands for several.
    pub heard_last: u32,
    /// Read as a word that only sounds like what is written.
    pub sounds: bool,
}

/// Tokens that are read as other words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Respelling {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// The words they are read as.
    pub words: Vec<WordId>,
}

/// A break that was put where none was written, or in place of a written one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Restored {
    /// The token it stands before.
    pub token: usize,
    /// What is taken to cut it off.
    pub before: Break,
    /// The chance in percent that it is not so.
    pub doubt: u8,
}

/// A narration in tokens.
#[derive(Debug, Clone)]
pub struct Tokens {
    /// The transcript's text.
    pub text: String,
    /// The tokens in order.
    pub list: Vec<Token>,
    /// The words come from a recogniser, and so do the marks between them.
    pub from_sound: bool,
    words: Vec<TextSpan>,
}

impl Tokens {
    /// Takes a transcript apart.
    pub fn new(transcript: &Transcript, vocabulary: &Vocabulary) -> Self {
        let (text, words) = transcript.text();
        let mut cutter = Cutter {
            vocabulary,
            abbreviation: vocabulary.class(ABBREVIATION),
            list: Vec::new(),
            pending: Break::Sentence,
            cut: None,
            lower: String::new(),
        };
        let mut last_end: Option<Moment> = None;
        let mut clips = transcript.clips.iter().map(|clip| clip.first_word as usize).peekable();
        for (heard, (word, span)) in transcript.words().zip(&words).enumerate() {
            // Nobody goes on in the middle of a sentence after stopping the recording.
            while clips.next_if(|first| *first <= heard).is_some() {
                cutter.pending = Break::Sentence;
            }
            if let (Some(end), Some(start)) = (last_end, word.start) {
                let pause = start.0.saturating_sub(end.0);
                let begins = word.probability.is_some() && word.text.starts_with(char::is_uppercase);
                if pause >= LINE_MS && begins && text[..span.start].ends_with('\n') {
                    cutter.pending = Break::Sentence;
                } else if pause >= PAUSE_MS {
                    cutter.pending = cutter.pending.max(Break::Comma);
                }
            }
            last_end = word.end.or(last_end);
            cutter.word(&word.text, *span, heard as u32);
        }
        let list = cutter.list;
        let from_sound = transcript.words().any(|w| w.probability.is_some());
        Self { text, list, from_sound, words }
    }

    /// The words as they stand in the text, from the first token to the last.
    pub fn quote(&self, first: usize, last: usize) -> &str {
        let from = self.words[self.list[first].heard as usize];
        let to = self.words[self.list[last].heard_last as usize];
        &self.text[from.join(to).range()]
    }

    /// The transcript's words as they stand in the text, in order.
    pub fn heard(&self) -> impl ExactSizeIterator<Item = &str> {
        self.words.iter().map(|word| &self.text[word.range()])
    }

    /// Reads tokens as other words; each respelling begins behind the one before. The text stays as it is.
    pub fn respell(&mut self, all: &[Respelling]) {
        let mut list = Vec::with_capacity(self.list.len());
        let mut at = 0;
        for one in all {
            list.extend_from_slice(&self.list[at..one.first]);
            let (old, last) = (&self.list[one.first..one.end], self.list[one.end - 1]);
            let text = old[0].text.join(last.text);
            list.extend(one.words.iter().enumerate().map(|(n, word)| {
                let ends = n + 1 == one.words.len();
                let heard = old[n.min(old.len() - 1)].heard;
                let heard_last = if ends { last.heard_last } else { heard };
                let before = if n == 0 { old[0].before } else { Break::None };
                Token { word: *word, before, text, heard, heard_last, sounds: true, ..old[0] }
            }));
            at = one.end;
        }
        list.extend_from_slice(&self.list[at..]);
        self.list = list;
    }

    /// Puts breaks before tokens; whether that changes any.
    pub fn punctuate(&mut self, all: &[Restored]) -> bool {
        let mut changed = false;
        for one in all {
            let token = &mut self.list[one.token];
            changed |= token.before != one.before;
            token.before = one.before;
            token.doubt = Some(one.doubt);
        }
        changed
    }

    /// The text of one token, as it was said.
    pub fn said(&self, at: usize) -> &str {
        &self.text[self.list[at].text.range()]
    }
}

struct Cutter<'a> {
    vocabulary: &'a Vocabulary,
    abbreviation: Option<ClassId>,
    list: Vec<Token>,
    pending: Break,
    /// The break before a filler that was left out.
    cut: Option<Break>,
    lower: String,
}

/// The class of shortened words: a full stop after one ends no sentence unless a capital follows.
const ABBREVIATION: &str = "abbreviation";

impl Cutter<'_> {
    fn word(&mut self, word: &str, span: TextSpan, heard: u32) {
        if self.pending == Break::Sentence
            && self.after_abbreviation()
            && !word.starts_with(char::is_uppercase)
        {
            self.pending = Break::None;
        }
        split_word(word, |piece, offset| {
            let start = span.start + offset;
            self.piece(piece, TextSpan { start, end: start + piece.len() }, heard);
        });
        self.pending = self.pending.max(trailing_break(word));
    }

    fn after_abbreviation(&self) -> bool {
        let last = self.list.last().zip(self.abbreviation);
        last.is_some_and(|(token, class)| self.vocabulary.is(token.word, class))
    }

    fn piece(&mut self, piece: &str, text: TextSpan, heard: u32) {
        self.lower.clear();
        self.lower.extend(piece.chars().flat_map(char::to_lowercase).map(plain_mark));
        if let Some(parts) = self.vocabulary.spelled(&self.lower) {
            for part in parts {
                self.push(*part, text, heard);
            }
            return;
        }
        let word = self.vocabulary.id(&self.lower);
        if word == UNKNOWN
            && let Some(parts) = self.vocabulary.two_in_one(&self.lower)
        {
            parts.into_iter().for_each(|part| self.push(part, text, heard));
            return;
        }
        if word != UNKNOWN && self.vocabulary.is_filler(word) && !self.glued(text) {
            self.cut = Some(self.cut.unwrap_or(Break::None).max(self.pending));
            self.pending = Break::None;
            return;
        }
        self.push(word, text, heard);
    }

    /// Whether something is written right before it in the same word: `mm` in `300mm`, which is no filler.
    fn glued(&self, text: TextSpan) -> bool {
        self.list.last().is_some_and(|t| t.text.end == text.start)
    }

    /// Adds a token. Commas that only fence off a filler fall away with it.
    fn push(&mut self, word: WordId, text: TextSpan, heard: u32) {
        let hesitated = self.cut.is_some();
        let before = match self.cut.take() {
            Some(Break::Comma) if self.pending <= Break::Comma => Break::None,
            Some(cut) => cut.max(self.pending),
            None => self.pending,
        };
        self.pending = Break::None;
        self.list.push(Token {
            word,
            before,
            doubt: None,
            hesitated,
            text,
            heard,
            heard_last: heard,
            sounds: false,
        });
    }
}

/// One spelling for apostrophes and for the marks of feet and inches.
pub(crate) fn plain_mark(c: char) -> char {
    match c {
        '’' | '′' => '\'',
        '”' | '″' => '"',
        other => other,
    }
}

/// What the punctuation at a word's end says.
fn trailing_break(word: &str) -> Break {
    let tail = word.trim_end_matches(['"', '\'', ')', ']', '”', '’']);
    match tail.chars().next_back() {
        Some('.') if tail.ends_with("..") => Break::Comma,
        Some('.' | '!' | '?' | ';') => Break::Sentence,
        Some(',' | ':' | '-' | '–' | '—' | '…') => Break::Comma,
        _ => Break::None,
    }
}
