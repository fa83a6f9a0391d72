//! What comes with a request, read strictly; what is wrong with it is told as every other problem is.

use super::problem::Problem;
use axum::extract::{FromRequest, FromRequestParts, Json, Path, Query, Request};
use axum::http::StatusCode;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// The body.
pub(super) struct Given<T>(pub T);

impl<T: DeserializeOwned, S: Send + Sync> FromRequest<S> for Given<T> {
    type Rejection = Problem;

    async fn from_request(request: Request, state: &S) -> Result<Self, Problem> {
        let Json(body) = Json::<Value>::from_request(request, state).await?;
        let wrong = |why: String| Problem::new(StatusCode::UNPROCESSABLE_ENTITY, why);
        if let Some(name) = list_for_object("the body", &body) {
            return Err(wrong(format!("{name} must be an object")));
        }
        serde_json::from_value(body).map(Self).map_err(|error| wrong(error.to_string()))
    }
}

/// What is a list and should be an object, which serde would fill field by field.
fn list_for_object<'a>(name: &'a str, value: &'a Value) -> Option<&'a str> {
    let Value::Object(fields) = value else { return Some(name) };
    let objects = ["command", "dimension", "fields", "measurements", "seen"].into_iter();
    let wrong = objects.filter_map(|name| fields.get(name).and_then(|value| list_for_object(name, value)));
    let parts = fields.get("parts").and_then(Value::as_array).into_iter().flatten();
    wrong.chain(parts.filter_map(|part| list_for_object("each part", part))).next()
}

/// What the path names.
#[derive(FromRequestParts)]
#[from_request(via(Path), rejection(Problem))]
pub(super) struct Named<T>(pub T);

/// What follows the question mark.
#[derive(FromRequestParts)]
#[from_request(via(Query), rejection(Problem))]
pub(super) struct Asked<T>(pub T);

/// Does what may wait for the disk, away from the threads that answer.
pub(super) async fn blocking<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, Problem> + Send + 'static,
) -> Result<T, Problem> {
    let failed =
        |_| Problem::new(StatusCode::INTERNAL_SERVER_ERROR, "something went wrong; nothing was changed");
    tokio::task::spawn_blocking(work).await.map_err(failed)?
}
