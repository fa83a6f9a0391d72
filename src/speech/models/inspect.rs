//! Looks over a model file from any source: is it one that whisper.cpp can read, which, and is it whole?
//!
//! Only the headers are read, so it is quick; the loader itself says little more than "failed" about a
//! file that is cut off, or isn't a model at all.

use super::arrange::MANY_LANGUAGES;
use super::ggml::MAGIC;
use super::mel;
use std::fs::File;
use std::io::{self, BufReader, Read};
use std::path::Path;

/// What a whisper.cpp model file is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kind {
    /// Whisper's own name for models of this size: `tiny`, `base`, `small` …; `large` has variants.
    pub size: &'static str,
    /// How its weights are stored, by ggml's name: `f16`, `q8_0`, `q5_1` …
    pub stored: &'static str,
    /// What it understands.
    pub languages: Languages,
}

/// What a model understands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Languages {
    /// English alone: the models whose names end in `.en`.
    English,
    /// English among many.
    Many,
}

/// A file that can't be used as a model.
#[expect(missing_docs, reason = "each message says what its fields are")]
#[derive(Debug, thiserror::Error)]
pub enum InspectError {
    /// The system wouldn't let it be read.
    #[error("{0}")]
    Unreadable(io::Error),
    /// There is nothing in it.
    #[error("it is empty")]
    Empty,
    /// It isn't a model.
    #[error("it begins with `{found}`, expected a whisper.cpp model (`ggml-….bin`)")]
    Stranger { found: String },
    /// It is a model of another kind, or its header is damaged.
    #[error("its header says {what} {found}, which no Whisper model has")]
    Header { what: &'static str, found: i64 },
    /// It ends too early.
    #[error("it is cut off after {tensors} tensors: fetch it again")]
    CutOff { tensors: usize },
    /// It holds no weights.
    #[error("it holds no weights: it is one of whisper.cpp's own files for tests")]
    NoWeights,
}

/// Looks over the file at `path`, from its first byte to its last, passing over the weights themselves.
///
/// # Errors
/// Why whisper.cpp couldn't read it.
pub fn inspect(path: &Path) -> Result<Kind, InspectError> {
    let mut file = Walker::open(path)?;
    file.expect_magic()?;
    let sizes = file.sizes()?;
    let kind = kind(sizes)?;
    file.pass_filters()?;
    file.pass_vocabulary()?;
    file.pass_tensors(tensors_of(sizes))?;
    Ok(kind)
}

/// The part of the header that tells models apart.
#[derive(Debug, Clone, Copy)]
struct Sizes {
    vocabulary: i32,
    audio_layers: i32,
    text_layers: i32,
    file_type: i32,
}

/// A walk through a model file.
struct Walker {
    file: BufReader<File>,
    left: u64,
    tensors: usize,
}

impl Walker {
    fn open(path: &Path) -> Result<Self, InspectError> {
        let file = File::open(path).map_err(InspectError::Unreadable)?;
        let left = file.metadata().map_err(InspectError::Unreadable)?.len();
        Ok(Self { file: BufReader::new(file), left, tensors: 0 })
    }

    fn expect_magic(&mut self) -> Result<(), InspectError> {
        let mut head = Vec::new();
        self.file.by_ref().take(4).read_to_end(&mut head).map_err(InspectError::Unreadable)?;
        self.left = self.left.saturating_sub(4);
        match head.as_slice() {
            [] => Err(InspectError::Empty),
            head if head == MAGIC.to_le_bytes() => Ok(()),
            head => Err(InspectError::Stranger { found: head.escape_ascii().to_string() }),
        }
    }

    fn sizes(&mut self) -> Result<Sizes, InspectError> {
        let mut sizes = [0; 11];
        for size in &mut sizes {
            *size = self.integer()?;
        }
        let [vocabulary, _, _, _, audio_layers, _, _, _, text_layers, _, file_type] = sizes;
        Ok(Sizes { vocabulary, audio_layers, text_layers, file_type })
    }

    fn pass_filters(&mut self) -> Result<(), InspectError> {
        let (bands, frequencies) = (self.integer()?, self.integer()?);
        if !(1..=512).contains(&bands) {
            return Err(InspectError::Header { what: "a number of mel bands of", found: bands.into() });
        }
        if frequencies != mel::FREQUENCIES as i32 {
            return Err(InspectError::Header {
                what: "a number of frequencies of",
                found: frequencies.into(),
            });
        }
        self.pass(4 * u64::from(bands.unsigned_abs()) * mel::FREQUENCIES as u64)
    }

