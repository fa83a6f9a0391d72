//! Takes the vocabulary out of a `tokenizer.json`: the bytes that each token stands for, in order.
//!
//! The file writes each byte as one printable character, the way GPT-2's byte-level encoding does: the
//! printable bytes of Latin-1 stand for themselves, and the other 68 are numbered upward from U+0100.

use serde::Deserialize;
use std::collections::BTreeMap;

/// The token that ends a text.
pub const END_OF_TEXT: &[u8] = b"<|endoftext|>";

/// A vocabulary that can't be read.
#[expect(missing_docs, reason = "each message says what its fields are")]
#[derive(Debug, thiserror::Error)]
pub enum VocabularyError {
    /// Not the JSON that was expected.
    #[error("the tokenizer file can't be read: {0}")]
    Json(#[from] serde_json::Error),
    /// A character that stands for no byte.
    #[error("the token {id} of the tokenizer file has the character `{found}`, which stands for no byte")]
    Character { id: usize, found: char },
    /// A hole in the numbering.
    #[error("the tokenizer file has no token {0}, or has one twice")]
    Hole(usize),
}

/// The part of a tokenizer file that matters here.
#[derive(Deserialize)]
struct Tokenizer {
    added_tokens: Vec<Added>,
    model: Words,
}

#[derive(Deserialize)]
struct Added {
    content: String,
}

#[derive(Deserialize)]
struct Words {
    vocab: BTreeMap<String, usize>,
}

/// The bytes of every ordinary token, by number. Control tokens are left out: whisper.cpp adds its own.
///
/// # Errors
/// The file isn't a byte-level tokenizer, or its numbering has holes.
pub fn read(json: &[u8]) -> Result<Vec<Vec<u8>>, VocabularyError> {
    let mut tokenizer: Tokenizer = serde_json::from_slice(json)?;
    // Some files list the first control token among the ordinary ones too.
    for added in &tokenizer.added_tokens {
        tokenizer.model.vocab.remove(&added.content);
    }
    let mut tokens: Vec<(usize, String)> =
        tokenizer.model.vocab.into_iter().map(|(text, id)| (id, text)).collect();
    tokens.sort();
    tokens.iter().enumerate().map(|(expected, (id, text))| decode(expected, *id, text)).collect()
}

fn decode(expected: usize, id: usize, text: &str) -> Result<Vec<u8>, VocabularyError> {
    if id != expected {
        return Err(VocabularyError::Hole(expected));
    }
    text.chars().map(|found| byte(found).ok_or(VocabularyError::Character { id, found })).collect()
}

/// The byte that a character stands for.
fn byte(character: char) -> Option<u8> {
    let code = u32::from(character);
    match u8::try_from(code) {
        Ok(byte) => is_printable(byte).then_some(byte),
        Err(_) => (0..=u8::MAX).filter(|&byte| !is_printable(byte)).nth((code - 0x100) as usize),
    }
}

fn is_printable(byte: u8) -> bool {
    matches!(byte, b'!'..=b'~' | 0xA1..=0xAC | 0xAE..)
}

#[cfg(test)]
mod tests {
    use super::super::synthetic::TOKENIZER;
    use super::*;

    fn vocabulary(vocab: &str) -> Result<Vec<Vec<u8>>, VocabularyError> {
        read(format!(r#"{{"added_tokens": [], "model": {{"vocab": {{{vocab}}}}}}}"#).as_bytes())
    }

    #[test]
    fn tokens_come_in_order_and_control_tokens_not_at_all() {
        let tokens = read(TOKENIZER.as_bytes()).unwrap();
        assert_eq!(tokens, [b"!".to_vec(), b" siding".to_vec(), b"".to_vec()]);
    }

    #[test]
    fn every_byte_has_its_character() {
        // The pairs that GPT-2's `bytes_to_unicode` gives: the last of each run that stands for itself,
        // and the first and last of each run that is moved.
        let pairs = [
            ('!', 0x21),
            ('~', 0x7E),
            ('¡', 0xA1),
            ('¬', 0xAC),
            ('®', 0xAE),
            ('ÿ', 0xFF),
            ('Ā', 0x00),
            ('Ċ', 0x0A),
            ('Ġ', 0x20),
            ('ġ', 0x7F),
            ('ł', 0xA0),
            ('Ń', 0xAD),
        ];
        for (character, expected) in pairs {
            assert_eq!(byte(character), Some(expected), "{character}");
        }
    }

    #[test]
    fn all_256_bytes_are_reached_once() {
        let mut bytes: Vec<u8> = ('\0'..='\u{200}').filter_map(byte).collect();
        bytes.sort_unstable();
        assert!(bytes.into_iter().eq(0..=u8::MAX));
    }

    #[test]
    fn a_plain_space_stands_for_no_byte() {
        let why = vocabulary(r#""a": 0, "two words": 1"#).unwrap_err().to_string();
        assert_eq!(why, "the token 1 of the tokenizer file has the character ` `, which stands for no byte");
    }

    #[test]
    fn holes_and_doubles_in_the_numbering_are_refused() {
        let hole = vocabulary(r#""a": 0, "b": 2"#).unwrap_err().to_string();
        assert_eq!(hole, "the tokenizer file has no token 1, or has one twice");
        assert!(matches!(vocabulary(r#""a": 0, "b": 0"#), Err(VocabularyError::Hole(1))));
    }

    #[test]
    fn another_json_is_refused() {
        assert!(matches!(read(b"[]"), Err(VocabularyError::Json(_))));
        assert!(matches!(read(b""), Err(VocabularyError::Json(_))));
    }
}
