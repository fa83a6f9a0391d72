//! Writes whisper.cpp's model file, as its loader (`whisper_model_load`) reads it.
//!
//! All numbers are little-endian, counts are `i32`: the magic number; eleven sizes, the last of them the
//! file type; the mel filters, their two dimensions first; the number of tokens and each token, its length
//! first; then the tensors to the end of the file, each with its number of axes, the length of its name,
//! its type, its dimensions (the fastest first), its name and its numbers.

use super::arrange::{Shape, Tensor};
use super::catalogue::Precision;
use super::mel;
use super::quantise::{BLOCK, BLOCK_BYTES, push_block};
use half::f16;
use std::io::{self, Write};

/// "ggml", read as a number.
pub const MAGIC: u32 = 0x6767_6d6c;

/// ggml's numbers for how a tensor is stored.
const SINGLES: i32 = 0;
const HALVES: i32 = 1;
const Q8_0: i32 = 8;

/// The file types: which kind of number most of the weights are (`enum ggml_ftype`), and for quantised
/// ones 1,000 times the version of the quantisation (`GGML_QNT_VERSION`, 2), as whisper.cpp's quantiser
/// writes them.
const MOSTLY_HALVES: i32 = 1;
const MOSTLY_Q8_0: i32 = 2 * 1000 + 7;

/// Writes a whole model file.
///
/// # Errors
/// What `out` says, or a size that doesn't fit the file.
pub fn write(
    out: &mut impl Write,
    shape: &Shape,
    vocabulary: &[Vec<u8>],
    tensors: &[Tensor],
    precision: Precision,
) -> io::Result<()> {
    out.write_all(&MAGIC.to_le_bytes())?;
    write_sizes(out, shape, precision)?;
    write_filters(out, shape.mel_bands)?;
    count(out, vocabulary.len())?;
    for token in vocabulary {
        count(out, token.len())?;
        out.write_all(token)?;
    }
    tensors.iter().try_for_each(|tensor| write_tensor(out, tensor, precision))
}

fn write_sizes(out: &mut impl Write, shape: &Shape, precision: Precision) -> io::Result<()> {
    let Shape { vocabulary, width, mel_bands, audio, text } = shape;
    let audio = [audio.context, *width, audio.heads, audio.layers];
    let text = [text.context, *width, text.heads, text.layers];
    count(out, *vocabulary)?;
    audio.into_iter().chain(text).try_for_each(|size| count(out, size))?;
    count(out, *mel_bands)?;
    integer(
        out,
        match precision {
            Precision::Half => MOSTLY_HALVES,
            Precision::Bytes => MOSTLY_Q8_0,
        },
    )
}

fn write_filters(out: &mut impl Write, bands: usize) -> io::Result<()> {
    count(out, bands)?;
    count(out, mel::FREQUENCIES)?;
    mel::filters(bands).into_iter().try_for_each(|weight| out.write_all(&weight.to_le_bytes()))
}

fn write_tensor(out: &mut impl Write, tensor: &Tensor, precision: Precision) -> io::Result<()> {
    let stored = storage(tensor, precision);
    count(out, tensor.dims.len())?;
    count(out, tensor.name.len())?;
    integer(out, stored)?;
    tensor.dims.iter().rev().try_for_each(|&dim| count(out, dim))?;
    out.write_all(tensor.name.as_bytes())?;
    match stored {
        SINGLES => write_singles(out, tensor.halves),
        HALVES => out.write_all(tensor.halves),
        _ => write_blocks(out, tensor.halves),
    }
}

/// Whatever is added or multiplied number by number stays exact: biases, norms, positions. So do the
/// convolutions, as 16-bit floats. Only the matrices are quantised, where their rows divide into blocks.
fn storage(tensor: &Tensor, precision: Precision) -> i32 {
    let is_small = tensor.dims.len() < 2
        || tensor.name.ends_with(".bias")
        || tensor.name.ends_with("positional_embedding");
    let is_matrix = matches!(tensor.dims[..], [_, row] if row.is_multiple_of(BLOCK));
    match precision {
        _ if is_small => SINGLES,
        Precision::Bytes if is_matrix => Q8_0,
        _ => HALVES,
    }
}

fn write_singles(out: &mut impl Write, halves: &[u8]) -> io::Result<()> {
    singles(halves).try_for_each(|number| out.write_all(&number.to_le_bytes()))
}

fn write_blocks(out: &mut impl Write, halves: &[u8]) -> io::Result<()> {
    let (blocks, _) = halves.as_chunks::<{ 2 * BLOCK }>();
    let mut bytes = Vec::with_capacity(blocks.len() * BLOCK_BYTES);
    for block in blocks {
        let mut numbers = [0.0; BLOCK];
        numbers.iter_mut().zip(singles(block)).for_each(|(number, single)| *number = single);
        push_block(&numbers, &mut bytes);
    }
    out.write_all(&bytes)
}

