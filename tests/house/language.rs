//! What holds for the rooms from words to what was understood: each knows only those before it, and up to the pieces none
//! holds a narrator's words.

use super::source::Source;
use super::{SOURCES, told};

/// The rooms of `language`, each knowing only those before it.
const ORDER: [&str; 13] = [
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
    "reader",
    "trial",
];

/// Rooms in whose code no word of a narrator stands.
const WITHOUT_WORDS: [&str; 7] =
    ["tokens", "numbers", "phrases", "asr_correction", "punctuation", "mentions", "pieces"];

/// Words in code that are not a narrator's, by file, with the reason.
const EXCEPTIONS: [(&str, &[&str], &str); 9] = [
    ("language/asr_correction/weigh.rs", &[], "names of the clues, as the table of weights has them"),
    ("language/mentions/unknown/counted.rs", &["ed", "ing", "ly"], "endings, of words that no list holds"),
    ("language/numbers/spoken.rs", &["st", "nd", "rd", "th"], "how ordinals are written in digits"),
    (
        "language/numbers/written.rs",
        &["x", "by", "in", "inches"],
        "what is typed, read before any rules are at hand",
    ),
    ("language/pieces/told.rs", &[], "names for readers of the pieces"),
    ("language/punctuation/chunks.rs", &[], "names of the clues, as the table of weights has them"),
    (
        "language/punctuation/clues.rs",
        &["um", "nothing"],
        "names of the clues, as the table of weights has them",
    ),
    ("language/tokens/mod.rs", &["abbreviation"], "the name of a class"),
    ("language/tokens/split.rs", &["t"], "how \"not\" is written where it is cut short"),
];

/// The files of a room of `language`.
fn files(room: &str) -> impl Iterator<Item = &'static Source> {
    SOURCES.iter().filter(move |source| source.module.len() > 1 && source.module[..2] == ["language", room])
}

#[test]
fn each_room_of_language_knows_only_those_before_it() {
    let later = ORDER.iter().enumerate().flat_map(|(place, room)| {
        let named = files(room).flat_map(|source| source.names.iter().map(move |name| (source, name)));
        named.filter(move |(_, name)| {
            name.len() > 1 && name[0] == "language" && ORDER[place + 1..].contains(&name[1].as_str())
        })
    });
    assert_eq!(told(later.map(|(source, name)| format!("{} names {}", source.path, name.join("::")))), "");
    let unknown = SOURCES.iter().filter(|s| s.room() == "language" && s.module.len() > 1);
    let unknown = unknown.filter(|source| !ORDER.contains(&source.module[1].as_str()));
    assert_eq!(told(unknown.map(|source| format!("{} stands in no room of `language`", source.path))), "");
}

/// The texts between double quotes.
fn literals(code: &str) -> Vec<String> {
    let bare = code.lines().map(|line| line.split("//").next().unwrap_or_default());
    let code = bare.collect::<Vec<_>>().join("\n").replace("'\"'", "").replace("\\\"", "");
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
    let odd = WITHOUT_WORDS.iter().flat_map(|room| files(room)).flat_map(|source| {
        let allowed = EXCEPTIONS.iter().find(|(file, ..)| *file == source.path);
        let is_odd = move |word: &String| {
            allowed.is_none_or(|(_, words, _)| !words.is_empty() && !words.contains(&word.as_str()))
        };
        let said = literals(&source.code).into_iter().filter(|literal| is_said(literal));
        said.filter(is_odd)
            .map(|word| format!("{} holds \"{word}\": make it a class, or a rule", source.path))
    });
    assert_eq!(told(odd), "");
}

#[test]
fn every_exception_is_still_needed() {
    for (file, words, reason) in EXCEPTIONS {
        let held = SOURCES.iter().find(|source| source.path == file).map(|source| literals(&source.code));
        let held = held.unwrap_or_default();
        assert!(held.iter().any(|literal| is_said(literal)), "{file}: {reason}");
        let gone: Vec<_> = words.iter().filter(|word| !held.iter().any(|l| l == *word)).collect();
        assert!(gone.is_empty(), "{file} no longer holds {gone:?}");
    }
}
