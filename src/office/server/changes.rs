//! News of acts, for every page that is open.

use super::office::Office;
use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use std::convert::Infallible;
use std::sync::Arc;
use tokio_stream::wrappers::BroadcastStream;
use tokio_stream::{Stream, StreamExt};

/// `GET /api/changes`: an event `act` for each act, and `all` where some were missed.
pub(super) async fn changes(
    State(office): State<Arc<Office>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let news = BroadcastStream::new(office.changes.subscribe()).map(|change| {
        Ok(match change {
            Ok(change) => Event::default().event("act").data(serde_json::json!(change).to_string()),
            Err(_) => Event::default().event("all").data("{}"),
        })
    });
    Sse::new(news).keep_alive(KeepAlive::default())
}
