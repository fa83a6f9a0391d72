//! What can be wrong with a file of words: one variant a fault, each with what to do about it.

use std::fmt;

/// A file that couldn't be read as words: which, where in it, and why.
#[derive(Debug, thiserror::Error)]
#[error("{}: {fault}", place(.file, *.line))]
pub struct ReadError {
    /// The file as the user named it.
    pub file: String,
    /// The line of the file, from 1; none where no one line is to blame.
    pub line: Option<usize>,
    /// What is wrong.
    pub fault: Fault,
}

/// What is wrong with a file, and what to do.
#[derive(Debug, thiserror::Error)]
pub enum Fault {
    /// No such file.
    #[error("there is no such file: check the name and the folder")]
    Missing,
    /// A folder where a file was expected.
    #[error("this is a folder: name the files in it")]
    Folder,
    /// The system refuses.
    #[error("it can't be read ({0}): check that you may open it")]
    Unreadable(String),
    /// Not one byte.
    #[error("the file is empty: copy or record it again")]
    Empty,
    /// Nothing but white space, or captions without a word.
    #[error("there isn't a word in it: check that it is the right file")]
    Wordless,
    /// More text than anyone says.
    #[error("more than {0} MiB of text, which is no walk-around: check that it is the right file")]
    TooLong(u64),
    /// A word processor's file, a picture and the like.
    #[error("this is {0}, neither a recording nor plain text: save its words as plain text")]
    Document(&'static str),
    /// Text under the name of a recording.
    #[error(
        "named like a recording, but there is text in it: find the recording, or rename this to end in .txt"
    )]
    TextNamedAsSound,
    /// A byte that no UTF-8 text holds there.
    #[error("byte 0x{0:02x} isn't UTF-8 text: save the file as UTF-8")]
    NotUtf8(u8),
    /// A UTF-16 text with half a character in it.
    #[error("half a character of UTF-16 text: save the file as UTF-8")]
    NotUtf16,
    /// A character that moves the cursor rather than being read.
    #[error("the control character U+{:04X} has no place in text: check that it is a text file", u32::from(*.0))]
    Control(char),
    /// Broken JSON.
    #[error("broken JSON ({0}): restore the file, or hear the recording again")]
    BrokenJson(String),
    /// JSON of another kind.
    #[error("JSON, but no transcript ({0}): give the NAME.transcript.json that `eavesdraft hear` wrote")]
    NoTranscript(String),
    /// A draft where words were expected.
    #[error("this is a draft already: give the transcript or the recording it came from")]
    Draft,
    /// A time line that can't be read.
    #[error("`{0}` isn't the time line of a cue: write it like `00:00:01.000 --> 00:00:02.500`")]
    TimeLine(String),
    /// A cue that ends before it starts.
    #[error("this cue ends before it starts: put its times right")]
    Backward,
    /// Text that belongs to no cue.
    #[error("`{0}` belongs to no cue: put a time line above it, or NOTE before it")]
    Stray(String),
}

/// A fault and its line, before it is known in which file.
pub(super) struct Flaw {
    pub line: Option<usize>,
    pub fault: Fault,
}

impl Flaw {
    pub fn at(line: usize, fault: Fault) -> Self {
        Self { line: Some(line), fault }
    }

    pub fn in_file(self, file: &str) -> ReadError {
        ReadError { file: file.to_owned(), line: self.line, fault: self.fault }
    }
}

impl From<Fault> for Flaw {
    fn from(fault: Fault) -> Self {
        Self { line: None, fault }
    }
}

/// The longest stretch of a user's line that an error repeats.
const SHOWN: usize = 40;

/// The beginning of a line, to be shown in an error.
pub(super) fn shown(line: &str) -> String {
    let line = line.trim();
    match line.char_indices().nth(SHOWN) {
        Some((cut, _)) => format!("{}…", &line[..cut]),
        None => line.to_owned(),
    }
}

fn place(file: &str, line: Option<usize>) -> impl fmt::Display {
    match line {
        Some(line) => format!("`{file}`, line {line}"),
        None => format!("`{file}`"),
    }
}
