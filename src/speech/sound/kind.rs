//! What a file is, by its first bytes; its name doesn't count.

use super::source::Source;
use super::{SoundError, coded, wav};
use std::fs::File;
use std::io::{Read, Seek, SeekFrom};
use std::path::Path;

/// How much of the beginning is looked at.
const LOOK: usize = 4096;

/// Things people give by mistake: how the file begins, and what it is.
const NOT_SOUND: &[(&[u8], &str)] = &[
    (b"%PDF", "it looks like a PDF"),
    (b"\xff\xd8\xff", "it looks like a picture"),
    (b"\x89PNG", "it looks like a picture"),
    (b"GIF8", "it looks like a picture"),
    (b"PK\x03\x04", "it looks like a zip archive or an office document"),
    (b"\x1f\x8b", "it looks like a compressed archive"),
    (b"\xd0\xcf\x11\xe0", "it looks like an office document"),
    (b"\x7fELF", "it looks like a program"),
    (b"MZ", "it looks like a program"),
    (b"SQLite format 3", "it looks like a database"),
];

/// Opens the sound in `file`, whatever kind it is.
pub(super) fn open(mut file: File, path: &Path) -> Result<Box<dyn Source>, SoundError> {
    let unreadable = |cause| SoundError::Unreadable { path: path.to_owned(), cause };
    let mut head = Vec::with_capacity(LOOK);
    (&mut file).take(LOOK as u64).read_to_end(&mut head).map_err(unreadable)?;
    file.seek(SeekFrom::Start(0)).map_err(unreadable)?;
    if head.starts_with(b"RIFF") && head.get(8..12) == Some(b"WAVE") {
        return wav::open(file, path);
    }
    if let Some((_, found)) = NOT_SOUND.iter().find(|(magic, _)| head.starts_with(magic)) {
        return Err(SoundError::NotSound { path: path.to_owned(), found: (*found).to_owned() });
    }
    if is_text(&head) {
        return Err(SoundError::Text { path: path.to_owned() });
    }
    coded::open(file, path)
}

/// Text is UTF-8 (the last character may be cut) or UTF-16 with its mark, without control characters other
/// than line ends and tabs.
fn is_text(head: &[u8]) -> bool {
    if head.starts_with(b"\xff\xfe") || head.starts_with(b"\xfe\xff") {
        return head.len() > 2
            && head[2..].iter().skip(usize::from(head[0] == 0xff)).step_by(2).all(|b| *b == 0);
    }
    let valid = match std::str::from_utf8(head) {
        Ok(text) => text,
        Err(e) if e.error_len().is_none() => {
            std::str::from_utf8(&head[..e.valid_up_to()]).unwrap_or_default()
        }
        Err(_) => return false,
    };
    !valid.is_empty() && !valid.chars().any(|c| c.is_control() && !matches!(c, '\n' | '\r' | '\t' | '\u{c}'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_told_from_sound() {
        assert!(is_text(b"two lights on the front\r\n"));
        assert!(is_text("half a character: \u{bd}".as_bytes().split_last().unwrap().1));
        assert!(is_text(b"\xff\xfet\0w\0o\0"));
        assert!(is_text(b"\xfe\xff\0t\0w\0o"));
        assert!(!is_text(b"ID3\x04\0\0\0"));
        assert!(!is_text(b"\xff\xfb\x90\x64"));
        assert!(!is_text(b"\xff\xfe\x90\x64\x00\x03"));
        assert!(!is_text(b""));
    }
}
