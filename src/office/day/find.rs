//! What lies in a day's folder: recordings, and words that have no recording. Hidden files, and all that is neither, are
//! left alone. A recording is known by its ending here, so that one that is broken is told and not passed over.

use crate::output::files;
use anyhow::Context;
use std::collections::HashSet;
use std::fs::Metadata;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

/// How the names of recordings end, of kinds that are heard and of some that aren't: those are to be told.
const SOUND: [&str; 24] = [
    "wav", "wave", "m4a", "m4b", "mp4", "m4v", "mov", "aac", "mp3", "flac", "ogg", "oga", "opus", "aif",
    "aiff", "aifc", "caf", "webm", "weba", "mka", "mkv", "3gp", "amr", "wma",
];

/// How the names of words end, the fullest form first: of several by one name that one is taken.
const WORDS: [&str; 3] = [".transcript.json", ".vtt", ".srt"];

/// How the names of chapters end, which are written from a scope and are no words of a walk.
const CHAPTERS: &str = ".sides.vtt";

/// A file that may be worked on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FoundFile {
    /// Where it is.
    pub path: PathBuf,
    /// Whether it has to be heard.
    pub is_sound: bool,
    /// How it was when it was looked at.
    pub stamp: Stamp,
}

/// A file's size and time of change: as long as they stay, so do its bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    /// Bytes.
    pub size: u64,
    /// When it was changed, in nanoseconds since 1970.
    pub changed: i64,
}

impl Stamp {
    /// How the file is now.
    ///
    /// # Errors
    /// Where it isn't there, or can't be looked at.
    pub fn of(path: &Path) -> std::io::Result<Self> {
        Ok(Self::from(&path.metadata()?))
    }
}

impl From<&Metadata> for Stamp {
    fn from(file: &Metadata) -> Self {
        let changed = file.modified().unwrap_or(SystemTime::UNIX_EPOCH);
        let since = |time: SystemTime| time.duration_since(UNIX_EPOCH).map_or(0, |since| since.as_nanos());
        Self { size: file.len(), changed: i64::try_from(since(changed)).unwrap_or(i64::MAX) }
    }
}

/// The recordings and words in a folder and in the folders in it, in the natural order of their paths. What lies in
/// `but` is passed over.
///
/// # Errors
/// Where the folder, or one in it, can't be read.
pub fn find(folder: &Path, but: Option<&Path>) -> anyhow::Result<Vec<FoundFile>> {
    let mut found = Vec::new();
    walk(folder, but.and_then(|but| but.canonicalize().ok()).as_deref(), &mut found)?;
    found.sort_by(|a, b| alphanumeric_sort::compare_path(&a.path, &b.path).then_with(|| a.path.cmp(&b.path)));
    Ok(without_words_of_recordings(found))
}

fn walk(folder: &Path, but: Option<&Path>, found: &mut Vec<FoundFile>) -> anyhow::Result<()> {
    let unreadable = || format!("{}: can't be read", folder.display());
    for entry in folder.read_dir().with_context(unreadable)? {
        let entry = entry.with_context(unreadable)?;
        let (path, name) = (entry.path(), entry.file_name().to_string_lossy().into_owned());
        if name.starts_with('.') {
            continue;
        }
        // A link to a folder above would never end.
        if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
            if but.is_none() || path.canonicalize().ok().as_deref() != but {
                walk(&path, but, found)?;
            }
        } else if let Some(is_sound) = is_sound(&name) {
            // One that is gone meanwhile is no longer there to be worked on.
            let Ok(file) = path.metadata() else { continue };
            // What was put together from clips is done with the clips.
            let joined = !is_sound && crate::speech::read::head(&path).is_joined;
            if file.is_file() && !joined {
                found.push(FoundFile { stamp: Stamp::from(&file), path, is_sound });
            }
        }
    }
    Ok(())
}

/// Whether a file by that name may be worked on: that it changed is news.
pub fn may_be_one(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    !name.starts_with('.') && is_sound(&name).is_some()
}

/// Whether a file by that name is a recording, or words; none where it is neither.
fn is_sound(name: &str) -> Option<bool> {
    let lower = name.to_lowercase();
    let ending = Path::new(&lower).extension().unwrap_or_default().to_string_lossy().into_owned();
    if SOUND.contains(&ending.as_str()) {
        return Some(true);
    }
    let words = WORDS.iter().any(|words| lower.ends_with(words)) && !lower.ends_with(CHAPTERS);
    words.then_some(false)
}

/// What was heard lies beside its recording, in one form or more: it is no recording of its own.
fn without_words_of_recordings(found: Vec<FoundFile>) -> Vec<FoundFile> {
    let place = |file: &FoundFile| file.path.with_file_name(files::stem(&file.path));
    let sound: HashSet<PathBuf> = found.iter().filter(|file| file.is_sound).map(place).collect();
    let rank = |file: &FoundFile| {
        let name = file.path.to_string_lossy().to_lowercase();
        WORDS.iter().position(|words| name.ends_with(words)).unwrap_or(WORDS.len())
    };
    let mut kept: Vec<FoundFile> = Vec::new();
    let mut words: std::collections::HashMap<PathBuf, usize> = std::collections::HashMap::new();
    for file in found {
        if file.is_sound {
            kept.push(file);
            continue;
        }
        let at = place(&file);
        if sound.contains(&at) {
            continue;
        }
        match words.get(&at) {
            Some(&other) if rank(&kept[other]) <= rank(&file) => {}
            Some(&other) => kept[other] = file,
            None => {
                words.insert(at, kept.len());
                kept.push(file);
            }
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(names: &[&str]) -> Vec<String> {
        let folder = tempfile::tempdir().unwrap();
        for name in names {
            let path = folder.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, name).unwrap();
        }
        let found = find(folder.path(), Some(&folder.path().join("out"))).unwrap();
        let name = |file: FoundFile| {
            file.path.strip_prefix(folder.path()).unwrap().to_string_lossy().replace('\\', "/")
        };
        found.into_iter().map(name).collect()
    }

    #[test]
    fn recordings_and_words_without_one_in_natural_order() {
        let names = [
            "walk 10.m4a",
            "walk 2.M4A",
            "walk 2.transcript.json",
            "walk 2.vtt",
            "walk 2.scope.json",
            "notes.txt",
            "photo.jpg",
            "old/elm.transcript.json",
            "old/elm.vtt",
            "old/oak.srt",
            ".hidden.wav",
            "out/copy.wav",
            "broken.wma",
        ];
        assert_eq!(
            found(&names),
            ["broken.wma", "old/elm.transcript.json", "old/oak.srt", "walk 2.M4A", "walk 10.m4a"]
        );
    }
}
