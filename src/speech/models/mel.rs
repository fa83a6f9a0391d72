//! The mel filters: how much of each frequency of a short stretch of sound goes into each band.
//!
//! Whisper hears in bands spaced evenly on the mel scale as Slaney's Auditory Toolbox defines it (Malcolm
//! Slaney, "Auditory Toolbox", Interval Research technical report 1998-010): even steps of 200/3 Hz up to
//! 1,000 Hz, and from there 27 even steps of a ratio to every factor of 6.4. Each filter is a triangle
//! whose area, not height, is the same for all.

/// Samples a second that Whisper hears.
const RATE: f64 = 16_000.0;
/// Samples in the stretch that is turned into frequencies.
const WINDOW: usize = 400;
/// Frequencies that such a stretch has: from 0 Hz to half the rate.
pub const FREQUENCIES: usize = WINDOW / 2 + 1;

/// Hertz to one mel below the bend.
const HERTZ_PER_MEL: f64 = 200.0 / 3.0;
/// Where the scale turns from even steps to even ratios, in hertz.
const BEND: f64 = 1_000.0;
/// The same place in mels.
const BEND_MEL: f64 = BEND / HERTZ_PER_MEL;

/// The filters for that many bands, band by band, [`FREQUENCIES`] weights each.
///
/// Logarithm and power come from `libm` rather than from the machine, so that every machine writes the
/// same bytes. The height is rounded to single precision before it is scaled, as the program that made
/// Whisper's own filters (librosa) does it.
pub fn filters(bands: usize) -> Vec<f32> {
    let edges = edges(bands);
    edges.windows(3).flat_map(|edge| triangle(edge[0], edge[1], edge[2])).collect()
}

/// Where the triangles begin, peak and end, in hertz: band `n` has edges `n`, `n + 1` and `n + 2`.
fn edges(bands: usize) -> Vec<f64> {
    let top = mel(RATE / 2.0);
    let step = top / (bands + 1) as f64;
    // The last edge is the top itself, not a sum of steps that may miss it by a hair.
    (0..=bands).map(|n| n as f64 * step).chain([top]).map(hertz).collect()
}

fn triangle(low: f64, peak: f64, high: f64) -> impl Iterator<Item = f32> {
    let scale = 2.0 / (high - low);
    (0..FREQUENCIES).map(move |n| {
        let frequency = n as f64 * RATE / WINDOW as f64;
        let rise = (frequency - low) / (peak - low);
        let fall = (high - frequency) / (high - peak);
        let height = rise.min(fall).max(0.0) as f32;
        (f64::from(height) * scale) as f32
    })
}

fn mel(hertz: f64) -> f64 {
    if hertz < BEND { hertz / HERTZ_PER_MEL } else { BEND_MEL + libm::log(hertz / BEND) / log_step() }
}

fn hertz(mel: f64) -> f64 {
    if mel < BEND_MEL { mel * HERTZ_PER_MEL } else { BEND * libm::exp(log_step() * (mel - BEND_MEL)) }
}

/// The natural logarithm of the ratio of one mel above the bend.
fn log_step() -> f64 {
    libm::log(6.4) / 27.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::digest;

    /// Values of `mel_filters.npz` in the source package openai-whisper 20250625, read with numpy: the
    /// table, the band, the frequency, the weight.
    const PUBLISHED: [(usize, usize, usize, f32); 14] = [
        (80, 0, 0, 0.0),
        (80, 0, 1, 0.024862595),
        (80, 0, 2, 0.0),
        (80, 5, 5, 0.009954109),
        (80, 5, 6, 0.014908484),
        (80, 25, 24, 0.02087401),
        (80, 25, 25, 0.0040404256),
        (80, 40, 43, 0.014735566),
        (80, 60, 92, 0.005447904),
        (80, 79, 189, 0.0017657268),
        (80, 79, 200, 0.0),
        (128, 0, 1, 0.012373987),
        (128, 64, 43, 0.018091518),
        (128, 127, 193, 0.0027586485),
    ];

    #[test]
    fn weights_are_those_that_whisper_was_trained_with() {
        for (bands, band, frequency, weight) in PUBLISHED {
            let found = filters(bands)[band * FREQUENCIES + frequency];
            assert_eq!(found, weight, "band {band} of {bands} at frequency {frequency}");
        }
    }

    #[test]
    fn the_whole_tables_are_the_published_ones() {
        // SHA-256 of the tables `mel_80` and `mel_128` of the same file, as little-endian single floats, once
        // the one negative zero in each, at the very first place, is made a plain zero: older copies have it so.
        let published = [
            (80, "85818f156f7e189453901a515e4726d270d307f976e161cf9403e8caab405498"),
            (128, "e399c2d72d2f7375e503c296d8453cefcc0c1e47a9c1a0a09e0d70f59c820f20"),
        ];
        for (bands, sha256) in published {
            let bytes: Vec<u8> = filters(bands).into_iter().flat_map(f32::to_le_bytes).collect();
            assert_eq!(digest::of_bytes(&bytes), sha256, "{bands} bands");
        }
    }

    #[test]
    fn the_scale_is_slaneys() {
        // From the definition: 200/3 Hz a mel up to 1,000 Hz, which is 15 mel; 27 more make 6,400 Hz.
        let agree = |mels: f64, herz: f64| {
            assert!((mel(herz) - mels).abs() < 1e-9, "{herz} Hz");
            assert!((hertz(mels) - herz).abs() < 1e-6, "{mels} mel");
        };
        agree(0.0, 0.0);
        agree(3.0, 200.0);
        agree(15.0, 1_000.0);
        agree(42.0, 6_400.0);
    }
}
