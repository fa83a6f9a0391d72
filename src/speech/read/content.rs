//! What a file holds, told from its first bytes and not from its name.

use super::error::Fault;
use crate::speech::clock::ARROW;
use std::path::Path;

/// What the beginning of a file shows it to be.
pub(super) enum Content {
    /// Text of some form.
    Text,
    /// Anything else: whoever reads sound decides whether it is sound.
    Sound,
    /// Something that is surely neither.
    Wrong(Fault),
}

/// The forms of text that words come in.
#[derive(Debug, PartialEq)]
pub(super) enum Form {
    Stored,
    WebVtt,
    Srt,
    Plain,
}

/// How files begin that people send by mistake.
const DOCUMENTS: [(&[u8], &str); 8] = [
    (b"%PDF", "a PDF document"),
    (b"PK\x03\x04", "a word processor's document or a ZIP archive"),
    (b"\xd0\xcf\x11\xe0", "a word processor's document"),
    (b"{\\rtf", "a rich-text document"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"<!doctype html", "a web page"),
    (b"<html", "a web page"),
];

/// How the names of recordings end.
const SOUND_NAMES: [&str; 16] = [
    "3gp", "aac", "aif", "aiff", "caf", "flac", "m4a", "m4b", "mka", "mov", "mp3", "mp4", "oga", "ogg",
    "opus", "wav",
];

/// Tells what a file holds from its `head`. Its name counts only against it: text named like a recording.
pub(super) fn of(head: &[u8], path: &Path) -> Content {
    if head.is_empty() {
        return Content::Wrong(Fault::Empty);
    }
    if let Some((_, what)) = DOCUMENTS.iter().find(|(start, _)| begins(head, start)) {
        return Content::Wrong(Fault::Document(what));
    }
    match (looks_like_text(head), named_like_sound(path)) {
        (true, true) => Content::Wrong(Fault::TextNamedAsSound),
        (true, false) => Content::Text,
        (false, _) => Content::Sound,
    }
}

fn begins(head: &[u8], start: &[u8]) -> bool {
    head.len() >= start.len() && head[..start.len()].eq_ignore_ascii_case(start)
}

fn named_like_sound(path: &Path) -> bool {
    let ending = path.extension().unwrap_or_default().to_string_lossy().to_lowercase();
    SOUND_NAMES.contains(&ending.as_str())
}

/// Text marks itself as UTF-16, or has no byte that moves a cursor. Sound has one within a few bytes, while a
/// text in an old encoding has none: that one is called text here, so that the reader can say what to do.
fn looks_like_text(head: &[u8]) -> bool {
    let utf16 = head.starts_with(b"\xff\xfe") || head.starts_with(b"\xfe\xff");
    utf16 || !head.iter().any(|&b| b < 0x20 && !b"\t\n\r\x0c".contains(&b) || b == 0x7f)
}

/// Which of the forms a text has.
pub(super) fn form(text: &str) -> Form {
    let bare = text.trim_start();
    if text.strip_prefix("WEBVTT").is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t', '\n']))
    {
        return Form::WebVtt;
    }
    if bare.starts_with('{') || bare.strip_prefix('[').is_some_and(|rest| rest.trim_start().starts_with('{'))
    {
        return Form::Stored;
    }
    let mut lines = bare.lines();
    let (first, second) = (lines.next().unwrap_or_default(), lines.next().unwrap_or_default());
    let counted = first.trim().parse::<u32>().is_ok() && second.contains(ARROW);
    if counted || first.contains(ARROW) { Form::Srt } else { Form::Plain }
}
