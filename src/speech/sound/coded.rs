//! Packed sound through `symphonia`: AAC and ALAC in M4A, MP4 and MOV, MP3, FLAC, Ogg Vorbis, Opus, WebM,
//! AIFF, CAF, and what WAV files hold besides plain numbers.

use super::SoundError;
use super::codecs::{self, Length};
use super::source::{Notice, Source, Step, mix};
use std::fs::File;
use std::path::Path;
use symphonia::core::codecs::audio::AudioDecoder;
use symphonia::core::errors::Error;
use symphonia::core::formats::{FormatReader, Track};
use symphonia::core::packet::Packet;

/// A file that stops this much (in seconds, and as a share of what was heard) before its promised end is cut
/// off; less is the padding of an encoder.
const SHORT_SECONDS: f64 = 0.5;
const SHORT_SHARE: f64 = 0.002;

/// A packet that can't be decoded is one lost moment; so many at the very start, and the file is no sound.
const LOST_AT_START: u32 = 64;

/// A file of packed sound, being read.
struct Coded {
    container: Box<dyn FormatReader>,
    decoder: Box<dyn AudioDecoder>,
    track: Track,
    length: Option<Length>,
    /// Seconds given so far, and how many of them are silence in place of what was damaged.
    heard: f64,
    damaged: f64,
    lost_at_start: u32,
}

/// Finds the sound track of `file` and a decoder for it.
pub(super) fn open(file: File, path: &Path) -> Result<Box<dyn Source>, SoundError> {
    let container = codecs::container(file, path)?;
    let track = codecs::sound_track(container.as_ref(), path)?;
    let decoder = codecs::decoder(&track, path)?;
    let length = codecs::length(container.as_ref(), &track);
    Ok(Box::new(Coded { container, decoder, track, length, heard: 0.0, damaged: 0.0, lost_at_start: 0 }))
}

impl Source for Coded {
    fn expected_seconds(&self) -> Option<f64> {
        self.length.as_ref().map(|length| length.seconds)
    }

    fn next(&mut self, path: &Path) -> Result<Step, SoundError> {
        loop {
            match self.container.next_packet() {
                Ok(Some(packet)) if packet.track_id == self.track.id => {
                    if let Some(step) = self.decode(&packet, path)? {
                        return Ok(step);
                    }
                }
                Ok(Some(_)) => {}
                Ok(None) => return self.end(self.shortfall(), "it holds no sound", path),
                // Sound joined from several files: the next one begins.
                Err(Error::ResetRequired) => {
                    self.track = codecs::sound_track(self.container.as_ref(), path)?;
                    self.decoder = codecs::decoder(&self.track, path)?;
                }
                // It can't be read on: what was heard so far counts.
                Err(error) => return self.end(Some(Notice::CutOff), &error.to_string(), path),
            }
        }
    }
}

impl Coded {
    /// The sound of a packet; none where it holds only what is to be left out.
    fn decode(&mut self, packet: &Packet, path: &Path) -> Result<Option<Step>, SoundError> {
        match self.decoder.decode(packet) {
            Ok(sound) => {
                let (rate, channels) = (sound.spec().rate(), sound.spec().channels().count());
                let mut samples: Vec<f32> = Vec::new();
                sound.copy_to_vec_interleaved(&mut samples);
                if samples.is_empty() || channels == 0 || rate == 0 {
                    return Ok(None);
                }
                let samples = mix(&samples, channels);
                self.heard += samples.len() as f64 / f64::from(rate);
                Ok(Some(Step::Sound { rate, samples }))
            }
            // A damaged packet may also look like one of a kind that the decoder doesn't know.
            Err(Error::DecodeError(_) | Error::IoError(_) | Error::Unsupported(_)) => self.lose(packet, path),
            Err(error) => Err(damaged(&error.to_string(), path)),
        }
    }

    /// A lost packet is given as silence, so that the times of what follows stay true.
    fn lose(&mut self, packet: &Packet, path: &Path) -> Result<Option<Step>, SoundError> {
        if self.nothing_heard() {
            self.lost_at_start += 1;
            if self.lost_at_start > LOST_AT_START {
                return Err(damaged("no packet of it is whole", path));
            }
        }
        let seconds = self.track.time_base.and_then(|base| base.calc_duration(packet.dur));
        let rate = codecs::audio(&self.track).and_then(|audio| audio.sample_rate);
        let (Some(seconds), Some(rate)) = (seconds, rate) else { return Ok(None) };
        let seconds = seconds.as_secs_f64();
        self.heard += seconds;
        self.damaged += seconds;
        Ok(Some(Step::Sound { rate, samples: vec![0.0; (seconds * f64::from(rate)) as usize] }))
    }

    fn nothing_heard(&self) -> bool {
        self.heard <= self.damaged
    }

    /// What there is to say where the container ended well, but before the time it told.
    fn shortfall(&self) -> Option<Notice> {
        let told = self.length.as_ref().filter(|length| length.is_told)?.seconds;
        let short = told - self.heard;
        (short > SHORT_SECONDS.max(self.heard * SHORT_SHARE)).then_some(Notice::Short(told))
    }

    fn end(&self, short: Option<Notice>, reason: &str, path: &Path) -> Result<Step, SoundError> {
        if self.nothing_heard() {
            return Err(damaged(reason, path));
        }
        let damaged = (self.damaged > 0.0).then_some(Notice::Damaged(self.damaged));
        Ok(Step::End { notices: short.into_iter().chain(damaged).collect() })
    }
}

fn damaged(reason: &str, path: &Path) -> SoundError {
    SoundError::Damaged { path: path.to_owned(), reason: reason.to_owned() }
}
