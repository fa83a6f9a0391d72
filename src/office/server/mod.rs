//! The review page and its server: one page, and the interface that it speaks, described in `openapi.json`.
//!
//! Takes a store that holds drafts, and answers on an address of this machine until it is told to stop. Every change a
//! person makes goes through `review` and is in the store before the answer leaves.

mod app_state;
mod ask;
mod catalogue;
mod changes;
mod documents;
mod guard;
mod own_words;
mod page;
mod problem;
mod recordings;
mod sound;
mod teach;

use crate::language::rules::Grammar;
use crate::office::store::Store;
use app_state::AppState;
use axum::extract::DefaultBodyLimit;
use axum::http::StatusCode;
use axum::routing::{delete, get, post};
use axum::{Router, middleware};
use guard::Guard;
use own_words::OwnWords;
use problem::Problem;
use std::path::PathBuf;
use std::sync::Arc;
use tokio::net::TcpListener;

/// The port that the page has on this machine unless another is asked for, or it is taken: other pages link there.
pub const USUAL_PORT: u16 = 28470;

/// The largest body that is read, in bytes.
const LARGEST_BODY: usize = 256 << 10;

/// What is served.
pub struct Review {
    /// The words, drafts and events.
    pub store: Store,
    /// The rules that typed values are read by.
    pub grammar: Grammar,
    /// The office's own folder of rules, which words are taught to; none where it has none.
    pub own_rules: Option<PathBuf>,
    /// The recordings that are shown, by id, in the order they are listed.
    pub shown: Vec<String>,
    /// What a request must carry where the server listens beyond this machine.
    pub token: Option<String>,
}

/// Serves until it is dropped.
///
/// # Errors
/// Where the listener fails.
pub async fn serve(review: Review, listener: TcpListener) -> std::io::Result<()> {
    let guard = Arc::new(Guard::new(listener.local_addr()?, review.token.as_deref()));
    let app = Arc::new(AppState::new(
        review.store,
        review.grammar,
        review.own_rules.map(OwnWords::new),
        review.shown,
    ));
    axum::serve(listener, router(app, guard)).await
}

fn router(app: Arc<AppState>, guard: Arc<Guard>) -> Router {
    Router::new()
        .route("/", get(page::index))
        .route("/page/{name}", get(page::named))
        .route("/api/openapi.json", get(page::description))
        .route("/api/queue", get(recordings::queue))
        .route("/api/recordings/{id}", get(recordings::scope))
        .route("/api/recordings/{id}/words", get(recordings::words))
        .route("/api/recordings/{id}/events", get(recordings::history).post(recordings::event))
        .route("/api/recordings/{id}/sound", get(sound::sound))
        .route("/api/recordings/{id}/documents", get(documents::documents))
        .route("/api/recordings/{id}/documents/{ending}", get(documents::document))
        .route("/api/recordings/{id}/takeoff", get(documents::takeoff))
        .route("/api/catalogue", get(catalogue::catalogue))
        .route("/api/read", post(catalogue::read))
        .route("/api/teach", get(teach::taught).post(teach::teach))
        .route("/api/teach/{id}", delete(teach::take_back))
        .route("/api/changes", get(changes::changes))
        .fallback(|| async { Problem::new(StatusCode::NOT_FOUND, "there is nothing at this address") })
        .method_not_allowed_fallback(|| async {
            Problem::new(StatusCode::METHOD_NOT_ALLOWED, "this address doesn't take that kind of request")
        })
        .with_state(app)
        .layer(DefaultBodyLimit::max(LARGEST_BODY))
        .layer(middleware::from_fn_with_state(guard, guard::guard))
}
