//! Reading words that are text already.
//!
//! Takes a file, tells by its content what it is, and gives its words as a [`Transcript`]; a recording it only
//! recognizes as one. It never guesses at an encoding and never leaves out words it can't place: it refuses.

mod caption_line;
mod content;
mod cue;
mod error;
mod plain;
mod rolling;
mod srt;
mod stored;
mod text;
mod webvtt;

pub use error::{Fault, ReadError};
pub use stored::Head;

use super::Transcript;
use crate::model::digest;
use content::{Content, Form};
use error::Flaw;
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

/// What a file turned out to hold.
#[derive(Debug)]
pub enum Source {
    /// Words, read and ready.
    Words(Transcript),
    /// Not text: a recording, to be heard.
    Sound,
}

/// As much of a file as tells text from sound.
const HEAD: u64 = 4096;

/// The most text read, in MiB. A two-hour transcript with a time and a probability for each word has about 3.
const MOST_MIB: u64 = 64;

/// Tells what the file at `path` holds, and reads it where that is words. `name` is what the user calls it.
///
/// # Errors
/// Where it can't be opened, or holds words that can't be read whole; the message says where and what to do.
pub fn open(path: &Path, name: &str) -> Result<Source, ReadError> {
    let refuse = |fault: Fault| Flaw::from(fault).in_file(name);
    let mut bytes = Vec::new();
    let mut file = open_file(path).map_err(refuse)?;
    read_up_to(&mut file, HEAD, &mut bytes).map_err(refuse)?;
    match content::of(&bytes, path) {
        Content::Sound => Ok(Source::Sound),
        Content::Wrong(fault) => Err(refuse(fault)),
        Content::Text => {
            read_up_to(&mut file, (MOST_MIB << 20) + 1, &mut bytes).map_err(refuse)?;
            transcript(&bytes, name).map(Source::Words)
        }
    }
}

/// The words of a text in any of the forms: a stored transcript, WebVTT, SRT or plain text.
///
/// # Errors
/// Where the text can't be read whole; the message says where and what to do.
pub fn transcript(bytes: &[u8], name: &str) -> Result<Transcript, ReadError> {
    let mut transcript = parse(bytes).map_err(|flaw| flaw.in_file(name))?;
    if transcript.source.is_empty() {
        transcript.source = Path::new(name).file_name().unwrap_or_default().to_string_lossy().into_owned();
        transcript.digest = Some(digest::of_bytes(bytes));
    }
    Ok(transcript)
}

/// What the beginning of a file tells of the words stored in it; nothing where it holds none.
pub fn head(path: &Path) -> Head {
    let mut head = Vec::new();
    let read = File::open(path).and_then(|file| file.take(HEAD).read_to_end(&mut head));
    read.map_or_else(|_| Head::default(), |_| Head::of(&head))
}

fn parse(bytes: &[u8]) -> Result<Transcript, Flaw> {
    if bytes.len() as u64 > MOST_MIB << 20 {
        return Err(Fault::TooLong(MOST_MIB).into());
    }
    let text = text::decode(bytes)?;
    let transcript = match content::form(&text) {
        Form::Stored => stored::transcript(&text)?,
        Form::WebVtt => cue::transcript(webvtt::cues(&text)?),
        Form::Srt => cue::transcript(srt::cues(&text)?),
        Form::Plain => plain::transcript(&text),
    };
    if transcript.words().next().is_none() {
        return Err(Fault::Wordless.into());
    }
    Ok(transcript)
}

fn open_file(path: &Path) -> Result<File, Fault> {
    let fault = |e: std::io::Error| match e.kind() {
        ErrorKind::NotFound => Fault::Missing,
        _ => Fault::Unreadable(e.to_string()),
    };
    if path.metadata().map_err(fault)?.is_dir() {
        return Err(Fault::Folder);
    }
    File::open(path).map_err(fault)
}

fn read_up_to(file: &mut File, most: u64, bytes: &mut Vec<u8>) -> Result<(), Fault> {
    file.take(most).read_to_end(bytes).map_err(|e| Fault::Unreadable(e.to_string()))?;
    Ok(())
}

#[cfg(test)]
mod tests;
