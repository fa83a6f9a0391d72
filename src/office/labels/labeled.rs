//! A recording's words with the scope that was signed off: a labeled narration, as `training/` reads it.

use super::Signed;
use crate::scope::review::LineState;
use serde_json::{Value, json};

/// Fields of a line that are labels.
const LINE: [&str; 9] = ["structure", "side", "item", "work", "quantity", "unit", "size", "only_if", "quote"];
const CLEARED: [&str; 4] = ["structure", "side", "item", "quote"];
const FOLLOW_UP: [&str; 5] = ["kind", "structure", "side", "item", "quote"];
const DIMENSION: [&str; 6] = ["structure", "side", "shape", "width_ft", "height_ft", "quote"];

/// The labeled narration. `told` are the words to be shown in place of those that were said, one for one.
///
/// Lines that a person wrote without words are left out: nobody said them. What was cleared, what is to be followed up and
/// what was measured stands as drafted.
pub fn labeled(signed: &Signed, told: &[String]) -> Value {
    let said: Vec<&str> = signed.drafted.transcript.words().map(|word| word.text.as_str()).collect();
    let entries = signed.scope.entries.iter();
    let lines = entries.filter(|entry| entry.state != LineState::Dropped && entry.line.words.is_some());
    let draft = &signed.drafted.draft;
    let labels = json!({
        "lines": lines.map(|entry| label(&json!(entry.line), &LINE, &said, told)).collect::<Vec<_>>(),
        "no_work": draft.no_work.iter().map(|x| label(&json!(x), &CLEARED, &said, told)).collect::<Vec<_>>(),
        "follow_ups": draft.follow_ups.iter().map(|x| label(&json!(x), &FOLLOW_UP, &said, told)).collect::<Vec<_>>(),
        "dimensions": draft.dimensions.iter().map(|x| label(&json!(x), &DIMENSION, &said, told)).collect::<Vec<_>>(),
    });
    let id = signed.drafted.recording.id.chars().take(12).collect::<String>();
    json!({ "id": id, "author": "office", "kind": "unread", "text": told.join(" "), "labels": labels })
}

fn label(all: &Value, fields: &[&str], said: &[&str], told: &[String]) -> Value {
    let value = |field: &str| match (field, all[field].as_str()) {
        ("quote", Some(quote)) => json!(in_told(quote, said, told)),
        _ => all[field].clone(),
    };
    fields.iter().map(|field| ((*field).to_owned(), value(field))).collect::<serde_json::Map<_, _>>().into()
}

/// A quotation in the words to be shown; none where its words aren't found, since it may hold what was struck out.
fn in_told(quote: &str, said: &[&str], told: &[String]) -> Option<String> {
    let words: Vec<&str> = quote.split_whitespace().collect();
    let at = said.windows(words.len().max(1)).position(|window| window == words);
    at.map(|at| told[at..at + words.len()].join(" "))
}
