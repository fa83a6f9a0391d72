//! Hearing a whole recording with any engine: one thread reads and packs, as many workers as there are ears
//! hear, and the results are put together in order. The outcome is the same whatever the number of workers.
//!
//! Ears are taken for a chunk at a time: two recordings that are heard at once share them, so that none is idle while
//! one recording begins or ends.

use super::chunks::{Chunk, Packer};
use super::doubt::Again;
use super::ear::{Ear, Segments};
use super::gather::Gatherer;
use super::shared::Shared;
use super::{HearError, Progress, Transcript, opening};
use crate::model::digest;
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

/// What was said in a chunk, and how the second ear heard it; none where it wasn't asked.
struct Twice {
    first: Segments,
    second: Option<Segments>,
}

/// What a recording is heard with.
pub struct Ears<'a, E> {
    /// The name that the transcript gives to them.
    pub recognizer: &'a str,
    /// What all chunks are heard with.
    pub first: &'a Shared<E>,
    /// Another engine, which hears some chunks once more.
    pub second: Option<&'a Shared<E>>,
    /// Which chunks it hears.
    pub again: Again,
}

/// What is known of a recording once it was read to its end.
pub(super) struct Reading {
    /// Seconds.
    pub(super) length: f64,
    pub(super) notices: Vec<String>,
}

/// Hears the recording at `path`, one worker an ear.
///
/// # Errors
/// One sentence for a person: the file can't be read, an engine failed, or nobody speaks in it, or not in English.
pub fn hear<E: Ear>(
    path: &Path,
    ears: Ears<E>,
    progress: &mut dyn FnMut(Progress),
) -> Result<Transcript, HearError> {
    let recording = Recording::open(path)?;
    let total = recording.expected_seconds();
    let Ears { recognizer, first, second, again } = ears;
    let mut gatherers = Gatherers::default();
    let (digest, reading) = thread::scope(|scope| {
        let digest = scope.spawn(|| digest_of(path));
        let (to_workers, chunks) = sync_channel(first.number());
        let (to_gatherer, results) = channel();
        let reader = scope.spawn(move || read(recording, &to_workers));
        let chunks = Arc::new(Mutex::new(chunks));
        for _ in 0..first.number() {
            let (chunks, to_gatherer) = (Arc::clone(&chunks), to_gatherer.clone());
            let worker = Worker { first, second, again };
            scope.spawn(move || worker.work(&chunks, &to_gatherer));
        }
        // Only the workers hold the ends of the channels now: when they stop, so does everything.
        drop((chunks, to_gatherer));
        gatherers.gather(results, total, progress).map_err(|error| in_recording(path, error))?;
        Ok::<_, HearError>((finished(digest)?, finished(reader)?))
    })?;
    let Gatherers { first, second, heard_again } = gatherers;
    let mut transcript = first.finish(path, digest, reading, recognizer)?;
    if heard_again {
        transcript.heard_again = second.utterances();
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
    first: &'a Shared<E>,
    second: Option<&'a Shared<E>>,
    again: Again,
}

impl<E: Ear> Worker<'_, E> {
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
        let first = self.first.with(|ear| match number {
            0 => opening::hear(ear, samples, |words| {
                // Where nobody wants it, nobody wants the chunk either, and that ends the work.
                let _ = to_gatherer.send(Heard::Opening(words));
            }),
            _ => ear.hear(samples),
        })?;
        let second = self.second.filter(|_| self.again.wanted(&first));
        let second = second.map(|ears| ears.with(|ear| ear.hear(samples)));
        Ok(Twice { first, second: second.transpose()? })
    }
}

/// The transcript so far, as it was heard first, and as it was heard again where it was.
#[derive(Default)]
struct Gatherers {
    first: Gatherer,
    second: Gatherer,
    heard_again: bool,
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
                self.heard_again |= twice.second.is_some();
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
