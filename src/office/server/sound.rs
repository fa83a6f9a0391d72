//! The sound of a recording, as a browser can play any stretch of it: times are those of the words. A WAV that browsers
//! know is played as it is; all else is decoded to one first, beside nothing of the user's, and gone with the server. So
//! are the clips of a visit, one after the other, each from where it begins on the visit's line of time.

use super::app_state::AppState;
use super::ask::{Named, blocking};
use super::problem::Problem;
use crate::model::span::Moment;
use crate::model::{Clip, Draft};
use crate::office::store::{Drafted, Recording};
use crate::speech::sound;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::Response;
use std::collections::HashMap;
use std::io::{Seek, Write};
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
    fn of(&self, app: &Arc<AppState>, id: &str, clips: Vec<SoundClip>) -> Decoding {
        let mut decoded = self.decoded.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = decoded.get(id).cloned() {
            if matches!(known, Decoding::Failed(_)) {
                decoded.remove(id); // the file may be back the next time
            }
            return known;
        }
        decoded.insert(id.to_owned(), Decoding::UnderWay);
        let (app, id) = (Arc::clone(app), id.to_owned());
        tokio::task::spawn_blocking(move || {
            let done = match playable(&clips) {
                Ok(playable) => Decoding::Ready(playable),
                Err(error) => Decoding::Failed(format!("{error:#}")),
            };
            app.sounds.decoded.lock().unwrap_or_else(PoisonError::into_inner).insert(id, done);
        });
        Decoding::UnderWay
    }
}

/// A recording, or one of the clips of a visit.
struct SoundClip {
    /// What it is called where something is wrong with it.
    told: String,
    path: PathBuf,
    /// That of the recording the words came from.
    digest: Option<String>,
    /// When it begins.
    start: Moment,
}

impl SoundClip {
    /// Those of a recording, in order; one that is all of it where it has no clips.
    fn all(recording: &Recording, draft: &Draft) -> Vec<Self> {
        if draft.clips.is_empty() {
            let (path, digest) = (recording.path.clone(), draft.digest.clone());
            return vec![Self { told: "this".to_owned(), path, digest, start: Moment(0) }];
        }
        let clip = |((clip, path), number): ((&Clip, PathBuf), usize)| Self {
            told: format!("clip {number}, {},", clip.source),
            path,
            digest: clip.digest.clone(),
            start: clip.start,
        };
        draft.clips.iter().zip(recording.files_of(&draft.clips)).zip(1..).map(clip).collect()
    }

    /// Refuses a file that isn't the one that the words came from.
    fn check(&self) -> anyhow::Result<()> {
        let changed =
            |digest: &String| crate::model::digest::of_file(&self.path).is_ok_and(|found| found != *digest);
        if self.digest.as_ref().is_some_and(changed) {
            anyhow::bail!("{} isn't the recording that was drafted: the file has changed", self.told);
        }
        Ok(())
    }
}

/// Why there is nothing to play; none where every file is there.
fn missing(draft: &Draft, clips: &[SoundClip]) -> Option<String> {
    let gone = clips.iter().find(|clip| !clip.path.exists());
    match gone {
        _ if draft.length.is_none() => Some("there is no sound, only the words".to_owned()),
        Some(clip) if !draft.clips.is_empty() => {
            Some(format!("{} is missing: only the words are here", clip.told))
        }
        Some(_) => Some("there is no sound, only the words".to_owned()),
        None => None,
    }
}

/// Whether the sound of a recording is there, all of it.
pub(super) fn is_there(recording: &Recording, draft: &Draft) -> bool {
    draft.length.is_some() && recording.files_of(&draft.clips).iter().all(|file| file.exists())
}

fn playable(clips: &[SoundClip]) -> anyhow::Result<Playable> {
    clips.iter().try_for_each(SoundClip::check)?;
    if let [SoundClip { path, .. }] = clips
        && hound::WavReader::open(path).is_ok_and(|wav| wav.spec().channels <= 2 && plays(wav.spec()))
    {
        return Ok(Playable::AsItIs(path.clone()));
    }
    let file = tempfile::Builder::new().prefix("eavesdraft-").suffix(".wav").tempfile()?;
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: sound::RATE as u32,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut out = hound::WavWriter::new(std::io::BufWriter::new(file.reopen()?), spec)?;
    let ends = clips.iter().skip(1).map(|next| Some(next.start)).chain([None]);
    clips.iter().zip(ends).try_for_each(|(clip, end)| decode(clip, end, &mut out))?;
    out.finalize()?;
    Ok(Playable::Decoded(Arc::new(file.into_temp_path())))
}

/// Adds the sound of a clip, of exactly the length up to where the next one begins: what is decoded may be some samples
/// longer or shorter than what was heard.
fn decode<W: Write + Seek>(
    clip: &SoundClip,
    end: Option<Moment>,
    out: &mut hound::WavWriter<W>,
) -> anyhow::Result<()> {
    let mut left = end.map(|end| samples(end).saturating_sub(samples(clip.start)));
    let mut recording = sound::Recording::open(&clip.path)?;
    while let Some(block) = recording.next_block()? {
        let fits = left.map_or(block.len(), |left| block.len().min(left));
        for sample in &block[..fits] {
            out.write_sample((sample.clamp(-1.0, 1.0) * f32::from(i16::MAX)).round() as i16)?;
        }
        left = left.map(|left| left - fits);
        if left == Some(0) {
            break;
        }
    }
    (0..left.unwrap_or_default()).try_for_each(|_| out.write_sample(0_i16))?;
    Ok(())
}

/// How many samples there are up to a moment.
fn samples(moment: Moment) -> usize {
    moment.0 as usize * sound::RATE / 1000
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
    State(app): State<Arc<AppState>>,
    Named(id): Named<String>,
    request: Request,
) -> Result<Response, Problem> {
    let decoding = blocking(move || {
        let (clips, missing) = app.with(&id, |open| {
            let Drafted { recording, draft, .. } = &open.drafted;
            let clips = SoundClip::all(recording, draft);
            let missing = missing(draft, &clips);
            (clips, missing)
        })?;
        match missing {
            None => Ok(app.sounds.of(&app, &id, clips)),
            Some(why) => Err(Problem::new(StatusCode::NOT_FOUND, why)),
        }
    })
    .await?;
    let playable = match decoding {
        Decoding::UnderWay => {
            return Err(Problem::new(StatusCode::SERVICE_UNAVAILABLE, "the sound is being prepared"));
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
