//! Which recordings belong together. A visit is one walk around one property; whoever stops the recording on the way
//! has several clips of it. What the clips are called tells:
//!
//! - "14 Elm part 1", "14 Elm part 2", "14 Elm rear": one name, and a part of the whole;
//! - "14 Elm 1", "14 Elm 2": an address, and a count from 1 without a gap. "Elm 14" and "Elm 16" are two houses;
//! - "REC_0413", "2026-11-20 09.14", "New Recording 2": what a recorder calls things. In a folder within the day's, all
//!   of these are the clips of the property that the folder is named after; in the day's folder itself each stands for
//!   itself.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What makes one visit of several recordings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum VisitBy {
    /// Their names, as told above.
    #[default]
    Name,
    /// That they lie in one folder.
    Folder,
    /// Nothing: each recording is a visit.
    File,
}

/// Recordings of one property.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Visit {
    /// The property.
    pub name: String,
    /// The folder they lie in.
    pub folder: PathBuf,
    /// Which of the files they are, in the order they were recorded.
    pub clips: Vec<usize>,
}

/// Words for a part of a walk, behind the property's name.
const PARTS: [&str; 12] =
    ["part", "clip", "pt", "front", "rear", "back", "left", "right", "roof", "side", "elevation", "fence"];

/// What recorders and telephones call what they record.
const RECORDER: [&str; 18] = [
    "rec",
    "recording",
    "new",
    "voice",
    "audio",
    "memo",
    "note",
    "sound",
    "track",
    "video",
    "vid",
    "mov",
    "img",
    "dji",
    "untitled",
    "walk",
    "walkaround",
    "file",
];

/// A name taken apart.
#[derive(Debug, PartialEq, Eq)]
struct Name {
    /// What stays without a part and a number at its end, as it is written.
    base: String,
    /// A word for a part was at the end.
    part: bool,
    /// The number at the end.
    number: Option<u32>,
}

/// The visits that `files` are the recordings of, in their order. `day` is the folder they were all found in.
pub fn visits(files: &[PathBuf], day: &Path, by: VisitBy) -> Vec<Visit> {
    let mut folders: BTreeMap<&Path, Vec<usize>> = BTreeMap::new();
    for (n, file) in files.iter().enumerate() {
        folders.entry(file.parent().unwrap_or(day)).or_default().push(n);
    }
    let mut visits = Vec::new();
    for (folder, all) in folders {
        let groups = match by {
            VisitBy::Name => by_name(files, &all, folder, folder == day),
            VisitBy::Folder => vec![(folder_name(folder), all)],
            VisitBy::File => {
                all.into_iter().map(|n| (crate::output::files::stem(&files[n]), vec![n])).collect()
            }
        };
        visits.extend(groups.into_iter().map(|(name, clips)| Visit {
            name,
            folder: folder.to_owned(),
            clips,
        }));
    }
    visits.sort_by_key(|visit| visit.clips.first().copied());
    visits
}

