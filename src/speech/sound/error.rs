//! Why a file could not be read as sound: one variant a reason, each with what to do about it.

use super::LONGEST_HOURS;
use std::path::PathBuf;

/// A file that gives no sound. Each message is one sentence: what was found, where, and what to do.
#[derive(Debug, thiserror::Error)]
pub enum SoundError {
    /// No file of that name.
    #[error("there is no file `{}`; check its name and folder", path.display())]
    Missing {
        /// The file asked for.
        path: PathBuf,
    },
    /// A folder was given.
    #[error("`{0}` is a folder, not a recording; name the files in it, such as `{0}/*.m4a`", path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
    },
    /// The system would not let it be read.
    #[error("`{}` can't be read ({cause}); check that you may open it and that the disk is there", path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        cause: std::io::Error,
    },
    /// No bytes.
    #[error("`{}` is empty (0 bytes), so nothing was recorded or the copy failed; copy it from the recorder again", path.display())]
    Empty {
        /// The file.
        path: PathBuf,
    },
    /// Text under whatever name.
    #[error("`{}` holds text, not sound; give the recording itself, or the text under a name that ends in .txt, .vtt or .srt", path.display())]
    Text {
        /// The file.
        path: PathBuf,
    },
    /// Bytes of no known kind of sound.
    #[error("`{}` holds no sound that is known here ({found}); give a WAV, M4A, MP3, FLAC, Ogg or MP4 recording", path.display())]
    NotSound {
        /// The file.
        path: PathBuf,
        /// What it looks like instead.
        found: String,
    },
    /// A header that can't be right.
    #[error("`{}` has a broken header ({reason}); save or copy it from the recorder again", path.display())]
    BrokenHeader {
        /// The file.
        path: PathBuf,
        /// What is wrong with it.
        reason: String,
    },
    /// A known kind of file with sound written in a way that isn't known.
    #[error("`{}` holds sound in a form that isn't known here ({found}); save it as WAV, M4A (AAC), MP3, FLAC or Ogg first", path.display())]
    Unsupported {
        /// The file.
        path: PathBuf,
        /// Which form.
        found: String,
    },
    /// A video or container with no sound in it.
    #[error("`{}` has no sound track; give a recording with sound", path.display())]
    NoSoundTrack {
        /// The file.
        path: PathBuf,
    },
    /// A good header, and nothing behind it that can be decoded.
    #[error("nothing in `{}` can be decoded ({reason}); copy it from the recorder again", path.display())]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What the decoder said.
        reason: String,
    },
    /// Longer than anyone walks.
    #[error("`{}` is {hours:.1} hours long and at most {LONGEST_HOURS:.0} are heard at once; cut it into parts", path.display())]
    TooLong {
        /// The file.
        path: PathBuf,
        /// Its length.
        hours: f64,
    },
}
