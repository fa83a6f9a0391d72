//! Teaching: a phrase becomes a name of an item in the office's own rules, once the reviewer has seen what that does to
//! the other open drafts; and it can be taken back.

use super::app_state::AppState;
use super::ask::{Given, Named, blocking};
use super::own_words::{Taught, phrase};
use super::problem::Problem;
use super::recordings::name;
use crate::model::{Draft, Line, wording};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

/// What is to be remembered.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Lesson {
    phrase: String,
    item: String,
    who: String,
    /// Only tells what it would change.
    #[serde(default)]
    r#try: bool,
}

/// `POST /api/teach`
pub(super) async fn teach(
    State(app): State<Arc<AppState>>,
    Given(lesson): Given<Lesson>,
) -> Result<Json<Value>, Problem> {
    let who = name(&lesson.who)?;
    blocking(move || {
        let wrong = |why: &str| Problem::new(StatusCode::UNPROCESSABLE_ENTITY, why);
        let phrase = phrase(&lesson.phrase)
            .ok_or_else(|| wrong("a name can have one to six words of letters and digits"))?;
        if app.grammar().item_named(&lesson.item).is_none() {
            return Err(wrong("there is no such item in the catalog"));
        }
        let taught = Taught { phrase, item: lesson.item, who, at: jiff::Timestamp::now().to_string() };
        let told = json!({ "id": taught.id(), "phrase": taught.phrase, "item": taught.item });
        let changes = app.teach(lesson.r#try, |all| {
            if all.iter().any(|other| other.id() == taught.id()) {
                return Err(wrong("this is remembered already"));
            }
            all.push(taught);
            Ok(())
        })?;
        Ok(Json(match lesson.r#try {
            true => json!({ "changes": changes }),
            false => json!({ "changes": changes, "remembered": told }),
        }))
    })
    .await
}

/// `GET /api/teach`
pub(super) async fn taught(State(app): State<Arc<AppState>>) -> Result<Json<Value>, Problem> {
    blocking(move || {
        let told = |taught: &Taught| {
            json!({
                "id": taught.id(),
                "phrase": taught.phrase,
                "item": taught.item,
                "who": taught.who,
                "at": taught.at,
            })
        };
        let all = app.taught()?;
        let remembered: Vec<Value> = all.iter().flatten().map(told).collect();
        Ok(Json(json!({ "can": all.is_some(), "remembered": remembered })))
    })
    .await
}

/// `DELETE /api/teach/{id}`
pub(super) async fn take_back(
    State(app): State<Arc<AppState>>,
    Named(id): Named<String>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        let changes = app.teach(false, |all| {
            let before = all.len();
            all.retain(|taught| taught.id() != id);
            match all.len() < before {
                true => Ok(()),
                false => Err(Problem::new(StatusCode::NOT_FOUND, "this isn't remembered")),
            }
        })?;
        Ok(Json(json!({ "changes": changes })))
    })
    .await
}

/// Why nothing can be taught.
pub(super) fn no_folder() -> Problem {
    Problem::new(
        StatusCode::CONFLICT,
        "the office has no rules of its own: start the review with --grammar FOLDER to save words in that folder",
    )
}

/// Faults of the office's own rules.
pub(super) fn faulty(all: &[Taught], error: impl std::fmt::Display) -> Problem {
    let last = all.last().map(|taught| taught.phrase.as_str()).unwrap_or_default();
    Problem::new(StatusCode::UNPROCESSABLE_ENTITY, format!("“{last}” can't be remembered: {error}"))
}

/// A line that another grammar drafts differently.
#[derive(Debug, serde::Serialize)]
pub(super) struct Redrafted {
    recording: String,
    name: String,
    before: String,
    after: String,
}

/// The lines of a recording that come out differently.
pub(super) fn differences(recording: &str, name: &str, before: &Draft, after: &Draft) -> Vec<Redrafted> {
    let find = |draft: &'_ Draft, id: &str| draft.lines.iter().find(|line| line.id == id).map(told);
    let mut ids: Vec<&str> = before.lines.iter().chain(&after.lines).map(|line| line.id.as_str()).collect();
    ids.sort_unstable();
    ids.dedup();
    let differs = |id: &str| {
        let (was, is) = (find(before, id), find(after, id));
        let no_line = || "no line".to_owned();
        (was != is).then(|| Redrafted {
            recording: recording.to_owned(),
            name: name.to_owned(),
            before: was.unwrap_or_else(no_line),
            after: is.unwrap_or_else(no_line),
        })
    };
    ids.into_iter().filter_map(differs).collect()
}

fn told(line: &Line) -> String {
    let amount = wording::amount(line).unwrap_or_else(|| "no number".to_owned());
    let known = if line.item.is_some() { "" } else { " (not in the catalog)" };
    format!(
        "{amount} {}{known}, {}, {}",
        wording::item_of(line),
        wording::work(line.work),
        wording::side(line.side)
    )
}
