//! A question about the house as the page gets it: its answers are commands, ready to be sent.

use super::choices::Choice;
use super::command::Command;
use crate::model::{Side, wording};
use crate::scope::questions::{Kind, Missing, Question, With};
use serde::Serialize;

/// A question.
#[derive(Debug, Serialize)]
pub struct QuestionView {
    id: String,
    kind: Kind,
    structure: String,
    side: Side,
    place: String,
    asks: String,
    /// The rule that asks.
    rule: String,
    source: String,
    lines: Vec<String>,
    answers: Vec<Choice>,
    missing: Vec<MissingView>,
}

/// Something that was not mentioned.
#[derive(Debug, Serialize)]
pub struct MissingView {
    item: String,
    name: String,
    answers: Vec<Choice>,
}

impl QuestionView {
    /// One of a question.
    pub fn of(question: Question) -> Self {
        let (answers, missing) = (answers(&question), missing(&question));
        let place = question.place();
        let Question { id, kind, structure, side, asks, lines, ground, .. } = question;
        let (rule, source) = (ground.says, ground.source);
        Self { id, kind, structure, side, place, asks, rule, source, lines, answers, missing }
    }
}

fn choice(question: &Question, label: impl Into<String>, hint: impl Into<String>, with: With) -> Choice {
    let command = Command::Answer { question: question.id.clone(), with };
    Choice { label: label.into(), hint: hint.into(), command }
}

fn answers(question: &Question) -> Vec<Choice> {
    let readings = question.readings.iter().enumerate();
    let mut all: Vec<Choice> =
        readings.map(|(at, r)| choice(question, &r.label, &r.hint, With::Reading(at))).collect();
    if !question.missing.is_empty() {
        let items = question.missing.iter().map(|missing| missing.item.clone()).collect();
        all.push(choice(question, "none of these", "the question is closed", With::None(items)));
    }
    all
}

fn missing(question: &Question) -> Vec<MissingView> {
    let view = |missing: &Missing| MissingView {
        item: missing.item.clone(),
        name: missing.name.clone(),
        answers: vec![
            choice(question, "none", "there is none", With::None(vec![missing.item.clone()])),
            choice(
                question,
                "add",
                format!("a line is added: {}", wording::work(Some(missing.work))),
                With::Add(missing.item.clone()),
            ),
        ],
    };
    question.missing.iter().map(view).collect()
}
