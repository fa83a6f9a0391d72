//! Numbers to bytes with a shared scale: ggml's `q8_0` blocks.
//!
//! A block stands for 32 numbers: a 16-bit float, the scale, and 32 signed bytes. The scale is a 127th of
//! the largest number of the block, signs aside. The arithmetic follows ggml's reference code
//! (`quantize_row_q8_0_ref`) step by step, in single precision, so that the bytes are the same.

use half::f16;

/// Numbers in a block.
pub const BLOCK: usize = 32;
/// Bytes that a block takes.
pub const BLOCK_BYTES: usize = 2 + BLOCK;

/// Adds the block for `numbers` to `out`.
pub fn push_block(numbers: &[f32; BLOCK], out: &mut Vec<u8>) {
    let largest = numbers.iter().fold(0.0_f32, |largest, number| largest.max(number.abs()));
    let scale = largest / 127.0;
    let inverse = if scale == 0.0 { 0.0 } else { 1.0 / scale };
    out.extend(f16::from_f32(scale).to_le_bytes());
    out.extend(numbers.map(|number| ((number * inverse).round() as i8).cast_unsigned()));
}
