//! Writing documents: each whole or not at all, and all of an input's or none.

use super::{FilingError, Place};
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// A document to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paper {
    /// What follows the input's name.
    pub ending: &'static str,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// What became of a document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Saved {
    /// Where it is.
    pub file: PathBuf,
    /// Where the earlier one went, if a person may have worked on it.
    pub kept: Option<PathBuf>,
}

/// A document on its way: written beside where it goes.
struct Ready {
    /// None where the same bytes are there already.
    written: Option<Written>,
    file: PathBuf,
    /// What was there before.
    earlier: Option<Vec<u8>>,
    kept: Option<PathBuf>,
}

/// Writes all papers, or changes nothing.
///
/// # Errors
/// Where a file can't be written; those already replaced are put back.
pub fn save(to: &Place, papers: &[Paper]) -> Result<Vec<Saved>, FilingError> {
    let unwritten =
        |file: &Path, e: io::Error| FilingError::Unwritten { file: file.to_owned(), why: e.to_string() };
    fs::create_dir_all(to.folder()).map_err(|e| unwritten(to.folder(), e))?;
    let ready = |paper| ready(to, paper).map_err(|e| unwritten(&to.file(paper.ending), e));
    let ready = papers.iter().map(ready).collect::<Result<Vec<Ready>, FilingError>>()?;
    let mut saved = Vec::new();
    let mut undo = Undo::default();
    for paper in ready {
        let file = paper.file.clone();
        saved.push(Saved { file: file.clone(), kept: paper.kept.clone() });
        put(paper, &mut undo).map_err(|e| unwritten(&file, e))?;
    }
    undo.forget();
    Ok(saved)
}

fn ready(to: &Place, paper: &Paper) -> io::Result<Ready> {
    let file = to.file(paper.ending);
    let earlier = match fs::read(&file) {
        Ok(bytes) => Some(bytes),
        Err(e) if e.kind() == ErrorKind::NotFound => None,
        Err(e) => return Err(e),
    };
    let same = earlier.as_ref().is_some_and(|earlier| *earlier == paper.bytes);
    let kept = (earlier.is_some() && !same && may_be_edited(paper.ending)).then(|| free_name(&file));
    let written = (!same).then(|| Written::beside(&file, &paper.bytes)).transpose()?;
    Ok(Ready { written, file, earlier, kept })
}

/// Words are what a person corrects by hand before drafting anew, the columns of a list what he adjusts, a workbook or a
/// table what an office goes on from, and labels what he strikes names from; drafts and pages come from them.
fn may_be_edited(ending: &str) -> bool {
    matches!(ending, "transcript.json" | "vtt" | "toml" | "work.xlsx" | "work.csv" | "jsonl")
}

/// The first name of `FILE~`, `FILE~2`, `FILE~3` … that is free.
fn free_name(file: &Path) -> PathBuf {
    let name = |n: u32| {
        let mut name = file.as_os_str().to_owned();
        name.push(if n == 1 { "~".to_owned() } else { format!("~{n}") });
        PathBuf::from(name)
    };
    (1..).map(name).find(|name| !name.exists()).unwrap_or_else(|| name(1))
}

/// A file on its way, gone when it is dropped before it is at its place.
struct Written {
    path: PathBuf,
    /// Locked while it is on its way.
    file: Option<File>,
}

impl Written {
    /// Writes beside where it goes. What a process left behind that was killed is written over; what another is writing
    /// is left to that.
    fn beside(to: &Path, bytes: &[u8]) -> io::Result<Self> {
        let name = to.file_name().unwrap_or_default().to_string_lossy();
        for n in 1.. {
            let number = if n == 1 { String::new() } else { format!("-{n}") };
            let path = to.with_file_name(format!(".{name}.new{number}"));
            let file = File::options().create(true).truncate(false).write(true).open(&path)?;
            match file.try_lock() {
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => continue,
                // Where files can't be locked, a name of this process's own does.
                Err(TryLockError::Error(_)) => return Self::unlocked(to, bytes),
            }
            return Self { path, file: Some(file) }.filled(bytes);
        }
        Self::unlocked(to, bytes)
    }

    fn unlocked(to: &Path, bytes: &[u8]) -> io::Result<Self> {
        let name = to.file_name().unwrap_or_default().to_string_lossy();
        let path = to.with_file_name(format!(".{name}.new-{}", std::process::id()));
        let file = File::create(&path)?;
        Self { path, file: Some(file) }.filled(bytes)
    }

    fn filled(mut self, bytes: &[u8]) -> io::Result<Self> {
        if let Some(file) = &mut self.file {
            file.set_len(0)?;
            file.write_all(bytes)?;
            // Without this a power cut may leave the name of the new file with nothing in it.
            file.sync_data()?;
        }
        Ok(self)
    }

