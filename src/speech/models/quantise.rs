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

#[cfg(test)]
mod tests {
    use super::*;

    fn block(numbers: [f32; BLOCK]) -> Vec<u8> {
        let mut out = Vec::new();
        push_block(&numbers, &mut out);
        out
    }

    /// What a block stands for: each byte times the scale.
    fn numbers(block: &[u8]) -> Vec<f32> {
        let scale = f16::from_le_bytes([block[0], block[1]]).to_f32();
        block[2..].iter().map(|&byte| f32::from(byte.cast_signed()) * scale).collect()
    }

    #[test]
    fn the_largest_number_becomes_127() {
        let mut input = [0.0; BLOCK];
        (input[3], input[4], input[31]) = (-254.0, 127.0, 1.0);
        let block = block(input);
        assert_eq!(block.len(), BLOCK_BYTES);
        assert_eq!(block[..2], f16::from_f32(2.0).to_le_bytes());
        assert_eq!(block[2 + 3].cast_signed(), -127);
        // 127 / 2 and 1 / 2 are halves, and go away from zero.
        assert_eq!(block[2 + 4], 64);
        assert_eq!(block[2 + 31], 1);
        assert_eq!(block[2], 0);
    }

    #[test]
    fn zeros_stay_zeros() {
        assert_eq!(block([0.0; BLOCK]), [0; BLOCK_BYTES]);
    }

    #[test]
    fn no_number_is_off_by_more_than_half_a_step_and_the_rounding_of_the_scale() {
        let input: [f32; BLOCK] = std::array::from_fn(|n| ((n * 37 % 64) as f32 - 31.5) / 19.0);
        let step = input.iter().fold(0.0_f32, |most, number| most.max(number.abs())) / 127.0;
        for (before, after) in input.iter().zip(numbers(&block(input))) {
            // A 16-bit float has 11 significant bits, so the scale may be off by 1 in 2,048 at most.
            assert!((before - after).abs() <= 0.501 * step + before.abs() / 2048.0, "{before} {after}");
        }
    }
}
