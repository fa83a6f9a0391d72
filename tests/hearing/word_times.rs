//! When words begin, against the times that pocketsphinx's test data states for the same recordings.

use super::word_errors::plain;
use eavesdraft::words::{Transcript, Word};
use std::path::Path;

/// A word and when it begins, in seconds.
type Begun = (String, f64);

/// The stated words of a clip.
fn stated(folder: &Path, clip: &str) -> Vec<Begun> {
    let table = std::fs::read_to_string(folder.join("word-times.tsv")).unwrap();
    let rows = table.lines().map(|line| line.split('\t').collect::<Vec<_>>());
    rows.filter(|row| row[0] == clip).map(|row| (row[1].to_owned(), row[2].parse().unwrap())).collect()
}

fn heard(transcript: &Transcript) -> Vec<Begun> {
    let begun = |word: &Word| {
        let start = word.start.unwrap().seconds();
        plain(&word.text).into_iter().map(move |text| (text, start))
    };
    transcript.words().flat_map(begun).collect()
}

/// By how many seconds each word that was heard right begins too early or too late. A word counts as heard
/// where it comes within the next four.
pub fn errors(folder: &Path, clip: &str, transcript: &Transcript) -> Vec<f64> {
    let heard = heard(transcript);
    let mut next = 0;
    let mut errors = Vec::new();
    for (word, start) in stated(folder, clip) {
        let near = &heard[next..heard.len().min(next + 4)];
        if let Some(found) = near.iter().position(|(text, _)| *text == word) {
            errors.push((near[found].1 - start).abs());
            next += found + 1;
        }
    }
    errors
}
