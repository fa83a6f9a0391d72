//! Recordings: the queue, a scope with its words and history, acts.

use super::ask::{Asked, Given, Named, blocking};
use super::office::{Office, Queued};
use super::problem::Problem;
use super::sound::is_there;
use crate::scope::review::view::{LineView, TaskView};
use crate::scope::review::{Act, Change, Deed, Done, Hand, QuestionView, Seen};
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
pub(super) async fn queue(State(office): State<Arc<Office>>) -> Result<Json<Queue>, Problem> {
    blocking(move || Ok(Json(Queue { recordings: office.queue()? }))).await
}

/// Who looks.
#[derive(Deserialize)]
pub(super) struct Viewer {
    who: Option<String>,
}

/// `GET /api/recordings/{id}`
pub(super) async fn scope(
    State(office): State<Arc<Office>>,
    Named(id): Named<String>,
    Asked(viewer): Asked<Viewer>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        let grammar = office.grammar();
        office.with(&id, |open| {
            let recording = &open.drafted.recording;
            let sound = is_there(recording, &open.drafted.draft);
            let sight = open.sight(&grammar);
            Json(json!(sight.whole(&id, &recording.name, sound, &open.strays, viewer.who.as_deref())))
        })
    })
    .await
}

/// `GET /api/recordings/{id}/words`
pub(super) async fn words(
    State(office): State<Arc<Office>>,
    Named(id): Named<String>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        office.with(&id, |open| {
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

/// `GET /api/recordings/{id}/acts`
pub(super) async fn history(
    State(office): State<Arc<Office>>,
    Named(id): Named<String>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        office.with(&id, |open| {
            let mut undone = std::collections::BTreeSet::new();
            for act in &open.acts {
                match (&act.deed, act.of) {
                    (Deed::Undo {}, Some(of)) => undone.insert(of),
                    (Deed::Redo {}, Some(of)) => undone.remove(&of),
                    _ => false,
                };
            }
            let told = |act: &Act| {
                json!({
                    "number": act.number,
                    "who": act.who,
                    "at": act.at,
                    "told": act.told,
                    "lines": act.changes.iter().filter_map(Change::id).collect::<Vec<_>>(),
                    "undone": undone.contains(&act.number),
                })
            };
            Json(json!({ "acts": open.acts.iter().map(told).collect::<Vec<_>>() }))
        })
    })
    .await
}

/// What a person asks for.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Wish {
    who: String,
    #[serde(default)]
    seen: Seen,
    deed: Deed,
}

/// What came of it.
#[derive(Serialize)]
struct Answer<'a> {
    act: u64,
    lines: Vec<LineView<'a>>,
    gone: Vec<&'a str>,
    todos: Vec<TaskView<'a>>,
    questions: Vec<QuestionView>,
    settled: Option<&'a Done>,
    undo: Option<String>,
    redo: Option<String>,
}

/// `POST /api/recordings/{id}/acts`
pub(super) async fn act(
    State(office): State<Arc<Office>>,
    Named(id): Named<String>,
    Given(wish): Given<Wish>,
) -> Result<Json<Value>, Problem> {
    let who = name(&wish.who)?;
    let hand = Hand { who, at: jiff::Timestamp::now().to_string(), seen: wish.seen };
    blocking(move || {
        office.act(&id, &hand, wish.deed, |open, act, grammar| {
            let sight = open.sight(grammar);
            let [undo, redo] = sight.ahead(Some(&hand.who));
            let ids = || act.changes.iter().filter_map(Change::id);
            let answer = Answer {
                act: act.number,
                lines: ids().filter_map(|id| open.scope.entry(id)).map(|e| sight.line(e)).collect(),
                gone: ids()
                    .filter(|id| open.scope.entry(id).is_none() && open.scope.task(id).is_none())
                    .collect(),
                todos: ids().filter_map(|id| open.scope.task(id)).map(|t| sight.task(t)).collect(),
                questions: sight.questions(),
                settled: open.scope.settled.as_ref(),
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
        return Err(Problem::new(StatusCode::UNPROCESSABLE_ENTITY, "say who you are, in up to 60 letters"));
    }
    Ok(who.to_owned())
}
