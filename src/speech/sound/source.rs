//! The seam between kinds of files: each gives its sound in steps, one channel, at its own rate.

use super::{SoundError, clock};
use std::path::Path;

/// One kind of file, being read.
pub(super) trait Source: Send {
    /// The length that the header promises, in seconds.
    fn expected_seconds(&self) -> Option<f64>;

    /// The next stretch; `path` is only for the wording of errors.
    fn next(&mut self, path: &Path) -> Result<Step, SoundError>;
}

/// What a [`Source`] gives.
pub(super) enum Step {
    /// Samples from -1 to 1, one channel, at `rate` samples a second.
    Sound { rate: u32, samples: Vec<f32> },
    /// No more; with what is to be said about it.
    End { notices: Vec<Notice> },
}

/// What was wrong with a file that could be read all the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Notice {
    /// The file stops before its own end.
    CutOff,
    /// The sound is shorter than the file promises, in seconds: its end is missing, or a part inside.
    Short(f64),
    /// The recorder never wrote the length into the header.
    NeverFinished,
    /// Seconds that could not be decoded and were read as silence.
    Damaged(f64),
}

impl Notice {
    /// The notice for a person; `reached` is the length that was read, in seconds.
    pub(super) fn sentence(self, reached: f64) -> String {
        match self {
            Notice::CutOff => {
                format!(
                    "the file ends in the middle: heard up to {}, what came after is missing",
                    clock(reached)
                )
            }
            Notice::Short(promised) => {
                format!(
                    "heard up to {} of the {} that the file promises: it was cut off, or a part of it is \
                     damaged and left out",
                    clock(reached),
                    clock(promised)
                )
            }
            Notice::NeverFinished => {
                format!(
                    "the recorder never finished the file: heard up to {}, its last words may be missing",
                    clock(reached)
                )
            }
            Notice::Damaged(seconds) => {
                format!(
                    "{seconds:.1} s of the sound is damaged and was taken as silence: words may be missing"
                )
            }
        }
    }
}

/// Many channels, sample by sample in turn, as one: their mean. What is no number, as a broken recorder
/// writes it, counts as silence.
pub(super) fn mix(interleaved: &[f32], channels: usize) -> Vec<f32> {
    let mean = |frame: &[f32]| {
        let sum: f32 = frame.iter().map(|s| if s.is_finite() { *s } else { 0.0 }).sum();
        (sum / channels as f32).clamp(-1.0, 1.0)
    };
    interleaved.chunks_exact(channels).map(mean).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn channels_become_their_mean() {
        assert_eq!(mix(&[1.0, 0.0, -0.5, -0.5], 2), [0.5, -0.5]);
        assert_eq!(mix(&[0.3, 0.6, 0.0], 3), [0.3]);
    }

    #[test]
    fn what_is_no_sample_is_silence_and_what_is_too_loud_is_clipped() {
        assert_eq!(mix(&[f32::NAN, f32::INFINITY, 7.0, -7.0], 1), [0.0, 0.0, 1.0, -1.0]);
    }

    #[test]
    fn notices_say_where() {
        assert!(Notice::CutOff.sentence(192.0).contains("heard up to 3:12"));
        assert!(Notice::Short(240.0).sentence(192.0).starts_with("heard up to 3:12 of the 4:00 that"));
    }
}
