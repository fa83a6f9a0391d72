//! MP4, M4A and MOV files whose end is missing.
//!
//! Such a file is made of boxes that tell their length. The reader leaves a box that is longer than the file
//! alone, and with it all the sound; so it is told the length that the boxes claim, reads what is there, and
//! finds out where it ends.

use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};
use symphonia::core::io::MediaSource;

/// Boxes at the top of a file, at most: whoever writes more is no recorder.
const MOST_BOXES: usize = 100_000;

/// Whether a file that begins so is made of boxes.
pub(super) fn is_boxed(head: &[u8]) -> bool {
    head.get(4..8) == Some(b"ftyp")
}

/// A file that claims to be as long as its boxes say.
pub(super) struct Claimed {
    file: File,
    claimed: u64,
}

impl Claimed {
    /// Adds up the boxes of `file`.
    pub(super) fn new(mut file: File) -> io::Result<Self> {
        let length = file.metadata()?.len();
        let mut claimed = 0;
        for _ in 0..MOST_BOXES {
            if length.saturating_sub(claimed) < 8 {
                break;
            }
            file.seek(SeekFrom::Start(claimed))?;
            claimed += box_length(&mut file, length - claimed)?;
        }
        file.seek(SeekFrom::Start(0))?;
        Ok(Self { file, claimed: claimed.max(length) })
    }
}

/// The length of the box that begins here; `left` is how much of the file is left.
fn box_length(file: &mut File, left: u64) -> io::Result<u64> {
    let mut head = [0; 16];
    let got = file.take(16).read(&mut head)?;
    let length = u64::from(u32::from_be_bytes([head[0], head[1], head[2], head[3]]));
    let long =
        u64::from_be_bytes([head[8], head[9], head[10], head[11], head[12], head[13], head[14], head[15]]);
    Ok(match length {
        1 if got == 16 => long.clamp(16, i64::MAX as u64 / 2),
        // Zero stands for "to the end of the file"; less than a head is nonsense that the reader shall meet.
        0..8 => left,
        length => length,
    })
}

impl Read for Claimed {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        self.file.read(into)
    }
}

impl Seek for Claimed {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        match to {
            SeekFrom::End(from_end) => {
                let at = self.claimed.checked_add_signed(from_end);
                self.file.seek(SeekFrom::Start(at.ok_or(io::ErrorKind::InvalidInput)?))
            }
            other => self.file.seek(other),
        }
    }
}

impl MediaSource for Claimed {
    fn is_seekable(&self) -> bool {
        true
    }

    /// The true length: tags are looked for at the end that is there.
    fn byte_len(&self) -> Option<u64> {
        self.file.metadata().ok().map(|about| about.len())
    }
}
