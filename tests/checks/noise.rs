//! How much a reviewer is asked: a question too many costs more than it finds.

use super::{asked, GRAMMAR};
use eavesdraft::checks::Question;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// Every labelled narration: its name and its words.
fn narrations() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/narrations");
    let sets = ["labelled", "first-contact", "punctuated", "captions"];
    let files = sets.iter().flat_map(|set| std::fs::read_dir(folder.join(set)).unwrap());
    let mut paths: Vec<PathBuf> = files.map(|file| file.unwrap().path()).collect();
    paths.sort();
    let read = |path: &PathBuf| {
        let label: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        (name, label["text"].as_str().unwrap().to_owned())
    };
    paths.iter().map(read).collect()
}

#[test]
fn a_walk_brings_up_few_questions() {
    let mut counts = Vec::new();
    for (name, text) in narrations() {
        let questions = asked(&text);
        for question in &questions {
            println!("{name} {:?} {}", question.kind, question.told());
        }
        counts.push((name, questions.len()));
    }
    println!("{counts:?}");
    let _ = &*GRAMMAR;
    let _: Option<Question> = None;
}
