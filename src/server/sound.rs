//! The sound of a recording, as a browser can play any stretch of it: times are those of the words. A WAV that browsers
//! know is played as it is; all else is decoded to one first, beside nothing of the user's, and gone with the server.

use super::ask::{Named, blocking};
use super::office::Office;
use super::problem::Problem;
use crate::sound;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::Response;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use tempfile::TempPath;
use tower_http::services::ServeFile;

/// Sound that was decoded, by recording.
#[derive(Default)]
pub(super) struct Sounds {
    decoded: Mutex<HashMap<String, Decoding>>,
}

/// How far the decoding of a recording is.
#[derive(Clone)]
enum Decoding {
    UnderWay,
    Ready(Playable),
    Failed(String),
}

/// A file that a browser can play.
#[derive(Clone)]
enum Playable {
    AsItIs(PathBuf),
    Decoded(Arc<TempPath>),
}

impl Sounds {
    /// How far a recording is; the first who asks sets the work going.
    fn of(&self, office: &Arc<Office>, id: &str, path: &Path, digest: Option<String>) -> Decoding {
        let mut decoded = self.decoded.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = decoded.get(id).cloned() {
            if matches!(known, Decoding::Failed(_)) {
                decoded.remove(id); // the file may be back the next time
            }
            return known;
        }
        decoded.insert(id.to_owned(), Decoding::UnderWay);
        let (office, id, path) = (Arc::clone(office), id.to_owned(), path.to_owned());
        tokio::task::spawn_blocking(move || {
            let done = match playable(&path, digest.as_deref()) {
                Ok(playable) => Decoding::Ready(playable),
                Err(error) => Decoding::Failed(format!("{error:#}")),
            };
            office.sounds.decoded.lock().unwrap_or_else(PoisonError::into_inner).insert(id, done);
        });
        Decoding::UnderWay
    }
}

/// `digest`: that of the recording the words came from.
fn playable(path: &Path, digest: Option<&str>) -> anyhow::Result<Playable> {
    if digest.is_some_and(|digest| crate::digest::of_file(path).is_ok_and(|found| found != digest)) {
        anyhow::bail!("this is not the recording that was drafted: the file has changed");
    }
    if hound::WavReader::open(path).is_ok_and(|wav| wav.spec().channels <= 2 && plays(wav.spec())) {
        return Ok(Playable::AsItIs(path.to_owned()));
    }
    let file = tempfile::Builder::new().prefix("eavesdraft-").suffix(".wav").tempfile()?;
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: sound::RATE as u32,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut out = hound::WavWriter::new(std::io::BufWriter::new(file.reopen()?), spec)?;
    let mut recording = sound::Recording::open(path)?;
    while let Some(block) = recording.next_block()? {
        for sample in block {
            out.write_sample((sample.clamp(-1.0, 1.0) * f32::from(i16::MAX)).round() as i16)?;
        }
    }
    out.finalize()?;
    Ok(Playable::Decoded(Arc::new(file.into_temp_path())))
}

/// Whether browsers play a WAV of this kind.
fn plays(spec: hound::WavSpec) -> bool {
    match spec.sample_format {
        hound::SampleFormat::Int => matches!(spec.bits_per_sample, 8 | 16 | 24),
        hound::SampleFormat::Float => spec.bits_per_sample == 32,
    }
}

/// `GET /api/recordings/{id}/sound`
pub(super) async fn sound(
    State(office): State<Arc<Office>>,
    Named(id): Named<String>,
    request: Request,
) -> Result<Response, Problem> {
    let decoding = blocking(move || {
        let (path, draft) =
            office.with(&id, |open| (open.drafted.recording.path.clone(), open.drafted.draft.clone()))?;
        match draft.length.is_some() && path.exists() {
            true => Ok(office.sounds.of(&office, &id, &path, draft.digest)),
            false => Err(Problem::new(StatusCode::NOT_FOUND, "there is no sound here: the words are kept")),
        }
    })
    .await?;
    let playable = match decoding {
        Decoding::UnderWay => {
            return Err(Problem::new(StatusCode::SERVICE_UNAVAILABLE, "the sound is being made ready"));
        }
        Decoding::Failed(why) => return Err(Problem::new(StatusCode::GONE, why)),
        Decoding::Ready(playable) => playable,
    };
    let path: &Path = match &playable {
        Playable::AsItIs(path) => path,
        Playable::Decoded(path) => path,
    };
    let mut served = ServeFile::new(path)
        .try_call(request)
        .await
        .map_err(|error| Problem::new(StatusCode::INTERNAL_SERVER_ERROR, error.to_string()))?
        .map(Body::new);
    if served.status().is_success() {
        served.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static("audio/wav"));
    }
    Ok(served)
}