fn folder_name(folder: &Path) -> String {
    let whole = folder.canonicalize().unwrap_or_else(|_| folder.to_owned());
    whole.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

fn by_name(files: &[PathBuf], all: &[usize], folder: &Path, is_day: bool) -> Vec<(String, Vec<usize>)> {
    let mut groups: BTreeMap<String, Vec<(usize, Name)>> = BTreeMap::new();
    for &n in all {
        let name = Name::of(&crate::output::files::stem(&files[n]));
        groups.entry(name.base.to_lowercase()).or_default().push((n, name));
    }
    let mut visits = Vec::new();
    let mut of_folder = Vec::new();
    for group in groups.into_values() {
        if group[0].1.is_recorders() && !is_day {
            of_folder.extend(group.iter().map(|(n, _)| *n));
        } else if belong_together(&group) {
            visits.push((group[0].1.base.clone(), group.iter().map(|(n, _)| *n).collect()));
        } else {
            visits.extend(group.iter().map(|(n, _)| (crate::output::files::stem(&files[*n]), vec![*n])));
        }
    }
    if !of_folder.is_empty() {
        // In the order of the files, whatever the recorder called them.
        of_folder.sort_unstable();
        visits.push((folder_name(folder), of_folder));
    }
    visits
}

/// Whether recordings of one name are parts of one walk.
fn belong_together(group: &[(usize, Name)]) -> bool {
    let names = || group.iter().map(|(_, name)| name);
    if group.len() < 2 || names().any(Name::is_recorders) {
        return false;
    }
    if names().filter(|name| name.part).count() + 1 >= group.len() {
        return true;
    }
    let mut numbers: Vec<u32> = names().map(|name| name.number.unwrap_or(1)).collect();
    numbers.sort_unstable();
    let is_address = group[0].1.base.contains(|c: char| c.is_ascii_digit());
    is_address && numbers.iter().zip(1..).all(|(number, n)| *number == n)
}

impl Name {
    fn of(stem: &str) -> Self {
        let (mut rest, mut part, mut number) = (trimmed(stem), false, None);
        loop {
            let digits = rest.trim_end_matches(|c: char| c.is_ascii_digit());
            let word = rest
                .rfind(|c: char| !c.is_alphabetic())
                .map_or(0, |at| at + rest[at..].chars().next().map_or(0, char::len_utf8));
            if digits.len() < rest.len() && number.is_none() {
                number = rest[digits.len()..].parse().ok();
                rest = trimmed(digits);
            } else if word > 0 && PARTS.contains(&rest[word..].to_lowercase().as_str()) {
                part = true;
                rest = trimmed(&rest[..word]);
            } else {
                return Self { base: rest.to_owned(), part, number };
            }
        }
    }

    /// Whether a recorder may have called it so: a word of its own, a side, a date, a number, or nothing.
    fn is_recorders(&self) -> bool {
        let lower = self.base.to_lowercase();
        let mut words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        words.all(|word| {
            let letters = word.trim_matches(|c: char| c.is_ascii_digit());
            letters.is_empty() || letters == "t" || RECORDER.contains(&letters) || PARTS.contains(&letters)
        })
    }
}

/// Without what stands between a name and a number.
fn trimmed(name: &str) -> &str {
    name.trim_end_matches(|c: char| {
        c.is_whitespace() || matches!(c, '-' | '_' | '.' | ',' | '(' | ')' | '#' | '[' | ']')
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grouped(files: &[&str], by: VisitBy) -> Vec<(String, Vec<String>)> {
        let paths: Vec<PathBuf> = files.iter().map(|file| Path::new("/day").join(file)).collect();
        let clips = |visit: &Visit| visit.clips.iter().map(|n| files[*n].to_owned()).collect();
        visits(&paths, Path::new("/day"), by).iter().map(|visit| (visit.name.clone(), clips(visit))).collect()
    }

    fn named(files: &[&str]) -> Vec<(String, usize)> {
        grouped(files, VisitBy::Name).into_iter().map(|(name, clips)| (name, clips.len())).collect()
    }

    fn own(name: &str) -> (String, usize) {
        (name.to_owned(), 1)
    }

    #[test]
    fn parts_of_one_name_are_one_visit() {
        assert_eq!(named(&["14 Elm part 1.m4a", "14 Elm part 2.m4a"]), [("14 Elm".to_owned(), 2)]);
        assert_eq!(named(&["14 Elm - front.m4a", "14 Elm - rear.m4a"]), [("14 Elm".to_owned(), 2)]);
        assert_eq!(named(&["14 Elm.m4a", "14 Elm (2).m4a", "14 Elm (3).m4a"]), [("14 Elm".to_owned(), 3)]);
        assert_eq!(named(&["14 Elm.m4a", "14 elm pt2.m4a"]), [("14 Elm".to_owned(), 2)]);
    }

    #[test]
    fn neighbours_and_what_a_telephone_names_are_not() {
        assert_eq!(named(&["14 Elm.m4a", "16 Elm.m4a"]), [own("14 Elm"), own("16 Elm")]);
        assert_eq!(named(&["Elm 14.m4a", "Elm 16.m4a"]), [own("Elm 14"), own("Elm 16")]);
        assert_eq!(named(&["14 Elm 2.m4a", "14 Elm 4.m4a"]), [own("14 Elm 2"), own("14 Elm 4")]);
        assert_eq!(named(&["House 1.m4a", "House 2.m4a"]), [own("House 1"), own("House 2")]);
        let recorded = ["New Recording.m4a", "New Recording 2.m4a", "REC_0413.wav", "REC_0414.wav"];
        assert!(named(&recorded).iter().all(|(_, clips)| *clips == 1));
    }

    #[test]
    fn in_a_folder_of_its_own_what_a_recorder_names_is_the_folders() {
        let files =
            ["14 Elm/REC_0413.wav", "14 Elm/REC_0415.wav", "9 Oak/20261120T091422.m4a", "a/3 Ash Rd.m4a"];
        let expected = [("14 Elm".to_owned(), 2), own("9 Oak"), own("3 Ash Rd")];
        assert_eq!(named(&files), expected);
        assert_eq!(named(&["14 Elm/front.m4a", "14 Elm/rear.m4a"]), [("14 Elm".to_owned(), 2)]);
    }

    #[test]
    fn clips_keep_the_order_of_the_files() {
        let files = ["14 Elm/2026-11-20 09.14.m4a", "14 Elm/New Recording 3.m4a", "14 Elm/front.m4a"];
        assert_eq!(grouped(&files, VisitBy::Name)[0].1, files);
    }

    #[test]
    fn the_user_may_say_what_makes_a_visit() {
        let files = ["a/3 Ash.m4a", "a/5 Ash.m4a", "b/1.m4a", "b/2.m4a"];
        let by = |by| grouped(&files, by).into_iter().map(|(name, _)| name).collect::<Vec<_>>();
        assert_eq!(by(VisitBy::Folder), ["a", "b"]);
        assert_eq!(by(VisitBy::File), ["3 Ash", "5 Ash", "1", "2"]);
    }
}
