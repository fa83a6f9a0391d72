//! The page: plain files in the program.

use super::ask::Named;
use super::problem::Problem;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};

/// The page's files: inside the program where it is optimised; read from the folder in a debug build, so that the page
/// can be worked on without compiling anything.
#[derive(rust_embed::Embed)]
#[folder = "src/office/server/web/"]
struct Web;

/// `GET /`
pub(super) async fn index() -> Result<Response, Problem> {
    file("index.html")
}

/// `GET /page/{name}`
pub(super) async fn named(Named(name): Named<String>) -> Result<Response, Problem> {
    file(&name)
}

/// `GET /api/openapi.json`: this interface, described.
pub(super) async fn description() -> Response {
    ([(header::CONTENT_TYPE, "application/json")], include_str!("openapi.json")).into_response()
}

fn file(name: &str) -> Result<Response, Problem> {
    let file = Web::get(name).ok_or_else(|| Problem::new(StatusCode::NOT_FOUND, "no such page"))?;
    let kind = match name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("svg") => "image/svg+xml",
        _ => "application/octet-stream",
    };
    Ok(([(header::CONTENT_TYPE, kind)], file.data).into_response())
}
