//! Any rate to 16 kHz, in a stream: band-limited, without the resampler's own delay.

use super::RATE;
use rubato::audioadapter_buffers::owned::InterleavedOwned;
use rubato::{Fft, FixedSync, Indexing, Resampler as _};

/// Samples at the file's rate that are turned at once.
const CHUNK: usize = 4096;

/// Turns one channel at one rate into 16 kHz.
pub(super) struct Resampler {
    rate: u32,
    inner: Option<Fft<f32>>,
    waiting: Vec<f32>,
    taken: u64,
    given: u64,
    skip: usize,
}

impl Resampler {
    /// A resampler from `rate` samples a second; where that is 16 kHz already, it lets samples through.
    pub(super) fn new(rate: u32) -> Result<Self, String> {
        let inner = match rate as usize {
            RATE => None,
            from => Some(Fft::new(from, RATE, CHUNK, 1, FixedSync::Input).map_err(|e| e.to_string())?),
        };
        let skip = inner.as_ref().map_or(0, Fft::output_delay);
        Ok(Self { rate, inner, waiting: Vec::new(), taken: 0, given: 0, skip })
    }

    /// The rate it takes.
    pub(super) fn rate(&self) -> u32 {
        self.rate
    }

    /// Takes samples and gives what is ready of them at 16 kHz.
    pub(super) fn push(&mut self, samples: &[f32]) -> Result<Vec<f32>, String> {
        if self.inner.is_none() {
            return Ok(samples.to_vec());
        }
        self.taken += samples.len() as u64;
        self.waiting.extend_from_slice(samples);
        self.turn_waiting()
    }

    /// Gives the rest: as many samples in all as the length of the sound asks for.
    pub(super) fn finish(mut self) -> Result<Vec<f32>, String> {
        let wanted = (self.taken as f64 * RATE as f64 / f64::from(self.rate)).round() as u64;
        let mut rest = Vec::new();
        while self.inner.is_some() && self.given < wanted {
            self.waiting.resize(self.waiting.len().next_multiple_of(CHUNK).max(CHUNK), 0.0);
            rest.extend(self.turn_waiting()?);
        }
        let surplus = self.given.saturating_sub(wanted) as usize;
        rest.truncate(rest.len().saturating_sub(surplus));
        Ok(rest)
    }

    fn turn_waiting(&mut self) -> Result<Vec<f32>, String> {
        let Some(inner) = &mut self.inner else { return Ok(Vec::new()) };
        let mut ready = Vec::new();
        let frames = self.waiting.len();
        let input = InterleavedOwned::new_from(std::mem::take(&mut self.waiting), 1, frames)
            .map_err(|e| e.to_string())?;
        let mut used = 0;
        while frames - used >= inner.input_frames_next() {
            let (from, count) = (Indexing::new().input_offset(used), inner.input_frames_next());
            ready.extend(inner.process(&input, Some(&from)).map_err(|e| e.to_string())?.take_data());
            used += count;
        }
        self.waiting = input.take_data().split_off(used);
        let skipped = self.skip.min(ready.len());
        self.skip -= skipped;
        ready.drain(..skipped);
        self.given += ready.len() as u64;
        Ok(ready)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tone(rate: u32, hertz: f32, seconds: f32) -> Vec<f32> {
        let step = std::f32::consts::TAU * hertz / rate as f32;
        (0..(rate as f32 * seconds) as usize).map(|n| (n as f32 * step).sin() * 0.5).collect()
    }

    fn turn(rate: u32, samples: &[f32], piece: usize) -> Vec<f32> {
        let mut resampler = Resampler::new(rate).unwrap();
        let mut out: Vec<f32> = Vec::new();
        for part in samples.chunks(piece) {
            out.extend(resampler.push(part).unwrap());
        }
        out.extend(resampler.finish().unwrap());
        out
    }

    /// A tone keeps its length, its loudness and, within one sample, its phase: away from the ends it is the
    /// same tone. One sample of a tone of 440 Hz and half the full size makes a difference of 0.086.
    #[test]
    fn a_tone_stays_that_tone() {
        for rate in [8_000, 11_025, 22_050, 32_000, 44_100, 48_000, 96_000] {
            let out = turn(rate, &tone(rate, 440.0, 1.0), 1_000);
            assert_eq!(out.len(), RATE, "at {rate} Hz");
            let wanted = tone(RATE as u32, 440.0, 1.0);
            let worst = (2_000..14_000).map(|n| (out[n] - wanted[n]).abs()).fold(0.0, f32::max);
            assert!(worst < 0.09, "at {rate} Hz a sample is off by {worst}");
        }
    }

    #[test]
    fn what_can_t_be_held_at_16_khz_is_filtered_out() {
        let out = turn(48_000, &tone(48_000, 11_000.0, 1.0), 4_800);
        let loudest = out[2_000..14_000].iter().fold(0.0, |most: f32, s| most.max(s.abs()));
        assert!(loudest < 0.005, "a tone above the band came through at {loudest}");
    }

    #[test]
    fn pieces_of_any_size_give_the_same_sound() {
        let sound = tone(44_100, 300.0, 0.7);
        let whole = turn(44_100, &sound, sound.len());
        assert_eq!(turn(44_100, &sound, 7), whole);
        assert_eq!(turn(44_100, &sound, 5_000), whole);
    }

    #[test]
    fn sound_at_16_khz_is_let_through() {
        let sound = tone(16_000, 300.0, 0.1);
        assert_eq!(turn(16_000, &sound, 999), sound);
    }
}
