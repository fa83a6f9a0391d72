//! WAV: whole numbers of 8 to 32 bits and 32-bit floats, through `hound`.
//!
//! Recorders that crash or stream leave a wrong length in the header, so the length is taken from the file
//! itself and the header is mended in memory before `hound` reads it.

use super::source::{Notice, Source, Step, mix};
use super::{SoundError, coded};
use hound::{SampleFormat, WavReader, WavSpec};
use std::fs::File;
use std::io::{self, BufReader, Chain, Cursor, Read, Seek, SeekFrom};
use std::path::Path;

/// Rates that a recorder of speech or music may have, in hertz.
const RATES: std::ops::RangeInclusive<u32> = 2_000..=768_000;

/// More channels than any recorder of voices writes.
const MOST_CHANNELS: u16 = 32;

/// A data length from here on stands for "not known": programs that write into a pipe put it there.
const UNKNOWN_LENGTH: u64 = 0x7fff_0000;

/// A header longer than this is no header.
const LONGEST_HEADER: u64 = 1 << 20;

type Bytes = Chain<Cursor<Vec<u8>>, BufReader<File>>;

/// A WAV file, being read.
struct Wav {
    samples: Box<dyn Iterator<Item = hound::Result<f32>> + Send>,
    spec: WavSpec,
    frames: u32,
    notice: Option<Notice>,
}

/// Opens a WAV file. Sound in it that is packed (telephone or ADPCM codecs) is left to the other reader.
pub(super) fn open(mut file: File, path: &Path) -> Result<Box<dyn Source>, SoundError> {
    let broken = |reason: String| SoundError::BrokenHeader { path: path.to_owned(), reason };
    let layout = Layout::find(&mut file).map_err(|e| broken(e.to_string()))?;
    layout.format.check().map_err(broken)?;
    if !layout.format.is_plain() {
        return packed(file, path);
    }
    let notice = layout.notice();
    let bytes = layout.mended(file.try_clone().map_err(|e| broken(e.to_string()))?);
    let reader = match WavReader::new(bytes.map_err(|e| broken(e.to_string()))?) {
        Err(hound::Error::Unsupported) => return packed(file, path),
        Err(hound::Error::FormatError(reason)) => return Err(broken(reason.to_owned())),
        reader => reader.map_err(|e| broken(e.to_string()))?,
    };
    let (spec, frames) = (reader.spec(), reader.duration());
    if frames == 0 {
        return Err(broken("it holds no samples".to_owned()));
    }
    Ok(Box::new(Wav { samples: samples(reader), spec, frames, notice }))
}

fn packed(mut file: File, path: &Path) -> Result<Box<dyn Source>, SoundError> {
    let unreadable = |cause| SoundError::Unreadable { path: path.to_owned(), cause };
    file.seek(SeekFrom::Start(0)).map_err(unreadable)?;
    coded::open(file, path)
}

impl Source for Wav {
    fn expected_seconds(&self) -> Option<f64> {
        Some(f64::from(self.frames) / f64::from(self.spec.sample_rate))
    }

    fn next(&mut self, path: &Path) -> Result<Step, SoundError> {
        let channels = usize::from(self.spec.channels);
        let wanted = self.spec.sample_rate as usize / 4 * channels;
        let block: Result<Vec<f32>, _> = self.samples.by_ref().take(wanted).collect();
        let block =
            block.map_err(|e| SoundError::Damaged { path: path.to_owned(), reason: e.to_string() })?;
        Ok(match block.is_empty() {
            true => Step::End { notices: self.notice.into_iter().collect() },
            false => Step::Sound { rate: self.spec.sample_rate, samples: mix(&block, channels) },
        })
    }
}

/// Every sample as a number from -1 to 1.
fn samples(reader: WavReader<Bytes>) -> Box<dyn Iterator<Item = hound::Result<f32>> + Send> {
    let spec = reader.spec();
    match spec.sample_format {
        SampleFormat::Float => Box::new(reader.into_samples::<f32>()),
        SampleFormat::Int => {
            let full = (1_u64 << (spec.bits_per_sample - 1)) as f32;
            Box::new(reader.into_samples::<i32>().map(move |s| s.map(|s| s as f32 / full)))
        }
    }
}