    fn pass_vocabulary(&mut self) -> Result<(), InspectError> {
        for _ in 0..self.integer()? {
            let length = self.integer()?;
            if !(0..=1024).contains(&length) {
                return Err(InspectError::Header { what: "a token length of", found: length.into() });
            }
            self.pass(u64::from(length.unsigned_abs()))?;
        }
        Ok(())
    }

    fn pass_tensors(&mut self, expected: i64) -> Result<(), InspectError> {
        while self.left > 0 {
            self.pass_tensor()?;
            self.tensors += 1;
        }
        match self.tensors {
            0 => Err(InspectError::NoWeights),
            tensors if (tensors as i64) < expected => Err(self.cut_off()),
            _ => Ok(()),
        }
    }

    fn pass_tensor(&mut self) -> Result<(), InspectError> {
        let (axes, name, stored) = (self.integer()?, self.integer()?, self.integer()?);
        let odd = |what, found: i32| InspectError::Header { what, found: found.into() };
        if !(1..=4).contains(&axes) {
            return Err(odd("a number of axes of", axes));
        }
        if !(1..=256).contains(&name) {
            return Err(odd("a name length of", name));
        }
        let (block, bytes) = block_size(stored).ok_or_else(|| odd("a tensor type of", stored))?;
        let mut numbers: u64 = 1;
        for _ in 0..axes {
            let dim = self.integer()?;
            let dim = u64::try_from(dim).map_err(|_| odd("a dimension of", dim))?;
            numbers = numbers.saturating_mul(dim);
        }
        self.pass(u64::from(name.unsigned_abs()))?;
        self.pass((numbers / block).saturating_mul(bytes))
    }

    fn integer(&mut self) -> Result<i32, InspectError> {
        let mut bytes = [0; 4];
        self.left = self.left.checked_sub(4).ok_or_else(|| self.cut_off())?;
        self.file.read_exact(&mut bytes).map_err(InspectError::Unreadable)?;
        Ok(i32::from_le_bytes(bytes))
    }

    /// Passes over that many bytes, if there are as many left.
    fn pass(&mut self, bytes: u64) -> Result<(), InspectError> {
        self.left = self.left.checked_sub(bytes).ok_or_else(|| self.cut_off())?;
        // No more than the file's length, which the system keeps below i64::MAX.
        self.file.seek_relative(bytes as i64).map_err(InspectError::Unreadable)
    }

    fn cut_off(&self) -> InspectError {
        InspectError::CutOff { tensors: self.tensors }
    }
}

fn kind(sizes: Sizes) -> Result<Kind, InspectError> {
    Ok(Kind {
        size: size_name(sizes.audio_layers, sizes.text_layers)?,
        stored: storage_name(sizes.file_type)?,
        languages: match usize::try_from(sizes.vocabulary) {
            Ok(tokens) if tokens >= MANY_LANGUAGES => Languages::Many,
            _ => Languages::English,
        },
    })
}

/// How many tensors a model of those sizes has: 15 for each layer that listens, 24 for each that writes,
/// and 11 besides.
fn tensors_of(sizes: Sizes) -> i64 {
    11 + 15 * i64::from(sizes.audio_layers) + 24 * i64::from(sizes.text_layers)
}

/// Whisper's sizes, by the layers of the half that listens and of the half that writes.
fn size_name(audio_layers: i32, text_layers: i32) -> Result<&'static str, InspectError> {
    match (audio_layers, text_layers) {
        (4, _) => Ok("tiny"),
        (6, _) => Ok("base"),
        (12, _) => Ok("small"),
        (24, _) => Ok("medium"),
        (32, 4) => Ok("large turbo"),
        (32, _) => Ok("large"),
        _ => Err(InspectError::Header { what: "a number of layers of", found: audio_layers.into() }),
    }
}

/// ggml's file types (`enum ggml_ftype`), the version of the quantisation aside.
fn storage_name(file_type: i32) -> Result<&'static str, InspectError> {
    match file_type % 1000 {
        0 => Ok("f32"),
        1 => Ok("f16"),
        2 => Ok("q4_0"),
        3 => Ok("q4_1"),
        7 => Ok("q8_0"),
        8 => Ok("q5_0"),
        9 => Ok("q5_1"),
        10 => Ok("q2_k"),
        11 => Ok("q3_k"),
        12 => Ok("q4_k"),
        13 => Ok("q5_k"),
        14 => Ok("q6_k"),
        _ => Err(InspectError::Header { what: "a file type of", found: file_type.into() }),
    }
}

