//! News of what people do, for every page that is open.

use super::app_state::AppState;
use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use std::convert::Infallible;
use std::sync::Arc;
use tokio_stream::wrappers::BroadcastStream;
use tokio_stream::{Stream, StreamExt};

/// `GET /api/changes`: an event `change` for each event of a recording, and `all` where some were missed.
pub(super) async fn changes(
    State(app): State<Arc<AppState>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let news = BroadcastStream::new(app.changes.subscribe()).map(|change| {
        Ok(match change {
            Ok(change) => Event::default().event("change").data(serde_json::json!(change).to_string()),
            Err(_) => Event::default().event("all").data("{}"),
        })
    });
    Sse::new(news).keep_alive(KeepAlive::default())
}
