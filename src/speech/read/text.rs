//! From bytes to text: UTF-8, or UTF-16 that says so. Strict; a wrong byte is refused with its line.

use super::error::{Fault, Flaw};

/// The text with line ends made `\n` and without the mark that tells the encoding.
pub(super) fn decode(bytes: &[u8]) -> Result<String, Flaw> {
    let text = match bytes {
        [0xff, 0xfe, rest @ ..] => utf16(rest, u16::from_le_bytes)?,
        [0xfe, 0xff, rest @ ..] => utf16(rest, u16::from_be_bytes)?,
        [0xef, 0xbb, 0xbf, rest @ ..] => utf8(rest)?,
        _ => utf8(bytes)?,
    };
    let text = text.replace("\r\n", "\n").replace('\r', "\n").replace(is_invisible, "");
    match text.char_indices().find(|(_, c)| c.is_control() && !"\t\n\x0c".contains(*c)) {
        Some((at, c)) => Err(Flaw::at(line_of(&text[..at]), Fault::Control(c))),
        None => Ok(text),
    }
}

/// Characters that show nothing and are no part of a word: marks of direction, joints, byte order marks.
pub(super) fn is_invisible(c: char) -> bool {
    matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}' | '\u{ad}')
}

fn utf8(bytes: &[u8]) -> Result<String, Flaw> {
    match std::str::from_utf8(bytes) {
        Ok(text) => Ok(text.to_owned()),
        Err(e) => {
            let (good, bad) = bytes.split_at(e.valid_up_to());
            Err(Flaw::at(line_of(&String::from_utf8_lossy(good)), Fault::NotUtf8(bad[0])))
        }
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<String, Flaw> {
    let mut text = String::new();
    let (pairs, odd) = bytes.as_chunks::<2>();
    for c in char::decode_utf16(pairs.iter().map(|pair| unit(*pair))) {
        text.push(c.map_err(|_| Flaw::at(line_of(&text), Fault::NotUtf16))?);
    }
    if odd.is_empty() { Ok(text) } else { Err(Flaw::at(line_of(&text), Fault::NotUtf16)) }
}

/// The line, from 1, that the text after `before` stands on.
fn line_of(before: &str) -> usize {
    before.matches('\n').count() + 1
}
