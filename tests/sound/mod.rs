//! Sound files of every kind that is read, and a folder for every kind of failure.

use eavesdraft::speech::sound::{RATE, Recording, SoundError, clock};
use std::path::{Path, PathBuf};

fn fixture(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("audio-fixtures/formats").join(name)
}

/// The whole recording, and what is to be said about it.
fn read(path: &Path) -> Result<(Vec<f32>, Vec<String>), SoundError> {
    let mut recording = Recording::open(path)?;
    let mut sound = Vec::new();
    while let Some(block) = recording.next_block()? {
        sound.extend(block);
    }
    assert_eq!(recording.seconds(), sound.len() as f64 / RATE as f64);
    Ok((sound, recording.notices().to_vec()))
}

/// Loudness in steps of 20 ms: what two encodings of one sound share.
fn loudness(sound: &[f32]) -> Vec<f32> {
    sound
        .chunks(RATE / 50)
        .map(|step| (step.iter().map(|s| s * s).sum::<f32>() / step.len() as f32).sqrt())
        .collect()
}

/// How alike two sounds are in loudness, from -1 to 1, where one may be up to 50 ms late: some encoders put
/// silence in front.
fn likeness(a: &[f32], b: &[f32]) -> f32 {
    let late = (0..=50).map(|ms| correlation(&loudness(a), &loudness(&b[ms * RATE / 1000..])));
    late.fold(-1.0, f32::max)
}

/// Pearson's correlation.
fn correlation(a: &[f32], b: &[f32]) -> f32 {
    let n = a.len().min(b.len());
    let mean = |x: &[f32]| x[..n].iter().sum::<f32>() / n as f32;
    let (mean_a, mean_b) = (mean(a), mean(b));
    let product =
        |x: &[f32], mx: f32, y: &[f32], my: f32| (0..n).map(|i| (x[i] - mx) * (y[i] - my)).sum::<f32>();
    product(a, mean_a, b, mean_b) / (product(a, mean_a, a, mean_a) * product(b, mean_b, b, mean_b)).sqrt()
}

/// Every file in the folder holds the same sentence as the FLAC file, which loses nothing.
#[track_caller]
fn says_the_same(name: &str) {
    let (wanted, _) = read(&fixture("flac.flac")).unwrap();
    let (sound, notices) = read(&fixture(name)).unwrap();
    let seconds = sound.len() as f64 / RATE as f64;
    assert!((seconds - 2.355).abs() < 0.1, "{name} lasts {seconds} s");
    let likeness = likeness(&wanted, &sound);
    assert!(likeness > 0.98, "{name} is like the original by {likeness}");
    assert!(notices.is_empty(), "{name}: {notices:?}");
}

#[test]
fn aac_is_read() {
    says_the_same("aac.m4a");
}

#[test]
fn alac_is_read() {
    says_the_same("alac.m4a");
}

#[test]
fn mp3_is_read() {
    says_the_same("mp3.mp3");
}

#[test]
fn vorbis_is_read() {
    says_the_same("vorbis.ogg");
}

#[cfg(feature = "opus")]
#[test]
fn opus_is_read() {
    says_the_same("opus.ogg");
    says_the_same("opus.webm");
}

#[test]
fn the_sound_of_a_video_is_read() {
    says_the_same("video.mp4");
    says_the_same("video.mov");
}

#[test]
fn packed_wav_is_read() {
    says_the_same("mulaw.wav");
}

/// The name doesn't count: the same files under names that lie.
#[test]
fn a_file_is_known_by_its_content() {
    let folder = tempfile::tempdir().unwrap();
    for (name, lie) in
        [("aac.m4a", "a.mp3"), ("mp3.mp3", "b.wav"), ("mulaw.wav", "c.m4a"), ("flac.flac", "d")]
    {
        let path = folder.path().join(lie);
        std::fs::copy(fixture(name), &path).unwrap();
        assert_eq!(read(&path).unwrap(), read(&fixture(name)).unwrap(), "{name} named {lie}");
    }
}

/// Each kind of file, cut off after two thirds of its bytes, gives its first part and says so.
#[test]
fn a_file_that_is_cut_off_gives_what_there_is() {
    let folder = tempfile::tempdir().unwrap();
    let (whole, _) = read(&fixture("flac.flac")).unwrap();
    for name in ["aac.m4a", "mp3.mp3", "vorbis.ogg", "flac.flac", "mulaw.wav"] {
        let bytes = std::fs::read(fixture(name)).unwrap();
        let path = folder.path().join(name);
        std::fs::write(&path, &bytes[..bytes.len() * 2 / 3]).unwrap();
        let (sound, notices) = read(&path).unwrap();
        let share = sound.len() as f32 / whole.len() as f32;
        assert!((0.3..0.8).contains(&share), "{name}: {share} of the sound");
        let until = clock(sound.len() as f64 / RATE as f64);
        assert!(notices.iter().any(|n| n.contains(&format!("heard up to {until}"))), "{name}: {notices:?}");
    }
}

/// A folder for each kind of failure, with the whole message beside the file.
#[test]
fn what_can_t_be_read_is_told_in_one_sentence() {
    let folders = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/broken-sound");
    let mut wrong = Vec::new();
    for folder in std::fs::read_dir(&folders).unwrap() {
        let folder = folder.unwrap().path();
        let file = std::fs::read_dir(&folder).unwrap().map(|f| f.unwrap().path());
        let file = file.into_iter().find(|f| f.file_stem().unwrap() == "walk").unwrap();
        let message = match read(&file) {
            Ok((sound, _)) => format!("no error, {} samples", sound.len()),
            Err(error) => error
                .to_string()
                .replace(&*file.to_string_lossy(), file.file_name().unwrap().to_str().unwrap()),
        };
        let wanted = std::fs::read_to_string(folder.join("message.txt")).unwrap_or_default();
        if message != wanted.trim_end() {
            wrong.push(format!("{}\n  wanted: {}\n  got:    {message}", folder.display(), wanted.trim_end()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_missing_file_and_a_folder_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let missing = folder.path().join("walk.m4a");
    let message = Recording::open(&missing).err().unwrap().to_string();
    assert_eq!(message, format!("there is no file `{}`; check its name and folder", missing.display()));
    let message = Recording::open(folder.path()).err().unwrap().to_string();
    assert!(
        message.starts_with(&format!("`{}` is a folder, not a recording", folder.path().display())),
        "{message}"
    );
}

/// A hole in the middle: what comes after it keeps its time, and a notice tells what was lost.
#[test]
fn a_damaged_middle_is_silence() {
    let folder = tempfile::tempdir().unwrap();
    let (whole, _) = read(&fixture("aac.m4a")).unwrap();
    let mut bytes = std::fs::read(fixture("aac.m4a")).unwrap();
    let hole = bytes.len() / 2..bytes.len() / 2 + 600;
    bytes[hole].fill(0x55);
    let path = folder.path().join("aac.m4a");
    std::fs::write(&path, &bytes).unwrap();
    let (sound, notices) = read(&path).unwrap();
    assert!(sound.len().abs_diff(whole.len()) < RATE / 10, "{} samples of {}", sound.len(), whole.len());
    assert!(notices.iter().any(|n| n.contains("damaged and was taken as silence")), "{notices:?}");
}
