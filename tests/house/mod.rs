//! What holds for the code as a whole, read from the files of `src`: which room may know which, how long a file may be,
//! and what only one place does.

mod circles;
mod crates;
mod language;
mod source;

use circles::circles;
use source::{Source, sources};
use std::sync::LazyLock;

static SOURCES: LazyLock<Vec<Source>> = LazyLock::new(sources);

/// The rooms. Each knows only those before it.
const ROOMS: [&str; 8] = ["model", "speech", "language", "scope", "output", "pipeline", "office", "cli"];

/// The lines of a file before its tests, at most.
const LONGEST: usize = 300;

/// Files that are longer and wait for their turn.
const STILL_LONGER: [&str; 8] = [
    "language/discourse/amounts.rs",
    "language/discourse/corefer.rs",
    "language/discourse/counts.rs",
    "language/discourse/dimensions.rs",
    "language/discourse/place.rs",
    "language/discourse/sides.rs",
    "language/discourse/things.rs",
    "language/discourse/tracker.rs",
];

/// What stands only in certain folders or files, by how it is written.
const ONLY_IN: [(&str, &[&str]); 16] = [
    ("println!", &[]),
    ("stdout()", &["cli/terminal/"]),
    ("stderr()", &["cli/terminal/"]),
    ("std::io::stderr", &["cli/terminal/"]),
    ("whisper_rs", &["speech/recognition/whisper.rs"]),
    ("symphonia::", &["speech/sound/"]),
    ("hound::", &["speech/sound/", "office/server/sound.rs"]),
    ("rusqlite::", &["office/store/"]),
    ("axum::", &["office/server/"]),
    ("object_store::", &["office/pool/"]),
    ("krilla::", &["output/pdf/"]),
    ("rust_xlsxwriter::", &["output/workbook/"]),
    ("calamine::", &["scope/compare/"]),
    ("indicatif::", &["cli/terminal/"]),
    ("::now()", &["office/", "cli/"]),
    ("process::exit", &[]),
];

/// What makes, changes or removes files.
const WRITES: [&str; 8] = [
    "fs::write(",
    "fs::rename(",
    "fs::copy(",
    "fs::remove",
    "create_dir",
    "File::create",
    "File::options()",
    "OpenOptions::new()",
];

/// Where files are written: documents, models, the store, pools, the lock of a day, and a folder for papers.
const WRITERS: [&str; 6] = [
    "output/files/",
    "speech/models/",
    "office/store/",
    "office/pool/",
    "office/day/lock.rs",
    "cli/papers.rs",
];

/// All offenders as one text, a line each, to be compared with none.
fn told(offenders: impl Iterator<Item = String>) -> String {
    offenders.collect::<Vec<_>>().join("\n")
}

fn rank(room: &str) -> Option<usize> {
    ROOMS.iter().position(|one| *one == room)
}

#[test]
fn a_room_knows_only_those_before_it() {
    let named = SOURCES.iter().flat_map(|source| source.names.iter().map(move |name| (source, name)));
    let backward =
        named.filter(|(source, name)| rank(source.room()) < name.first().and_then(|room| rank(room)));
    let backward = backward.filter(|(source, _)| rank(source.room()).is_some());
    assert_eq!(told(backward.map(|(source, name)| format!("{} names {}", source.path, name.join("::")))), "");
}

#[test]
fn every_file_stands_in_a_room() {
    let strays = SOURCES.iter().filter(|source| !source.module.is_empty() && rank(source.room()).is_none());
    assert_eq!(told(strays.map(|source| source.path.clone())), "");
}

#[test]
fn folders_of_a_room_know_each_other_one_way() {
    assert_eq!(told(circles(&SOURCES).into_iter()), "");
}

#[test]
fn a_file_has_300_lines_at_most() {
    let long =
        SOURCES.iter().filter(|source| source.lines > LONGEST && !STILL_LONGER.contains(&&*source.path));
    assert_eq!(told(long.map(|source| format!("{} has {}", source.path, source.lines))), "");
    let done = |path: &&&str| SOURCES.iter().all(|source| source.path != ***path || source.lines <= LONGEST);
    assert_eq!(told(STILL_LONGER.iter().filter(done).map(|path| format!("{path} needs no leave"))), "");
}

#[test]
fn what_one_place_does_no_other_does() {
    let elsewhere = ONLY_IN.iter().flat_map(|(text, places)| {
        let stands = |source: &&Source| places.iter().any(|place| source.path.starts_with(place));
        let others =
            SOURCES.iter().filter(|source| source.code.contains(text)).filter(|source| !stands(source));
        others.map(|source| format!("{} has `{text}`", source.path)).collect::<Vec<_>>()
    });
    assert_eq!(told(elsewhere), "");
    let gone = ONLY_IN.iter().filter(|(text, places)| {
        !places.is_empty() && !SOURCES.iter().any(|source| source.code.contains(text))
    });
    assert_eq!(told(gone.map(|(text, _)| format!("nothing has `{text}` any more"))), "");
}

#[test]
fn only_what_keeps_things_writes_files() {
    let others = SOURCES.iter().filter(|source| !WRITERS.iter().any(|place| source.path.starts_with(place)));
    let writes = others.flat_map(|source| {
        let found = WRITES.iter().filter(|text| source.code.contains(**text));
        found.map(|text| format!("{} has `{text}`", source.path))
    });
    assert_eq!(told(writes), "");
}

#[test]
fn what_understands_words_knows_nothing_of_sound() {
    let known = ["Transcript", "Utterance", "Word", "transcript"];
    let rooms = ["language", "scope"];
    let named = SOURCES.iter().filter(|source| rooms.contains(&source.room()));
    let named = named.flat_map(|source| source.names.iter().map(move |name| (source, name)));
    let of_speech = named.filter(|(_, name)| name.first().is_some_and(|room| room == "speech"));
    let others =
        of_speech.filter(|(_, name)| name.get(1).is_some_and(|thing| !known.contains(&thing.as_str())));
    assert_eq!(told(others.map(|(source, name)| format!("{} names {}", source.path, name.join("::")))), "");
}
