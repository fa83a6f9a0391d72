//! When words begin, against the times that pocketsphinx's test data states for the same recordings.

use super::word_errors::plain;
use eavesdraft::speech::sound::{RATE, Recording};
use eavesdraft::speech::{Transcript, Word};
use std::path::Path;

/// A word and when it begins, in seconds.
pub type Begun = (String, f64);

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

/// All clips as one recording, and when each stated word of it begins.
pub fn one_behind_the_other(folder: &Path) -> (Vec<f64>, Vec<Begun>) {
    let (mut samples, mut begins) = (Vec::new(), Vec::new());
    for (n, clip) in ["reading-1", "reading-2", "reading-3", "reading-4", "reading-5"].into_iter().enumerate()
    {
        let start = samples.len() as f64 / RATE as f64;
        begins.extend(stated(folder, clip).into_iter().map(|(word, at)| (word, start + at)));
        let mut recording = Recording::open(&folder.join(format!("{clip}.flac"))).unwrap();
        while let Some(block) = recording.next_block().unwrap() {
            samples.extend(block.iter().map(|sample| f64::from(*sample)));
        }
        let pause = [0.5, 9.0, 1.2, 4.0, 2.5][n];
        samples.extend(std::iter::repeat_n(0.0, (pause * RATE as f64) as usize));
    }
    (samples, begins)
}

/// By how many seconds each word of a clip that was heard right begins too early or too late.
pub fn errors(folder: &Path, clip: &str, transcript: &Transcript) -> Vec<f64> {
    errors_in(&stated(folder, clip), transcript)
}

/// The same for words of which it is known when they begin. A word counts as heard where it comes within the next
/// four.
pub fn errors_in(begins: &[Begun], transcript: &Transcript) -> Vec<f64> {
    let heard = heard(transcript);
    let mut next = 0;
    let mut errors = Vec::new();
    for (word, start) in begins {
        let near = &heard[next..heard.len().min(next + 4)];
        if let Some(found) = near.iter().position(|(text, _)| text == word) {
            errors.push((near[found].1 - start).abs());
            next += found + 1;
        }
    }
    errors
}
