//! Hearing a whole recording with any engine: one thread reads and packs, as many workers as there are ears
//! hear, and the results are put together in order. The outcome is the same whatever the number of workers.

use super::chunks::{Chunk, Packer};
use super::ear::{Ear, Token};
use super::gather::Gatherer;
use super::{HearError, Progress, Transcript, opening};
use crate::digest;
use crate::sound::{Recording, SoundError};
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
    Chunk(usize, Chunk, Result<Vec<Vec<Token>>, HearError>),
}

/// What is known of a recording once it was read to its end.
pub(super) struct Reading {
    /// Seconds.
    pub(super) length: f64,
    pub(super) notices: Vec<String>,
}

/// Hears the recording at `path`, one worker an ear; `recognizer` is the name that the transcript gives to
/// what heard it.
///
/// # Errors
/// One sentence for a person: the file can't be read, an engine failed, or nobody speaks in it, or not in English.
pub fn hear<E: Ear>(
    path: &Path,
    ears: &mut [E],
    recognizer: &str,
    progress: &mut dyn FnMut(Progress),
) -> Result<Transcript, HearError> {
    let recording = Recording::open(path)?;
    let total = recording.expected_seconds();
    let mut gatherer = Gatherer::default();
    let (digest, reading) = thread::scope(|scope| {
        let digest = scope.spawn(|| digest_of(path));
        let (to_workers, chunks) = sync_channel(ears.len());
        let (to_gatherer, results) = channel();
        let reader = scope.spawn(move || read(recording, &to_workers));
        let chunks = Arc::new(Mutex::new(chunks));
        for ear in ears {
            let (chunks, to_gatherer) = (Arc::clone(&chunks), to_gatherer.clone());
            scope.spawn(move || work(ear, &chunks, &to_gatherer));
        }
        // Only the workers hold the ends of the channels now: when they stop, so does everything.
        drop((chunks, to_gatherer));
        gather(results, &mut gatherer, total, progress)?;
        Ok::<_, HearError>((finished(digest)?, finished(reader)?))
    })?;
    gatherer.finish(path, digest, reading, recognizer)
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

/// Hears chunks until there are no more, or nobody wants the results.
fn work(ear: &mut impl Ear, chunks: &Mutex<Receiver<Waiting>>, to_gatherer: &Sender<Heard>) {
    loop {
        let next = chunks.lock().unwrap_or_else(PoisonError::into_inner).recv();
        let Ok((number, chunk)) = next else { return };
        let heard = match number {
            0 => opening::hear(ear, &chunk.samples, |words| {
                // Where nobody wants it, nobody wants the chunk either, and that ends the work.
                let _ = to_gatherer.send(Heard::Opening(words));
            }),
            _ => ear.hear(&chunk.samples),
        };
        if to_gatherer.send(Heard::Chunk(number, chunk, heard)).is_err() {
            return;
        }
    }
}

/// Puts results in order as they come.
fn gather(
    results: Receiver<Heard>,
    gatherer: &mut Gatherer,
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
        while let Some((chunk, segments)) = early.remove(&next) {
            let heard = gatherer.take(&chunk, &segments);
            progress(Progress { done: chunk.end(), total, heard });
            next += 1;
        }
    }
    Ok(())
}

fn finished<T>(thread: ScopedJoinHandle<'_, Result<T, SoundError>>) -> Result<T, HearError> {
    match thread.join() {
        Ok(outcome) => Ok(outcome?),
        Err(panic) => std::panic::resume_unwind(panic),
    }
}

impl From<SoundError> for HearError {
    fn from(error: SoundError) -> Self {
        Self(error.to_string())
    }
}