    fn put(mut self, to: &Path) -> io::Result<()> {
        fs::rename(&self.path, to)?;
        self.file = None;
        Ok(())
    }
}

impl Drop for Written {
    fn drop(&mut self) {
        if self.file.is_some() {
            // It is on the way out with an error already.
            let _ = fs::remove_file(&self.path);
        }
    }
}

fn put(paper: Ready, undo: &mut Undo) -> io::Result<()> {
    if let Some(kept) = &paper.kept {
        fs::copy(&paper.file, kept)?;
        undo.0.push((kept.clone(), None));
    }
    let Some(written) = paper.written else { return Ok(()) };
    written.put(&paper.file)?;
    undo.0.push((paper.file, paper.earlier));
    Ok(())
}

/// What was changed and how it was before; put back when dropped.
#[derive(Default)]
struct Undo(Vec<(PathBuf, Option<Vec<u8>>)>);

impl Undo {
    fn forget(mut self) {
        self.0.clear();
    }
}

impl Drop for Undo {
    fn drop(&mut self) {
        for (file, earlier) in self.0.drain(..).rev() {
            // Already on the way out with an error: there is nobody to tell of a second one.
            let _ = match earlier {
                Some(bytes) => Written::beside(&file, &bytes).and_then(|back| back.put(&file)),
                None => fs::remove_file(file),
            };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn paper(ending: &'static str, text: &str) -> Paper {
        Paper { ending, bytes: text.as_bytes().to_vec() }
    }

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap());
        let mut names: Vec<String> = entries.collect();
        names.sort();
        names
    }

    #[test]
    fn if_one_paper_cant_be_put_none_is_changed() {
        let folder = tempfile::tempdir().unwrap();
        let place = Place::inside(folder.path(), "walk".to_owned());
        save(&place, &[paper("scope.json", "old"), paper("vtt", "old words")]).unwrap();
        fs::create_dir(place.file("scope.html")).unwrap();
        let papers = [paper("scope.json", "new"), paper("vtt", "new words"), paper("transcript.json", "{}")];
        let broken = [&papers[..], &[paper("scope.html", "page")]].concat();
        save(&place, &broken).unwrap_err();
        assert_eq!(fs::read(place.file("scope.json")).unwrap(), b"old");
        assert_eq!(names(folder.path()), ["walk.scope.html", "walk.scope.json", "walk.vtt"]);
    }

    #[test]
    fn what_was_put_before_a_failure_is_put_back() {
        let folder = tempfile::tempdir().unwrap();
        let place = Place::inside(folder.path(), "walk".to_owned());
        save(&place, &[paper("vtt", "old words")]).unwrap();
        let mut undo = Undo::default();
        put(ready(&place, &paper("vtt", "new words")).unwrap(), &mut undo).unwrap();
        put(ready(&place, &paper("scope.json", "new")).unwrap(), &mut undo).unwrap();
        assert_eq!(names(folder.path()), ["walk.scope.json", "walk.vtt", "walk.vtt~"]);
        drop(undo);
        assert_eq!(fs::read(place.file("vtt")).unwrap(), b"old words");
        assert_eq!(names(folder.path()), ["walk.vtt"]);
    }

    #[test]
    fn what_a_killed_process_left_is_written_over_and_what_another_writes_is_not() {
        let folder = tempfile::tempdir().unwrap();
        let place = Place::inside(folder.path(), "walk".to_owned());
        fs::write(folder.path().join(".walk.vtt.new"), "half of something much longer").unwrap();
        save(&place, &[paper("vtt", "words")]).unwrap();
        assert_eq!(names(folder.path()), ["walk.vtt"]);
        assert_eq!(fs::read(place.file("vtt")).unwrap(), b"words");
        let other = Written::beside(&place.file("vtt"), b"another's").unwrap();
        save(&place, &[paper("vtt", "more words")]).unwrap();
        other.put(&place.file("vtt")).unwrap();
        assert_eq!(fs::read(place.file("vtt")).unwrap(), b"another's");
    }

    #[test]
    fn words_that_a_person_may_have_corrected_are_kept() {
        let folder = tempfile::tempdir().unwrap();
        let place = Place::inside(folder.path(), "walk".to_owned());
        for text in ["heard", "corrected", "heard", "heard"] {
            save(&place, &[paper("transcript.json", text)]).unwrap();
        }
        let kept = ["walk.transcript.json", "walk.transcript.json~", "walk.transcript.json~2"];
        assert_eq!(names(folder.path()), kept);
        assert_eq!(fs::read(folder.path().join(kept[2])).unwrap(), b"corrected");
    }
}
