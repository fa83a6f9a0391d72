//! What comes with a request, read strictly; what is wrong with it is told as every other problem is.

use super::problem::Problem;
use axum::extract::{FromRequest, FromRequestParts, Json, Path, Query};
use axum::http::StatusCode;

/// The body.
#[derive(FromRequest)]
#[from_request(via(Json), rejection(Problem))]
pub(super) struct Given<T>(pub T);

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
    let failed = |_| Problem::new(StatusCode::INTERNAL_SERVER_ERROR, "this failed; nothing was changed");
    tokio::task::spawn_blocking(work).await.map_err(failed)?
}
