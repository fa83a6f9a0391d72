//! Sound: a recording as one channel at 16 kHz, whatever kind of file it came in.
//!
//! Takes a file, tells by its content what it is, and gives a [`Recording`] that is read block by block, so
//! that hours of sound never stand in memory at once. Never changes the file, never looks at its name, and
//! knows nothing of words: a recording of silence is a good recording here.

mod error;
mod kind;

mod codecs;
mod coded;
mod mp4;
mod resample;
mod source;
mod wav;

pub use error::SoundError;

use resample::Resampler;
use source::{Source, Step};
use std::fs::File;
use std::path::{Path, PathBuf};

/// Samples a second of every [`Recording`].
pub const RATE: usize = 16_000;

/// The longest recording that is heard: a day's work, and far more than any one walk.
pub const LONGEST_HOURS: f64 = 12.0;

/// A recording that is being read.
pub struct Recording {
    path: PathBuf,
    source: Box<dyn Source>,
    resampler: Option<Resampler>,
    samples: u64,
    notices: Vec<String>,
    ended: bool,
}

impl Recording {
    /// Opens the recording at `path` and reads its header.
    ///
    /// # Errors
    /// [`SoundError`]: there is no such file, or it holds no sound that can be read.
    pub fn open(path: &Path) -> Result<Self, SoundError> {
        let file = open_file(path)?;
        let source = kind::open(file, path)?;
        let recording = Self {
            path: path.to_owned(),
            source,
            resampler: None,
            samples: 0,
            notices: Vec::new(),
            ended: false,
        };
        recording.check_length(recording.expected_seconds().unwrap_or(0.0))?;
        Ok(recording)
    }

    /// The next stretch of sound, from -1 to 1; none at the end. A stretch may be empty.
    ///
    /// # Errors
    /// [`SoundError`]: nothing at all can be decoded, or the recording is longer than [`LONGEST_HOURS`]. A file
    /// that is damaged or cut off further on is no error: what could be read is given, and a notice says so.
    pub fn next_block(&mut self) -> Result<Option<Vec<f32>>, SoundError> {
        if self.ended {
            return Ok(None);
        }
        let block = match self.source.next(&self.path)? {
            Step::Sound { rate, samples } => self.resample(rate, &samples)?,
            Step::End { notices } => {
                self.ended = true;
                let tail = self.finish_resampler()?;
                let reached = self.seconds() + tail.len() as f64 / RATE as f64;
                self.notices = notices.iter().map(|n| n.sentence(reached)).collect();
                tail
            }
        };
        self.samples += block.len() as u64;
        self.check_length(self.seconds())?;
        Ok(Some(block))
    }

    /// Seconds read so far; after the end, the length of the recording.
    pub fn seconds(&self) -> f64 {
        self.samples as f64 / RATE as f64
    }

    /// The length in seconds that the file's header promises, where it does.
    pub fn expected_seconds(&self) -> Option<f64> {
        self.source.expected_seconds()
    }

    /// What a person should know about the reading; complete once the end was reached.
    pub fn notices(&self) -> &[String] {
        &self.notices
    }

    /// A rate that changes on the way (sound joined from several files) starts a new resampler.
    fn resample(&mut self, rate: u32, samples: &[f32]) -> Result<Vec<f32>, SoundError> {
        let mut block = Vec::new();
        if self.resampler.as_ref().is_none_or(|r| r.rate() != rate) {
            block = self.finish_resampler()?;
            self.resampler = Some(Resampler::new(rate).map_err(|e| self.cannot_resample(e))?);
        }
        if let Some(resampler) = &mut self.resampler {
            let more = resampler.push(samples);
            block.extend(more.map_err(|e| self.cannot_resample(e))?);
        }
        Ok(block)
    }

    fn finish_resampler(&mut self) -> Result<Vec<f32>, SoundError> {
        match self.resampler.take() {
            Some(resampler) => resampler.finish().map_err(|e| self.cannot_resample(e)),
            None => Ok(Vec::new()),
        }
    }

    fn cannot_resample(&self, reason: String) -> SoundError {
        SoundError::Damaged { path: self.path.clone(), reason }
    }

    fn check_length(&self, seconds: f64) -> Result<(), SoundError> {
        let hours = seconds / 3600.0;
        if hours > LONGEST_HOURS {
            return Err(SoundError::TooLong { path: self.path.clone(), hours });
        }
        Ok(())
    }
}

fn open_file(path: &Path) -> Result<File, SoundError> {
    let refused = |cause: std::io::Error| match cause.kind() {
        std::io::ErrorKind::NotFound => SoundError::Missing { path: path.to_owned() },
        _ => SoundError::Unreadable { path: path.to_owned(), cause },
    };
    let about = std::fs::metadata(path).map_err(refused)?;
    if about.is_dir() {
        return Err(SoundError::Folder { path: path.to_owned() });
    }
    if about.is_file() && about.len() == 0 {
        return Err(SoundError::Empty { path: path.to_owned() });
    }
    File::open(path).map_err(refused)
}

/// Seconds as a person writes them: `3:12`, or `1:03:12` from an hour on.
pub fn clock(seconds: f64) -> String {
    let whole = seconds.max(0.0) as u64;
    let (hours, minutes, seconds) = (whole / 3600, whole / 60 % 60, whole % 60);
    match hours {
        0 => format!("{minutes}:{seconds:02}"),
        _ => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_is_written_as_people_do() {
        assert_eq!(clock(0.4), "0:00");
        assert_eq!(clock(192.9), "3:12");
        assert_eq!(clock(3792.0), "1:03:12");
        assert_eq!(clock(-1.0), "0:00");
    }
}
