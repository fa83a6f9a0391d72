//! Recordings as they were heard: what becomes of misheard words, without hearing anything.
//!
//! `tests/narrations/recogniser` holds the transcripts; its voices, models and noise are told in
//! `tests/narrations/README.md`. Rules, thresholds and the weights of `mishearing` were set with these recordings at
//! hand: what is measured here shows fit, not what a strange recording gets (27 November 2026):
//!
//! | folder | line F1 | quiet lines wrong | look rate | look recall | expected calibration error |
//! |---|---|---|---|---|---|
//! | `quiet/` | 0.685 | 8 of 229 (0.035) | 0.319 | 0.766 | 0.053 |
//! | `noisy/` | 0.759 | 22 of 411 (0.053) | 0.227 | 0.827 | 0.061 |

use super::narrations::{Floor, calibration_error, reaches};
use super::scoring::Score;
use crate::harness::narration;
use eavesdraft::language::rules::Grammar;
use eavesdraft::scope::drafting;
use eavesdraft::speech::read;

/// The score of all recordings of a folder against the labels of what was spoken.
fn score(kind: &str) -> Score {
    let grammar = Grammar::built_in().unwrap();
    let mut score = Score::default();
    for recording in narration::recordings(kind).unwrap() {
        let name = recording.path.display().to_string();
        let transcript = read::transcript(&std::fs::read(recording.transcript()).unwrap(), &name).unwrap();
        let draft = serde_json::to_value(drafting::by_rules(&transcript, &grammar)).unwrap();
        score.add(&name, &recording.spoken.wanted, &draft);
    }
    score
}

#[test]
fn what_harsh_voices_said_becomes_lines() {
    let floor =
        Floor { lines: 0.675, silent_errors: 0.045, look_rate: 0.33, look_recall: 0.75, beside: 0.65 };
    reaches(&score("quiet"), &floor);
}

#[test]
fn what_was_said_in_noise_becomes_lines() {
    let floor = Floor { lines: 0.75, silent_errors: 0.06, look_rate: 0.24, look_recall: 0.81, beside: 0.7 };
    reaches(&score("noisy"), &floor);
}

/// As measured above; both together 0.031: lines heard in noise are on average surer by 0.03 than they should be.
#[test]
fn confidence_is_near_the_share_of_heard_lines_that_are_right() {
    let (quiet, noisy) = (score("quiet").confidence, score("noisy").confidence);
    let both = [quiet.as_slice(), &noisy].concat();
    assert!(both.len() > 1_200, "{}", both.len());
    let errors = [&quiet, &noisy, &both].map(|lines| calibration_error(lines));
    let most = [0.06, 0.07, 0.04];
    let within = errors.iter().zip(most).all(|(error, most)| *error <= most);
    assert!(within, "expected calibration errors {errors:.3?}, bounds {most:?}");
}