/// How many numbers a block of that tensor type (`enum ggml_type`) holds, and in how many bytes.
fn block_size(stored: i32) -> Option<(u64, u64)> {
    Some(match stored {
        0 => (1, 4),
        1 => (1, 2),
        2 => (32, 18),
        3 => (32, 20),
        6 => (32, 22),
        7 => (32, 24),
        8 => (32, 34),
        10 => (256, 84),
        11 => (256, 110),
        12 => (256, 144),
        13 => (256, 176),
        14 => (256, 210),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::super::catalogue::Precision;
    use super::super::synthetic::model_file;
    use super::*;

    fn inspected(bytes: &[u8]) -> Result<Kind, String> {
        let file = tempfile::NamedTempFile::new().unwrap();
        std::fs::write(file.path(), bytes).unwrap();
        inspect(file.path()).map_err(|why| why.to_string())
    }

    #[test]
    fn a_whole_model_is_told_by_its_header() {
        let kind = |stored| Kind { size: "tiny", stored, languages: Languages::Many };
        assert_eq!(inspected(&model_file(Precision::Half)), Ok(kind("f16")));
        assert_eq!(inspected(&model_file(Precision::Bytes)), Ok(kind("q8_0")));
    }

    #[test]
    fn a_model_cut_off_anywhere_is_refused() {
        let whole = model_file(Precision::Bytes);
        let mut lengths: Vec<usize> = (0..whole.len()).step_by(whole.len() / 200).collect();
        lengths.extend([1, 3, 4, 47, 48, whole.len() - 1]);
        for length in lengths {
            assert!(inspected(&whole[..length]).is_err(), "{length} of {} bytes", whole.len());
        }
    }

    #[test]
    fn a_model_that_ends_between_two_tensors_is_cut_off_too() {
        let whole = model_file(Precision::Half);
        // The last tensor is a bias of 32 single floats: 3 counts, 1 dimension, its name, its numbers.
        let last = 3 * 4 + 4 + "encoder.ln_post.bias".len() + 4 * 32;
        assert_eq!(
            inspected(&whole[..whole.len() - last]),
            Err("it is cut off after 94 tensors: fetch it again".to_owned())
        );
    }

    #[test]
    fn what_is_no_model_is_named_by_its_first_bytes() {
        let stranger =
            |head: &str| Err(format!("it begins with `{head}`, expected a whisper.cpp model (`ggml-….bin`)"));
        assert_eq!(inspected(b"GGUF\x03\0\0\0"), stranger("GGUF"));
        assert_eq!(inspected(b"<!DOCTYPE html>"), stranger("<!DO"));
        assert_eq!(inspected(b"\x06\0\0\0"), stranger(r"\x06\x00\x00\x00"));
        assert_eq!(inspected(b""), Err("it is empty".to_owned()));
    }

    #[test]
    fn a_damaged_header_is_refused() {
        // Where the header has its layers that listen, its file type, its filters, and its first token.
        let rows = [
            (20, 5, "its header says a number of layers of 5, which no Whisper model has"),
            (44, 4, "its header says a file type of 4, which no Whisper model has"),
            (48, -1, "its header says a number of mel bands of -1, which no Whisper model has"),
            (52, 7, "its header says a number of frequencies of 7, which no Whisper model has"),
            (64_380, 5_000, "its header says a token length of 5000, which no Whisper model has"),
        ];
        let whole = model_file(Precision::Half);
        for (at, number, why) in rows {
            let mut bytes = whole.clone();
            bytes[at..at + 4].copy_from_slice(&i32::to_le_bytes(number));
            assert_eq!(inspected(&bytes), Err(why.to_owned()));
        }
    }

    #[test]
    fn a_model_without_weights_is_refused() {
        let whole = model_file(Precision::Half);
        let vocabulary = (4 + 1) + (4 + " siding".len()) + 4;
        let end = 56 + 4 * 80 * mel::FREQUENCIES + 4 + vocabulary;
        assert_eq!(
            inspected(&whole[..end]),
            Err("it holds no weights: it is one of whisper.cpp's own files for tests".to_owned())
        );
    }
}