/// What the header says about the samples.
#[derive(Debug, Clone, Copy, Default)]
struct Format {
    tag: u16,
    channels: u16,
    rate: u32,
    /// Bytes of one frame: a sample of every channel.
    frame: u16,
}

impl Format {
    /// Reads a `fmt ` chunk, whose content begins here.
    fn read(file: &mut File) -> io::Result<Self> {
        let mut bytes = [0; 14];
        file.read_exact(&mut bytes).map_err(|_| io::Error::other("it ends within the format"))?;
        let two = |at: usize| u16::from_le_bytes([bytes[at], bytes[at + 1]]);
        let rate = u32::from_le_bytes([bytes[4], bytes[5], bytes[6], bytes[7]]);
        Ok(Self { tag: two(0), channels: two(2), rate, frame: two(12) })
    }

    fn check(self) -> Result<(), String> {
        let (slowest, fastest) = (RATES.start(), RATES.end());
        if !RATES.contains(&self.rate) {
            return Err(format!(
                "it says {} samples a second, where {slowest} to {fastest} are possible",
                self.rate
            ));
        }
        if self.channels == 0 || self.channels > MOST_CHANNELS {
            return Err(format!(
                "it says {} channels, where 1 to {MOST_CHANNELS} are possible",
                self.channels
            ));
        }
        Ok(())
    }

    /// Whether the samples are plain numbers: whole ones, floats, or what the longer header says.
    fn is_plain(self) -> bool {
        matches!(self.tag, 1 | 3 | 0xfffe)
    }
}

/// Where the samples stand in the file.
struct Layout {
    /// The first byte of the samples.
    data_at: u64,
    /// How many bytes of samples the header says there are.
    claimed: u64,
    /// How many bytes there are.
    present: u64,
    format: Format,
}

impl Layout {
    /// Walks the RIFF chunks up to `data`.
    fn find(file: &mut File) -> io::Result<Self> {
        let size = file.metadata()?.len();
        let mut at = 12;
        let mut format = None;
        while at < LONGEST_HEADER {
            let mut head = [0; 8];
            file.seek(SeekFrom::Start(at))?;
            file.read_exact(&mut head).map_err(|_| io::Error::other("it ends before any samples"))?;
            let length = u64::from(u32::from_le_bytes([head[4], head[5], head[6], head[7]]));
            at += 8;
            match &head[..4] {
                b"data" => {
                    let format =
                        format.ok_or_else(|| io::Error::other("it doesn't say what its samples are"))?;
                    return Ok(Self { data_at: at, claimed: length, present: size - at, format });
                }
                b"fmt " => format = Some(Format::read(file)?),
                _ => {}
            }
            at += length + length % 2;
        }
        Err(io::Error::other("no samples in its first megabyte"))
    }

    /// Whether the file has all that its header says.
    fn notice(&self) -> Option<Notice> {
        match self.claimed {
            0 if self.present > 0 => Some(Notice::NeverFinished),
            claimed if claimed > self.present && claimed < UNKNOWN_LENGTH => Some(Notice::CutOff),
            _ => None,
        }
    }

    /// The bytes of the file, with the true number of samples in the header.
    fn mended(&self, mut file: File) -> io::Result<Bytes> {
        let mut head = vec![0; self.data_at as usize];
        file.seek(SeekFrom::Start(0))?;
        file.read_exact(&mut head)?;
        let length = match self.claimed {
            0 => self.present,
            claimed => claimed.min(self.present),
        };
        let whole = (length - length % u64::from(self.format.frame.max(1))).min(u64::from(u32::MAX)) as u32;
        let at = head.len() - 4;
        head[at..].copy_from_slice(&whole.to_le_bytes());
        Ok(Cursor::new(head).chain(BufReader::with_capacity(1 << 16, file)))
    }
}

#[cfg(test)]
mod tests {
    use super::super::Recording;
    use super::*;
    use hound::WavWriter;
    use std::path::PathBuf;
    use tempfile::TempDir;

