//! Answers that say no: a status, and in the body what was wrong and what to do next.

use crate::office::store::StoreError;
use crate::scope::review::{Entry, Refusal};
use axum::Json;
use axum::extract::rejection::{JsonRejection, PathRejection, QueryRejection};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Serialize;

/// Why a request isn't done.
#[derive(Debug)]
pub(super) struct Problem(Box<Told>);

#[derive(Debug, Serialize)]
struct Told {
    #[serde(skip)]
    status: StatusCode,
    /// In a sentence.
    error: String,
    /// The field that can't be understood.
    #[serde(skip_serializing_if = "Option::is_none")]
    field: Option<&'static str>,
    /// The line, follow-up or dimension that somebody else changed.
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<String>,
    /// As the person would have it.
    #[serde(skip_serializing_if = "Option::is_none")]
    mine: Option<serde_json::Value>,
    /// As it is now.
    #[serde(skip_serializing_if = "Option::is_none")]
    theirs: Option<serde_json::Value>,
}

impl Problem {
    pub fn new(status: StatusCode, error: impl Into<String>) -> Self {
        let error = error.into();
        Self(Box::new(Told { status, error, field: None, line: None, mine: None, theirs: None }))
    }

    pub fn no_recording() -> Self {
        Self::new(StatusCode::NOT_FOUND, "this recording isn't here")
    }

    /// A refused event; `show` gives a line as the page shows it.
    pub fn refused(refusal: Refusal, show: impl Fn(&Entry) -> serde_json::Value) -> Self {
        let status = match refusal {
            Refusal::LineChanged { .. }
            | Refusal::FollowUpChanged { .. }
            | Refusal::DimensionChanged { .. } => StatusCode::CONFLICT,
            Refusal::Unknown(_) | Refusal::NotAsked => StatusCode::NOT_FOUND,
            Refusal::SignedOff(_) => StatusCode::LOCKED,
            Refusal::NotUnderstood { .. }
            | Refusal::StillFlagged(_)
            | Refusal::Invalid(_)
            | Refusal::NothingTo { .. } => StatusCode::UNPROCESSABLE_ENTITY,
        };
        let Self(mut told) = Self::new(status, refusal.to_string());
        match refusal {
            Refusal::LineChanged { id, now, wanted } => {
                told.line = Some(id);
                told.mine = wanted.as_deref().map(&show);
                told.theirs = now.as_deref().map(&show);
            }
            Refusal::FollowUpChanged { id } | Refusal::DimensionChanged { id } => told.line = Some(id),
            Refusal::NotUnderstood { field, .. } => told.field = Some(field),
            _ => {}
        }
        Self(told)
    }
}

impl From<StoreError> for Problem {
    fn from(error: StoreError) -> Self {
        let status = match error.is_busy() {
            true => StatusCode::SERVICE_UNAVAILABLE,
            false => StatusCode::INTERNAL_SERVER_ERROR,
        };
        Self::new(status, error.to_string())
    }
}

impl From<anyhow::Error> for Problem {
    fn from(error: anyhow::Error) -> Self {
        Self::new(StatusCode::INTERNAL_SERVER_ERROR, format!("{error:#}"))
    }
}

impl From<JsonRejection> for Problem {
    fn from(rejection: JsonRejection) -> Self {
        Self::new(rejection.status(), rejection.body_text())
    }
}

impl From<QueryRejection> for Problem {
    fn from(rejection: QueryRejection) -> Self {
        Self::new(rejection.status(), rejection.body_text())
    }
}

impl From<PathRejection> for Problem {
    fn from(rejection: PathRejection) -> Self {
        Self::new(rejection.status(), rejection.body_text())
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let mut response = (self.0.status, Json(&self.0)).into_response();
        let mut tell = |name, value| response.headers_mut().insert(name, HeaderValue::from_static(value));
        match self.0.status {
            StatusCode::SERVICE_UNAVAILABLE => tell(header::RETRY_AFTER, "1"),
            StatusCode::UNAUTHORIZED => tell(header::WWW_AUTHENTICATE, "Bearer"),
            _ => None,
        };
        response
    }
}
