//! Finding out what packed sound is: its container, its sound track, its decoder.

use super::{SoundError, mp4};
use std::fs::File;
use std::io::{ErrorKind, Read, Seek, SeekFrom};
use std::path::Path;
use std::sync::LazyLock;
use symphonia::core::codecs::CodecParameters;
use symphonia::core::codecs::audio::{AudioCodecParameters, AudioDecoder, AudioDecoderOptions};
use symphonia::core::codecs::registry::CodecRegistry;
use symphonia::core::errors::Error;
use symphonia::core::formats::probe::Hint;
use symphonia::core::formats::{FormatOptions, FormatReader, Track, TrackType};
use symphonia::core::io::{MediaSource, MediaSourceStream};
use symphonia::core::meta::MetadataOptions;

/// How the library's messages begin where no container is known, and where an MP4 has no index.
const NO_CONTAINER: &str = "core (probe)";
const NO_INDEX: &str = "isomp4: missing moov";

static CODECS: LazyLock<CodecRegistry> = LazyLock::new(|| {
    let mut codecs = CodecRegistry::new();
    symphonia::default::register_enabled_codecs(&mut codecs);
    #[cfg(feature = "opus")]
    codecs.register_audio_decoder::<symphonia_adapter_libopus::OpusDecoder>();
    codecs
});

/// Finds the container that `file` is.
pub(super) fn container(mut file: File, path: &Path) -> Result<Box<dyn FormatReader>, SoundError> {
    let unreadable = |cause| SoundError::Unreadable { path: path.to_owned(), cause };
    let mut head = Vec::new();
    (&mut file).take(12).read_to_end(&mut head).map_err(unreadable)?;
    file.seek(SeekFrom::Start(0)).map_err(unreadable)?;
    let boxed = mp4::is_boxed(&head);
    let source: Box<dyn MediaSource> = match boxed {
        true => Box::new(mp4::Claimed::new(file).map_err(unreadable)?),
        false => Box::new(file),
    };
    let stream = MediaSourceStream::new(source, Default::default());
    symphonia::default::get_probe()
        .probe(&Hint::new(), stream, FormatOptions::default(), MetadataOptions::default())
        .map_err(|error| refused(error, boxed, path))
}

/// Why a file was not taken; `boxed` files that end too early have lost the index at their end.
fn refused(error: Error, boxed: bool, path: &Path) -> SoundError {
    let path = path.to_owned();
    match error {
        Error::Unsupported(what) if what.starts_with(NO_CONTAINER) => {
            SoundError::NotSound { path, found: "it begins like nothing known".to_owned() }
        }
        Error::Unsupported(what) if !what.starts_with(NO_INDEX) => {
            SoundError::Unsupported { path, found: what.to_owned() }
        }
        Error::IoError(cause) if cause.kind() != ErrorKind::UnexpectedEof => {
            SoundError::Unreadable { path, cause }
        }
        Error::IoError(_) | Error::Unsupported(_) => {
            let reason = match boxed {
                true => "its index is missing, as the recording was never finished or the copy was cut off",
                false => "it ends before any sound",
            };
            SoundError::BrokenHeader { path, reason: reason.to_owned() }
        }
        other => SoundError::BrokenHeader { path, reason: other.to_string() },
    }
}

/// The track that is heard: the first with sound of a known kind.
pub(super) fn sound_track(container: &dyn FormatReader, path: &Path) -> Result<Track, SoundError> {
    let known = container.first_track_known_codec(TrackType::Audio);
    let track = known.or(container.default_track(TrackType::Audio));
    track.cloned().ok_or_else(|| SoundError::NoSoundTrack { path: path.to_owned() })
}

/// A decoder for the track.
pub(super) fn decoder(track: &Track, path: &Path) -> Result<Box<dyn AudioDecoder>, SoundError> {
    let unsupported =
        || SoundError::Unsupported { path: path.to_owned(), found: "there is no decoder for it".to_owned() };
    let params = audio(track).ok_or_else(unsupported)?;
    CODECS.make_audio_decoder(params, &AudioDecoderOptions::default()).map_err(|_| unsupported())
}

/// What the container says about the track's sound.
pub(super) fn audio(track: &Track) -> Option<&AudioCodecParameters> {
    track.codec_params.as_ref().and_then(CodecParameters::audio)
}

/// The length of a track, in seconds.
pub(super) struct Length {
    pub(super) seconds: f64,
    /// The file says so; otherwise it was guessed from the bit rate.
    pub(super) is_told: bool,
}

/// How long the track should be. MP3 and bare AAC have no length of their own unless an encoder added one,
/// which then also tells the silence it put in front.
pub(super) fn length(container: &dyn FormatReader, track: &Track) -> Option<Length> {
    let by_clock = || Some(track.time_base?.calc_duration(track.duration?)?.as_secs_f64());
    let by_frames = || Some(track.num_frames? as f64 / f64::from(audio(track)?.sample_rate?));
    let bare = matches!(container.format_info().short_name, "mp1" | "mp2" | "mp3" | "aac");
    let seconds = by_clock().or_else(by_frames)?;
    Some(Length { seconds, is_told: !bare || track.delay.is_some() })
}