    /// A folder with a WAV file of half a second at 16 kHz: a ramp from -0.5 to 0.5 in every channel.
    fn ramp(channels: u16, bits: u16, format: SampleFormat) -> (TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("ramp.wav");
        let spec = WavSpec { channels, sample_rate: 16_000, bits_per_sample: bits, sample_format: format };
        let mut writer = WavWriter::create(&path, spec).unwrap();
        for n in 0..8_000 {
            let level = n as f32 / 8_000.0 - 0.5;
            for _ in 0..channels {
                match format {
                    SampleFormat::Float => writer.write_sample(level).unwrap(),
                    SampleFormat::Int => {
                        writer.write_sample((level * (1_u64 << (bits - 1)) as f32) as i32).unwrap();
                    }
                }
            }
        }
        writer.finalize().unwrap();
        (folder, path)
    }

    fn read(path: &Path) -> (Vec<f32>, Vec<String>) {
        let mut recording = Recording::open(path).unwrap();
        let mut sound = Vec::new();
        while let Some(block) = recording.next_block().unwrap() {
            sound.extend(block);
        }
        (sound, recording.notices().to_vec())
    }

    /// Overwrites the length of the samples in the header.
    fn claim(path: &Path, length: u32) {
        let mut bytes = std::fs::read(path).unwrap();
        let at = bytes.windows(4).position(|four| four == b"data").unwrap() + 4;
        bytes[at..at + 4].copy_from_slice(&length.to_le_bytes());
        std::fs::write(path, bytes).unwrap();
    }

    #[test]
    fn every_width_and_number_of_channels_gives_the_same_sound() {
        use SampleFormat::{Float, Int};
        for (channels, bits, format) in [
            (1, 8, Int),
            (1, 16, Int),
            (2, 16, Int),
            (1, 24, Int),
            (6, 24, Int),
            (2, 32, Int),
            (1, 32, Float),
            (2, 32, Float),
        ] {
            let (_folder, path) = ramp(channels, bits, format);
            let (sound, notices) = read(&path);
            assert_eq!(sound.len(), 8_000, "{channels} channels of {bits} bits");
            let step = 1.0 / (1_u32 << (bits.min(16) - 1)) as f32;
            let worst = sound.iter().enumerate().map(|(n, s)| (s - (n as f32 / 8_000.0 - 0.5)).abs());
            assert!(worst.fold(0.0, f32::max) <= step, "{channels} channels of {bits} bits");
            assert!(notices.is_empty());
        }
    }

    #[test]
    fn a_recorder_that_crashed_before_it_wrote_the_length_is_read_to_the_end() {
        let (_folder, path) = ramp(1, 16, SampleFormat::Int);
        claim(&path, 0);
        let (sound, notices) = read(&path);
        assert_eq!(sound.len(), 8_000);
        assert!(
            notices[0].starts_with("the recorder never finished the file: heard up to 0:00"),
            "{notices:?}"
        );
    }

    #[test]
    fn a_length_that_stands_for_unknown_needs_no_notice() {
        let (_folder, path) = ramp(1, 16, SampleFormat::Int);
        for unknown in [u32::MAX, 0x7fff_f000] {
            claim(&path, unknown);
            assert_eq!((read(&path).0.len(), read(&path).1), (8_000, Vec::new()));
        }
    }

    #[test]
    fn a_file_cut_off_within_a_sample_gives_the_whole_ones() {
        let (_folder, path) = ramp(2, 24, SampleFormat::Int);
        let bytes = std::fs::read(&path).unwrap();
        std::fs::write(&path, &bytes[..bytes.len() - 24_001]).unwrap();
        let (sound, notices) = read(&path);
        assert_eq!(sound.len(), 3_999);
        assert!(notices[0].starts_with("the file ends in the middle: heard up to 0:00"), "{notices:?}");
    }

    #[test]
    fn a_header_that_promises_too_many_hours_is_refused_at_once() {
        let (_folder, path) = ramp(1, 8, SampleFormat::Int);
        // 13 hours at 2,000 samples a second: a file with a hole in it needs no room on the disk.
        let mut bytes = std::fs::read(&path).unwrap();
        bytes[24..28].copy_from_slice(&2_000_u32.to_le_bytes());
        bytes[28..32].copy_from_slice(&2_000_u32.to_le_bytes());
        std::fs::write(&path, bytes).unwrap();
        claim(&path, 2_000 * 3_600 * 13);
        File::options().append(true).open(&path).unwrap().set_len(2_000 * 3_600 * 13 + 44).unwrap();
        let message = Recording::open(&path).err().unwrap().to_string();
        assert!(message.contains("is 13.0 hours long and at most 12 are heard at once"), "{message}");
    }
}
