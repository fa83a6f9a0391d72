//! Sounds in which nobody speaks, made here: hiss, wind in gusts, rumble, hammering, tones.

use std::path::Path;

/// Seconds of each sound.
const LENGTH: usize = 30;
const RATE: usize = 16_000;

/// A small generator of random numbers (xorshift64), so that the sounds are the same in every run.
struct Random(u64);

impl Random {
    /// From -1 to 1, evenly.
    fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
    }
}

/// Each sound by name, as samples.
pub fn sounds() -> Vec<(&'static str, Vec<f64>)> {
    let mut random = Random(88_172_645_463_325_252);
    let mut brown = 0.0;
    let mut sound = |at: &mut dyn FnMut(f64, f64, f64) -> f64| -> Vec<f64> {
        let sample = |n: usize| {
            let white = random.next();
            brown = 0.995 * brown + 0.06 * white;
            at(n as f64 / RATE as f64, white, brown)
        };
        (0..LENGTH * RATE).map(sample).collect()
    };
    let turn = |rate: f64, time: f64| (std::f64::consts::TAU * rate * time).sin();
    vec![
        ("silence", sound(&mut |_, _, _| 0.0)),
        ("hiss", sound(&mut |_, white, _| 0.2 * white)),
        ("wind in gusts", sound(&mut |time, _, brown| 0.9 * brown * (0.5 + 0.5 * turn(0.2, time)).powi(2))),
        ("rumble", sound(&mut |time, _, brown| 0.7 * brown + 0.1 * turn(55.0, time) * turn(0.1, time))),
        ("hammering", sound(&mut |time, white, _| 0.9 * white * (-40.0 * (time % 0.62)).exp())),
        (
            "tones",
            sound(&mut |time, _, _| {
                let note = [262.0, 330.0, 392.0, 523.0][(time / 0.6) as usize % 4];
                0.3 * (turn(note, time) + turn(1.5 * note, time)) * (-2.0 * (time % 0.6)).exp()
            }),
        ),
    ]
}

/// Writes samples as a recording.
pub fn write(path: &Path, samples: &[f64]) {
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: RATE as u32,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut writer = hound::WavWriter::create(path, spec).unwrap();
    for sample in samples {
        writer.write_sample((sample.clamp(-1.0, 1.0) * 32_767.0) as i16).unwrap();
    }
    writer.finalize().unwrap();
}
