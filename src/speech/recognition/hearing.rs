//! Hearing a whole recording with any engine: one thread reads and packs, the workers hear, and the results are put
//! together in order. The outcome is the same whatever the number of workers.
//!
//! A worker is taken for a chunk at a time: two recordings that are heard at once share them, so that none is idle while
//! one recording begins or ends.

use super::chunks::{Chunk, Packer};
use super::engine::{Engine, Segments};
use super::gather::{Gatherer, Reading};
use super::workers::Workers;
use super::{HearError, Progress, SecondPass, opening};
use crate::model::digest;
use crate::speech::Transcript;
use crate::speech::sound::{Recording, SoundError};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::mpsc::{Receiver, Sender, SyncSender, channel, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::{self, ScopedJoinHandle};

/// A chunk with its place in the recording: workers may finish out of turn.
type Waiting = (usize, Chunk);

/// What a worker tells.
enum Heard {
    /// The first words of the recording, for the screen.
    Opening(String),
    /// A chunk, with what was said in it.
    Chunk(usize, Chunk, Result<Twice, HearError>),
}

/// What was said in a chunk, and in the second pass; none where there was none.
struct Twice {
    first: Segments,
    second: Option<Segments>,
}

/// What a recording is heard with.
pub struct Engines<'a, E> {
    /// The name that the transcript gives to them.
    pub recognizer: &'a str,
    /// What all chunks are heard with.
    pub first: &'a Workers<E>,
    /// Another engine for the second pass.
    pub second: Option<&'a Workers<E>>,
    /// Which chunks get one.
    pub second_pass: SecondPass,
}

/// Hears the recording at `path`, with all workers.
///
/// # Errors
/// One sentence for a person: the file can't be read, an engine failed, or nobody speaks in it, or not in English.
pub fn hear<E: Engine>(
    path: &Path,
    engines: Engines<E>,
    progress: &mut dyn FnMut(Progress),
) -> Result<Transcript, HearError> {
    let recording = Recording::open(path)?;
    let total = recording.expected_seconds();
    let Engines { recognizer, first, second, second_pass } = engines;
    let mut gatherers = Gatherers::default();
    let (digest, reading) = thread::scope(|scope| {
        let digest = scope.spawn(|| digest_of(path));
        let (to_workers, chunks) = sync_channel(first.number());
        let (to_gatherer, results) = channel();
        let reader = scope.spawn(move || read(recording, &to_workers));
        let chunks = Arc::new(Mutex::new(chunks));
        for _ in 0..first.number() {
            let (chunks, to_gatherer) = (Arc::clone(&chunks), to_gatherer.clone());
            let worker = Worker { first, second, second_pass };
            scope.spawn(move || worker.work(&chunks, &to_gatherer));
        }
        // Only the workers hold the ends of the channels now: when they stop, so does everything.
        drop((chunks, to_gatherer));
        gatherers.gather(results, total, progress).map_err(|error| in_recording(path, error))?;
        Ok::<_, HearError>((finished(digest)?, finished(reader)?))
    })?;
    let Gatherers { first, second, had_second_pass } = gatherers;
    let mut transcript = first.finish(path, digest, reading, recognizer)?;
    if had_second_pass {
        transcript.second_pass = second.utterances();
    }
    Ok(transcript)
}

/// What is wrong, and in which recording.
fn in_recording(path: &Path, error: HearError) -> HearError {
    error.of(&path.file_name().unwrap_or(path.as_os_str()).to_string_lossy())
}

/// The SHA-256 of the recording's file.
fn digest_of(path: &Path) -> Result<String, SoundError> {
    digest::of_file(path).map_err(|cause| SoundError::Unreadable { path: path.to_owned(), cause })
}

/// Reads the recording to its end. Workers that are busy make it wait, so that little sound stands in memory.
fn read(mut recording: Recording, to_workers: &SyncSender<Waiting>) -> Result<Reading, SoundError> {
    let mut packer = Packer::new();
    let mut number = 0;
    while let Some(block) = recording.next_block()? {
        for chunk in packer.push(&block) {
            if to_workers.send((number, chunk)).is_err() {
                break;
            }
            number += 1;
        }
    }
    for (n, chunk) in packer.finish().into_iter().enumerate() {
        // Nobody listens any more only where a worker failed, and that is told in its own words.
        let _ = to_workers.send((number + n, chunk));
    }
    Ok(Reading { length: recording.seconds(), notices: recording.notices().to_vec() })
}

/// One that hears chunk after chunk.
struct Worker<'a, E> {
    first: &'a Workers<E>,
    second: Option<&'a Workers<E>>,
    second_pass: SecondPass,
}

impl<E: Engine> Worker<'_, E> {
    /// Hears chunks until there are no more, or nobody wants the results.
    fn work(&self, chunks: &Mutex<Receiver<Waiting>>, to_gatherer: &Sender<Heard>) {
        loop {
            let next = chunks.lock().unwrap_or_else(PoisonError::into_inner).recv();
            let Ok((number, chunk)) = next else { return };
            let heard = self.hear(number, &chunk.samples, to_gatherer);
            if to_gatherer.send(Heard::Chunk(number, chunk, heard)).is_err() {
                return;
            }
        }
    }

    fn hear(&self, number: usize, samples: &[f32], to_gatherer: &Sender<Heard>) -> Result<Twice, HearError> {
        let first = self.first.with(|engine| match number {
            0 => opening::hear(engine, samples, |words| {
                // Where nobody wants it, nobody wants the chunk either, and that ends the work.
                let _ = to_gatherer.send(Heard::Opening(words));
            }),
            _ => engine.hear(samples),
        })?;
        let second = self.second.filter(|_| self.second_pass.is_due(&first));
        let second = second.map(|workers| workers.with(|engine| engine.hear(samples)));
        Ok(Twice { first, second: second.transpose()? })
    }
}

/// The transcript so far, as it was heard first, and with what the second pass heard.
#[derive(Default)]
struct Gatherers {
    first: Gatherer,
    second: Gatherer,
    had_second_pass: bool,
}

impl Gatherers {
    /// Puts results in order as they come.
    fn gather(
        &mut self,
        results: Receiver<Heard>,
        total: Option<f64>,
        progress: &mut dyn FnMut(Progress),
    ) -> Result<(), HearError> {
        let mut early = BTreeMap::new();
        let mut next = 0;
        for result in results {
            match result {
                Heard::Opening(heard) => progress(Progress { done: 0.0, total, heard }),
                Heard::Chunk(number, chunk, heard) => {
                    early.insert(number, (chunk, heard?));
                }
            }
            while let Some((chunk, twice)) = early.remove(&next) {
                let heard = self.first.take(&chunk, &twice.first);
                self.had_second_pass |= twice.second.is_some();
                self.second.take(&chunk, twice.second.as_ref().unwrap_or(&twice.first));
                progress(Progress { done: chunk.end(), total, heard });
                next += 1;
            }
        }
        Ok(())
    }
}

fn finished<T>(thread: ScopedJoinHandle<'_, Result<T, SoundError>>) -> Result<T, HearError> {
    match thread.join() {
        Ok(outcome) => Ok(outcome?),
        Err(panic) => std::panic::resume_unwind(panic),
    }
}

impl From<SoundError> for HearError {
    fn from(error: SoundError) -> Self {
        match error {
            SoundError::Missing { .. } | SoundError::Unreadable { .. } => Self::Passing(error.to_string()),
            _ => Self::Recording(error.to_string()),
        }
    }
}
