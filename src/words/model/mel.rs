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
