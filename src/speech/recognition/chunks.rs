//! Chunks: voice packed together for the recognizer, each with the way back to the recording's own time.
//!
//! A recognizer hears best when it gets up to half a minute at once, and pays for every second, spoken or
//! not. So stretches of voice are joined, and long pauses between them cut down.

use super::voice::{Run, Stretch, VoiceFinder};
use crate::speech::sound::RATE;

/// The most that is given at once: Whisper's window is 30 s, and it needs a little room at the end.
/// Shorter chunks make more errors (14 s: half as many again).
const LONGEST: usize = 28 * RATE;

/// What is left of a longer pause between two stretches: the sound just before the voice goes on. The padding
/// of both comes besides.
const PAUSE: usize = RATE / 10;

/// A word that would have less than this at the end of a run of speech begins the next one.
const SHORTEST: f64 = 0.12 * RATE as f64;

/// Voice for a recognizer.
#[derive(Debug, Default)]
pub(super) struct Chunk {
    /// 16 kHz samples, at most 28 s.
    pub(super) samples: Vec<f32>,
    /// Which parts of the recording these are, in order.
    parts: Vec<Part>,
    /// Where in the chunk somebody speaks, in order.
    spoken: Vec<Run>,
}

/// Sound that stands in the chunk as it does in the recording; all in samples.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Part {
    in_chunk: usize,
    in_recording: usize,
    length: usize,
}

impl Chunk {
    /// The recording's time, in seconds, for a word that was heard from `start` to `end` seconds of the chunk;
    /// `closes` tells that a mark follows it, so that it is the last one before a pause rather than the first behind.
    ///
    /// An engine lets a word begin where the one before ended, so that the first word behind a pause seems to
    /// fill the pause. So a word keeps only what lies in that run of speech with which it shares the most time.
    pub(super) fn recording_time(&self, start: f64, end: f64, closes: bool) -> (f64, f64) {
        let (start, end) = (start * RATE as f64, end.max(start) * RATE as f64);
        let shared = |run: &Run| end.min(run.end as f64) - start.max(run.start as f64);
        // The last of equals would win; a word that touches two runs belongs to the earlier one.
        let most = (0..self.spoken.len()).rev().max_by(|a, b| {
            let shared = |n: usize| shared(&self.spoken[n]);
            shared(*a).total_cmp(&shared(*b))
        });
        let Some(most) = most else { return (self.in_recording(start), self.in_recording(end)) };
        let squeezed = shared(&self.spoken[most]) < SHORTEST && end >= self.spoken[most].end as f64;
        let run = self.spoken.get(most + 1).filter(|_| squeezed && !closes).unwrap_or(&self.spoken[most]);
        let within = |at: f64| self.in_recording(at.clamp(run.start as f64, run.end as f64));
        (within(start), within(end))
    }

    /// The second of the recording at which a sample of the chunk stands.
    fn in_recording(&self, sample: f64) -> f64 {
        let part = self.parts.iter().rev().find(|part| part.in_chunk as f64 <= sample).or(self.parts.first());
        let place =
            part.map_or(0.0, |part| part.in_recording as f64 + (sample - part.in_chunk as f64).max(0.0));
        place / RATE as f64
    }

    /// Where the chunk ends in the recording, in seconds.
    pub(super) fn end(&self) -> f64 {
        self.parts.last().map_or(0.0, |part| (part.in_recording + part.length) as f64 / RATE as f64)
    }

    fn end_sample(&self) -> usize {
        self.parts.last().map_or(0, |part| part.in_recording + part.length)
    }

    /// The sound between this chunk's end and `start` that would be kept.
    fn pause_before(&self, start: usize) -> usize {
        if self.parts.is_empty() { 0 } else { start.saturating_sub(self.end_sample()).min(PAUSE) }
    }

    fn add(&mut self, sound: &[f32], stretch: &Stretch) {
        let pause = sound.len() - stretch.sound.length();
        let at = self.samples.len() + pause;
        let whole = self.end_sample() + pause == stretch.sound.start;
        match self.parts.last_mut() {
            Some(last) if whole => last.length += sound.len(),
            _ => self.parts.push(Part {
                in_chunk: at,
                in_recording: stretch.sound.start,
                length: stretch.sound.length(),
            }),
        }
        let in_chunk = |sample: usize| sample - stretch.sound.start + at;
        let spoken =
            stretch.spoken.iter().map(|run| Run { start: in_chunk(run.start), end: in_chunk(run.end) });
        self.spoken.extend(spoken);
        self.samples.extend_from_slice(sound);
    }
}

/// Packs a recording that comes block by block into [`Chunk`]s, holding no more than one of them and the
/// stretch being heard.
pub(super) struct Packer {
    voice: VoiceFinder,
    /// The last part of the recording, and which sample of it comes first.
    recent: Vec<f32>,
    recent_from: usize,
    open: Chunk,
}

impl Packer {
    pub(super) fn new() -> Self {
        Self { voice: VoiceFinder::new(), recent: Vec::new(), recent_from: 0, open: Chunk::default() }
    }

    /// Takes the next samples and gives the chunks that are full.
    pub(super) fn push(&mut self, block: &[f32]) -> Vec<Chunk> {
        self.recent.extend_from_slice(block);
        let stretches = self.voice.push(block);
        let full = stretches.into_iter().filter_map(|stretch| self.add(stretch)).collect();
        self.forget(self.voice.needed_from().saturating_sub(PAUSE));
        full
    }

    /// The chunks that the end of the recording completes.
    pub(super) fn finish(mut self) -> Vec<Chunk> {
        let voice = std::mem::replace(&mut self.voice, VoiceFinder::new());
        let full = voice.finish().and_then(|stretch| self.add(stretch));
        full.into_iter().chain([self.open]).filter(|chunk| !chunk.samples.is_empty()).collect()
    }

    /// Adds a stretch; where it doesn't fit any more, the chunk before it is full.
    fn add(&mut self, stretch: Stretch) -> Option<Chunk> {
        let sound = stretch.sound;
        let pause = self.open.pause_before(sound.start);
        let length = pause + sound.length();
        let full = (self.open.samples.len() + length > LONGEST).then(|| std::mem::take(&mut self.open));
        let from = sound.start - if full.is_some() { 0 } else { pause };
        self.open.add(&self.recent[from - self.recent_from..sound.end - self.recent_from], &stretch);
        full.filter(|chunk| !chunk.samples.is_empty())
    }

    fn forget(&mut self, before: usize) {
        let surplus = before.saturating_sub(self.recent_from);
        // Moving what is left costs time, so it is done a second at a time.
        if surplus > RATE {
            self.recent.drain(..surplus);
            self.recent_from += surplus;
        }
    }
}
