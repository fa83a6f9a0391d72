//! How much a reviewer is asked: a question too many costs more than it finds.

use super::asked;
use crate::harness::narration::narrations;
use eavesdraft::scope::questions::{Kind, Question};

/// What is measured here is told in docs/accuracy.md.
#[test]
fn a_walk_brings_up_few_questions() {
    let narrations = ["clean", "captions"].into_iter().flat_map(|kind| narrations(kind).unwrap());
    let walks: Vec<(String, Vec<Question>)> =
        narrations.map(|walk| (walk.path.display().to_string(), asked(&walk.text))).collect();
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
