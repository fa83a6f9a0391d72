//! Chunks: voice packed together for the recogniser, each with the way back to the recording's own time.
//!
//! A recogniser hears best when it gets up to half a minute at once, and pays for every second, spoken or
//! not. So stretches of voice are joined, and long pauses between them cut down.

use super::voice::{Stretch, VoiceFinder};
use crate::sound::RATE;

/// The most that is given at once: Whisper's window is 30 s, and it needs a little room at the end.
/// Shorter chunks make more errors (14 s: half as many again).
const LONGEST: usize = 28 * RATE;

/// What is left of a longer pause: the sound just before the voice goes on.
const PAUSE: usize = RATE / 2;

/// Voice for a recogniser.
#[derive(Debug, Default)]
pub(super) struct Chunk {
    /// 16 kHz samples, at most 28 s.
    pub(super) samples: Vec<f32>,
    /// Which parts of the recording these are, in order.
    parts: Vec<Part>,
}

/// Sound that stands in the chunk as it does in the recording; all in samples.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Part {
    in_chunk: usize,
    in_recording: usize,
    length: usize,
}

impl Part {
    /// How much of the time from `start` to `end` in the chunk falls into this part; below zero: how far off.
    fn shares(&self, start: f64, end: f64) -> f64 {
        let (from, to) = (self.in_chunk as f64, (self.in_chunk + self.length) as f64);
        end.min(to) - start.max(from)
    }

    fn in_recording(&self, sample: f64) -> f64 {
        let within = (sample - self.in_chunk as f64).clamp(0.0, self.length as f64);
        (self.in_recording as f64 + within) / RATE as f64
    }
}

impl Chunk {
    /// The recording's time, in seconds, for a word that was heard from `start` to `end` seconds of the
    /// chunk. A word lies on one side of a cut pause: the one that it shares more time with.
    pub(super) fn recording_time(&self, start: f64, end: f64) -> (f64, f64) {
        let (start, end) = (start * RATE as f64, end.max(start) * RATE as f64);
        let share = |part: &&Part| part.shares(start, end);
        // The last of equals would win; a word that touches two parts belongs to the earlier one.
        match self.parts.iter().rev().max_by(|a, b| share(a).total_cmp(&share(b))) {
            Some(part) => (part.in_recording(start), part.in_recording(end)),
            None => (0.0, 0.0),
        }
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

    fn add(&mut self, sound: &[f32], stretch: Stretch) {
        let pause = sound.len() - (stretch.end - stretch.start);
        let whole = self.end_sample() + pause == stretch.start;
        match self.parts.last_mut() {
            Some(last) if whole => last.length += sound.len(),
            _ => self.parts.push(Part {
                in_chunk: self.samples.len() + pause,
                in_recording: stretch.start,
                length: stretch.end - stretch.start,
            }),
        }
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
        let pause = self.open.pause_before(stretch.start);
        let length = pause + stretch.end - stretch.start;
        let full = (self.open.samples.len() + length > LONGEST).then(|| std::mem::take(&mut self.open));
        let from = stretch.start - if full.is_some() { 0 } else { pause };
        let sound = &self.recent[from - self.recent_from..stretch.end - self.recent_from];
        self.open.add(sound, stretch);
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
