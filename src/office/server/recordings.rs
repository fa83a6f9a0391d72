//! Recordings: the queue, a scope with its words and history, events.

use super::app_state::{AppState, Queued};
use super::ask::{Asked, Given, Named, blocking};
use super::problem::Problem;
use super::sound::is_there;
use crate::scope::review::view::{FollowUpView, LineView};
use crate::scope::review::{Actor, Change, Command, Event, QuestionView, Seen, SignOff};
use axum::Json;
use axum::extract::State;
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use std::sync::Arc;

/// The longest name of a person, in letters.
const LONGEST_NAME: usize = 60;

#[derive(Serialize)]
pub(super) struct Queue {
    recordings: Vec<Queued>,
}

/// `GET /api/queue`
pub(super) async fn queue(State(app): State<Arc<AppState>>) -> Result<Json<Queue>, Problem> {
    blocking(move || Ok(Json(Queue { recordings: app.queue()? }))).await
}

/// Who looks.
#[derive(Deserialize)]
pub(super) struct Viewer {
    who: Option<String>,
}

/// `GET /api/recordings/{id}`
pub(super) async fn scope(
    State(app): State<Arc<AppState>>,
    Named(id): Named<String>,
    Asked(viewer): Asked<Viewer>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        let grammar = app.grammar();
        app.with(&id, |open| {
            let recording = &open.drafted.recording;
            let sound = is_there(recording, &open.drafted.draft);
            let views = open.views(&grammar);
            Json(json!(views.whole(&id, &recording.name, sound, &open.strays, viewer.who.as_deref())))
        })
    })
    .await
}

/// `GET /api/recordings/{id}/words`
pub(super) async fn words(
    State(app): State<Arc<AppState>>,
    Named(id): Named<String>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        app.with(&id, |open| {
            let transcript = &open.drafted.transcript;
            let mut first = 0;
            let mut utterances = Vec::new();
            for utterance in &transcript.utterances {
                utterances.push(first);
                first += utterance.words.len();
            }
            let words: Vec<Value> =
                transcript.words().map(|w| json!([w.text, w.start, w.end, w.probability])).collect();
            Json(json!({ "utterances": utterances, "words": words }))
        })
    })
    .await
}

/// `GET /api/recordings/{id}/events`
pub(super) async fn history(
    State(app): State<Arc<AppState>>,
    Named(id): Named<String>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        app.with(&id, |open| {
            let mut undone = std::collections::BTreeSet::new();
            for event in &open.events {
                match (&event.command, event.of) {
                    (Command::Undo {}, Some(of)) => undone.insert(of),
                    (Command::Redo {}, Some(of)) => undone.remove(&of),
                    _ => false,
                };
            }
            let told = |event: &Event| {
                json!({
                    "number": event.number,
                    "who": event.who,
                    "at": event.at,
                    "summary": event.summary,
                    "lines": event.changes.iter().filter_map(Change::id).collect::<Vec<_>>(),
                    "undone": undone.contains(&event.number),
                })
            };
            Json(json!({ "events": open.events.iter().map(told).collect::<Vec<_>>() }))
        })
    })
    .await
}

/// What a person asks for.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Request {
    who: String,
    #[serde(default)]
    seen: Seen,
    command: Command,
}

/// What came of it.
#[derive(Serialize)]
struct Answer<'a> {
    event: u64,
    lines: Vec<LineView<'a>>,
    gone: Vec<&'a str>,
    follow_ups: Vec<FollowUpView<'a>>,
    questions: Vec<QuestionView>,
    signed_off: Option<&'a SignOff>,
    undo: Option<String>,
    redo: Option<String>,
}

/// `POST /api/recordings/{id}/events`
pub(super) async fn event(
    State(app): State<Arc<AppState>>,
    Named(id): Named<String>,
    Given(request): Given<Request>,
) -> Result<Json<Value>, Problem> {
    let who = name(&request.who)?;
    let actor = Actor { who, at: jiff::Timestamp::now().to_string(), seen: request.seen };
    blocking(move || {
        app.event(&id, &actor, request.command, |open, event, grammar| {
            let views = open.views(grammar);
            let [undo, redo] = views.ahead(Some(&actor.who));
            let ids = || event.changes.iter().filter_map(Change::id);
            let answer = Answer {
                event: event.number,
                lines: ids().filter_map(|id| open.scope.entry(id)).map(|e| views.line(e)).collect(),
                gone: ids()
                    .filter(|id| open.scope.entry(id).is_none() && open.scope.follow_up(id).is_none())
                    .collect(),
                follow_ups: ids()
                    .filter_map(|id| open.scope.follow_up(id))
                    .map(|entry| views.follow_up(entry))
                    .collect(),
                questions: views.questions(),
                signed_off: open.scope.signed_off.as_ref(),
                undo,
                redo,
            };
            Json(json!(answer))
        })
    })
    .await
}

pub(super) fn name(who: &str) -> Result<String, Problem> {
    let who = who.trim();
    if who.is_empty() || who.chars().count() > LONGEST_NAME || who.chars().any(char::is_control) {
        return Err(Problem::new(StatusCode::UNPROCESSABLE_ENTITY, "type your name, in up to 60 characters"));
    }
    Ok(who.to_owned())
}
