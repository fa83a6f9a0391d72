//! What holds for the rooms from words to pieces: each knows only those before it, and none holds a narrator's words.

use crate::language::rules::Grammar;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// The built-in rules, read once for all tests of these rooms.
pub(in crate::language) static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());

/// The rooms, each knowing only those before it.
const ORDER: [&str; 12] = [
    "phonetics",
    "vocabulary",
    "tokens",
    "rules",
    "numbers",
    "phrases",
    "asr_correction",
    "punctuation",
    "mentions",
    "pieces",
    "discourse",
    "trial",
];

/// Rooms in whose code no word of a narrator stands.
const WITHOUT_WORDS: [&str; 7] =
    ["tokens", "numbers", "phrases", "asr_correction", "punctuation", "mentions", "pieces"];

/// Words in code that are not a narrator's, by file, with the reason.
const EXCEPTIONS: [(&str, &[&str], &str); 9] = [
    ("asr_correction/weigh.rs", &[], "names of the clues, as the table of weights has them"),
    ("mentions/unknown/counted.rs", &["ed", "ing", "ly"], "endings, of words that no list holds"),
    ("numbers/spoken.rs", &["st", "nd", "rd", "th"], "how ordinals are written in digits"),
    ("numbers/written.rs", &["x", "by", "in", "inches"], "what is typed, read before any rules are at hand"),
    ("pieces/told.rs", &[], "names for readers of the pieces"),
    ("punctuation/chunks.rs", &[], "names of the clues, as the table of weights has them"),
    ("punctuation/clues.rs", &["um", "nothing"], "names of the clues, as the table of weights has them"),
    ("tokens/mod.rs", &["abbreviation"], "the name of a class"),
    ("tokens/split.rs", &["t"], "how \"not\" is written where it is cut short"),
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src/language")
}

/// The code of a room by file, without its comments and tests.
fn code(room: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut waiting = vec![root().join(room), root().join(format!("{room}.rs"))];
    while let Some(path) = waiting.pop() {
        if path.is_dir() {
            waiting.extend(fs::read_dir(&path).unwrap().map(|entry| entry.unwrap().path()));
        } else if path.extension().is_some_and(|kind| kind == "rs") && path.exists() {
            let text = fs::read_to_string(&path).unwrap();
            let code = text.split("#[cfg(test)]").next().unwrap_or_default();
            let bare = code.lines().map(|line| line.split("//").next().unwrap_or_default());
            let name = path.strip_prefix(root()).unwrap().display().to_string();
            let code = bare.collect::<Vec<_>>().join("\n");
            let at_door = name == format!("{room}.rs") || name == format!("{room}/mod.rs");
            found.push((name, if at_door { code.replace("super::", "language::") } else { code }));
        }
    }
    assert!(!found.is_empty(), "{room}");
    found.sort();
    found
}

/// The rooms that a piece of code names: `language::numbers`, `language::{mentions, phrases}`.
fn named(code: &str) -> BTreeSet<&'static str> {
    let after = code.split("language::").skip(1);
    let lists = after.map(|rest| match rest.strip_prefix('{') {
        Some(list) => list.split('}').next().unwrap_or_default(),
        None => rest.split(|c: char| !(c.is_alphanumeric() || c == '_')).next().unwrap_or_default(),
    });
    let names = lists.flat_map(|list| list.split([',', ':', ' ', '\n'])).map(str::trim);
    names.filter_map(|name| ORDER.into_iter().find(|room| *room == name)).collect()
}

#[test]
fn each_room_knows_only_those_before_it() {
    for (place, room) in ORDER.iter().enumerate() {
        for (file, code) in code(room) {
            let later: Vec<_> =
                named(&code).into_iter().filter(|name| ORDER[place + 1..].contains(name)).collect();
            assert!(later.is_empty(), "{file} names {later:?}, which stand behind `{room}`");
        }
    }
}

#[test]
fn rooms_are_seen_in_every_form_of_an_import() {
    let code =
        "use crate::language::{asr_correction, mentions::{self, Kind}};\ncrate::language::numbers::Exact";
    assert_eq!(named(code), BTreeSet::from(["asr_correction", "mentions", "numbers"]));
}

/// The texts between double quotes.
fn literals(code: &str) -> Vec<String> {
    let code = code.replace("'\"'", "").replace("\\\"", "");
    code.split('"').skip(1).step_by(2).map(str::to_owned).collect()
}

/// Whether a text is made of words as a narrator says them.
fn is_said(literal: &str) -> bool {
    let letters = |c: char| c.is_ascii_lowercase() || c == '\'';
    literal.chars().any(|c| c.is_ascii_lowercase())
        && literal.split(' ').all(|word| word.chars().all(letters))
}

#[test]
fn no_word_of_a_narrator_stands_in_code() {
    for room in WITHOUT_WORDS {
        for (file, code) in code(room) {
            let allowed = EXCEPTIONS.iter().find(|(excepted, ..)| *excepted == file);
            let said = literals(&code).into_iter().filter(|literal| is_said(literal));
            let odd: Vec<String> = said
                .filter(|word| {
                    allowed.is_none_or(|(_, words, _)| !words.is_empty() && !words.contains(&word.as_str()))
                })
                .collect();
            assert!(
                odd.is_empty(),
                "{file} holds {odd:?}: a class of words, or a rule, is the place for them"
            );
        }
    }
}

#[test]
fn every_exception_is_still_needed() {
    for (file, words, reason) in EXCEPTIONS {
        let room = file.split('/').next().unwrap();
        let (_, code) = code(room).into_iter().find(|(name, _)| name == file).unwrap();
        let held = literals(&code);
        assert!(held.iter().any(|literal| is_said(literal)), "{file}: {reason}");
        let gone: Vec<_> = words.iter().filter(|word| !held.iter().any(|l| l == *word)).collect();
        assert!(gone.is_empty(), "{file} no longer holds {gone:?}");
    }
}
