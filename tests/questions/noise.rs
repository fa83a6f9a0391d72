//! How much a reviewer is asked: a question too many costs more than it finds.

use super::asked;
use eavesdraft::scope::questions::{Kind, Question};
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

/// What is measured here is told in README.md.
#[test]
fn a_walk_brings_up_few_questions() {
    let walks: Vec<(String, Vec<Question>)> =
        narrations().into_iter().map(|(name, text)| (name, asked(&text))).collect();
    for (name, questions) in &walks {
        questions.iter().for_each(|question| println!("{name} {:?} {}", question.kind, question.told()));
    }
    let all: usize = walks.iter().map(|(_, questions)| questions.len()).sum();
    let beside_needs: usize =
        walks.iter().flat_map(|(_, all)| all).filter(|question| question.kind != Kind::NotMentioned).count();
    let most = walks.iter().map(|(_, questions)| questions.len()).max().unwrap();
    println!("{all} questions in {} walks, {beside_needs} not about needs; {most} at most", walks.len());
    assert!(walks.len() >= 90);
    assert!(all <= 3 * walks.len(), "{all} questions in {} walks", walks.len());
    assert!(most < 6, "{most} questions in one walk");
    assert!(beside_needs <= walks.len() / 10, "{beside_needs} questions that are not about needs");
}
