//! The papers of a recording, made as they are asked for, and its takeoff.

use super::app_state::{AppState, Open};
use super::ask::{Named, blocking};
use super::problem::Problem;
use crate::language::rules::Grammar;
use crate::output::{Beside, Job, KINDS, Kind};
use crate::scope::review::dimension_versions;
use crate::scope::takeoff::view::TakeoffView;
use axum::Json;
use axum::extract::State;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use percent_encoding::{NON_ALPHANUMERIC, utf8_percent_encode};
use serde_json::{Value, json};
use std::sync::Arc;

/// What a paper may do in a browser: nothing but show itself.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

fn job<'a>(open: &'a Open, grammar: &'a Grammar) -> Job<'a> {
    Job::new(&open.drafted.draft, &open.scope, &open.events, grammar)
}

/// `GET /api/recordings/{id}/documents`
pub(super) async fn documents(
    State(app): State<Arc<AppState>>,
    Named(id): Named<String>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        app.with(&id, |open| {
            let there = KINDS.into_iter().filter(|kind| kind.is_made_of(&open.drafted.draft));
            let href = |kind: Kind| format!("/api/recordings/{id}/documents/{}", kind.ending());
            let all: Vec<Value> =
                there.map(|kind| json!({ "name": kind.says(), "href": href(kind) })).collect();
            Json(json!({ "documents": all }))
        })
    })
    .await
}

/// `GET /api/recordings/{id}/documents/{ending}`
pub(super) async fn document(
    State(app): State<Arc<AppState>>,
    Named((id, ending)): Named<(String, String)>,
) -> Result<Response, Problem> {
    let none = || Problem::new(StatusCode::NOT_FOUND, "no such document");
    let kind = KINDS.into_iter().find(|kind| kind.ending() == ending).ok_or_else(none)?;
    let (paper, property) = blocking(move || {
        let grammar = app.grammar();
        let made = app.with(&id, |open| {
            let job = job(open, &grammar);
            kind.paper(&job, &Beside::default()).map(|paper| (paper, job.property().to_owned()))
        })?;
        Ok(made?)
    })
    .await?;
    let paper = paper.ok_or_else(none)?;
    let name = utf8_percent_encode(&property, NON_ALPHANUMERIC);
    let how = if kind.is_shown() { "inline" } else { "attachment" };
    let disposition = format!("{how}; filename*=UTF-8''{name}.{}", kind.ending());
    let headers = [
        (header::CONTENT_TYPE, HeaderValue::from_static(kind.media())),
        (header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY)),
    ];
    let mut response = (headers, paper.bytes).into_response();
    if let Ok(disposition) = HeaderValue::try_from(disposition) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, disposition);
    }
    Ok(response)
}

/// `GET /api/recordings/{id}/takeoff`
pub(super) async fn takeoff(
    State(app): State<Arc<AppState>>,
    Named(id): Named<String>,
) -> Result<Json<Value>, Problem> {
    blocking(move || {
        let grammar = app.grammar();
        app.with(&id, |open| {
            let now = open.scope.draft(&open.drafted.draft);
            let touched = dimension_versions(&open.events);
            Json(json!(TakeoffView::of(&now, &grammar, open.scope.version, &touched)))
        })
    })
    .await
}