fn singles(halves: &[u8]) -> impl Iterator<Item = f32> {
    halves.chunks_exact(2).map(|half| f16::from_le_bytes([half[0], half[1]]).to_f32())
}

fn count(out: &mut impl Write, count: usize) -> io::Result<()> {
    integer(out, i32::try_from(count).map_err(io::Error::other)?)
}

fn integer(out: &mut impl Write, number: i32) -> io::Result<()> {
    out.write_all(&number.to_le_bytes())
}

#[cfg(test)]
mod tests {
    use super::super::synthetic::{AUDIO_LAYERS, TEXT_LAYERS, TOKENS, WIDTH, model_file};
    use super::*;

    fn integers(bytes: &[u8]) -> Vec<usize> {
        bytes.chunks_exact(4).map(|four| u32::from_le_bytes(four.try_into().unwrap()) as usize).collect()
    }

    #[test]
    fn the_header_says_the_sizes() {
        let sizes = [TOKENS, 5, WIDTH, 2, AUDIO_LAYERS, 6, WIDTH, 4, TEXT_LAYERS, 80];
        for (precision, file_type) in [(Precision::Half, 1), (Precision::Bytes, 2007)] {
            let file = model_file(precision);
            assert_eq!(&file[..4], b"lmgg");
            assert_eq!(integers(&file[4..44]), sizes);
            assert_eq!(integers(&file[44..56]), [file_type, 80, mel::FREQUENCIES]);
        }
    }

    #[test]
    fn the_vocabulary_follows_the_filters() {
        let file = model_file(Precision::Half);
        let at = 56 + 4 * 80 * mel::FREQUENCIES;
        let mut expected = vec![3, 0, 0, 0, 1, 0, 0, 0, b'!', 7, 0, 0, 0];
        expected.extend(b" siding");
        expected.extend([0; 4]);
        assert_eq!(file[at..at + expected.len()], expected);
    }

    fn stored(name: &str, dims: &[usize], precision: Precision) -> i32 {
        storage(&Tensor { name: name.to_owned(), dims: dims.to_vec(), halves: &[] }, precision)
    }

    #[test]
    fn matrices_are_quantised_and_nothing_else_is() {
        // What whisper.cpp's quantiser does: two axes, and neither positions nor convolution biases.
        let rows: [(&str, &[usize], i32, i32); 6] = [
            ("decoder.token_embedding.weight", &[51865, 512], HALVES, Q8_0),
            ("encoder.blocks.0.attn.key.weight", &[512, 512], HALVES, Q8_0),
            ("encoder.conv1.weight", &[512, 80, 3], HALVES, HALVES),
            ("encoder.conv1.bias", &[512, 1], SINGLES, SINGLES),
            ("encoder.positional_embedding", &[1500, 512], SINGLES, SINGLES),
            ("encoder.ln_post.weight", &[512], SINGLES, SINGLES),
        ];
        for (name, dims, half, bytes) in rows {
            assert_eq!(stored(name, dims, Precision::Half), half, "{name}");
            assert_eq!(stored(name, dims, Precision::Bytes), bytes, "{name}");
        }
    }

    #[test]
    fn a_tensor_is_written_fastest_axis_first() {
        let halves: Vec<u8> = [1.0, -2.0].map(f16::from_f32).into_iter().flat_map(f16::to_le_bytes).collect();
        let tensor = Tensor { name: "encoder.conv1.bias".to_owned(), dims: vec![2, 1], halves: &halves };
        let mut out = Vec::new();
        write_tensor(&mut out, &tensor, Precision::Half).unwrap();
        assert_eq!(integers(&out[..20]), [2, 18, 0, 1, 2]);
        assert_eq!(&out[20..38], b"encoder.conv1.bias");
        assert_eq!(out[38..], [1.0_f32, -2.0].map(f32::to_le_bytes).concat());
    }

    #[test]
    fn halves_become_singles_or_blocks_in_place() {
        let halves: Vec<u8> = (0..64).flat_map(|n| f16::from_f32(n as f32).to_le_bytes()).collect();
        let mut out = Vec::new();
        write_singles(&mut out, &halves[..6]).unwrap();
        assert_eq!(out, [0.0_f32, 1.0, 2.0].map(f32::to_le_bytes).concat());

        out.clear();
        write_blocks(&mut out, &halves).unwrap();
        assert_eq!(out.len(), 2 * BLOCK_BYTES);
        // The second block's largest number is 63, its last.
        assert_eq!(out[BLOCK_BYTES..BLOCK_BYTES + 2], f16::from_f32(63.0 / 127.0).to_le_bytes());
        assert_eq!(out[2 * BLOCK_BYTES - 1], 127);
    }
}
