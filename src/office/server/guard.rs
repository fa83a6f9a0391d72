//! Who may ask: only the page itself, on this machine, or whoever has the token where the server listens beyond it.

use super::problem::Problem;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use sha2::{Digest, Sha256};
use std::net::{IpAddr, SocketAddr};
use std::sync::Arc;

/// What a request is judged by.
#[derive(Debug)]
pub(super) struct Guard {
    /// The names the page may be reached by; any where the server listens beyond this machine.
    hosts: Option<Vec<String>>,
    /// The SHA-256 of the token, where one is needed.
    token: Option<[u8; 32]>,
}

impl Guard {
    /// For a server that listens there, with that token.
    pub fn new(listens: SocketAddr, token: Option<&str>) -> Self {
        let port = listens.port();
        let names = |ip: IpAddr| {
            let own = match ip {
                IpAddr::V4(ip) => format!("{ip}:{port}"),
                IpAddr::V6(ip) => format!("[{ip}]:{port}"),
            };
            let names = [own, format!("localhost:{port}")];
            // Browsers leave the usual port out.
            let bare = names.iter().filter_map(|name| name.strip_suffix(":80").map(str::to_owned));
            bare.chain(names.clone()).collect()
        };
        Self {
            hosts: listens.ip().is_loopback().then(|| names(listens.ip())),
            token: token.map(|token| Sha256::digest(token).into()),
        }
    }

    fn judge(&self, request: &Request) -> Result<(), Problem> {
        let headers = request.headers();
        let host = text(headers, header::HOST).unwrap_or_default();
        // A page elsewhere whose name was made to point here is told by its name.
        if self.hosts.as_ref().is_some_and(|hosts| !hosts.iter().any(|name| name == host)) {
            return Err(Problem::new(StatusCode::FORBIDDEN, "this page can only be opened on this computer"));
        }
        let origin = headers.get(header::ORIGIN);
        if origin.is_some_and(|origin| origin != format!("http://{host}").as_str()) {
            return Err(Problem::new(StatusCode::FORBIDDEN, "requests from other pages aren't allowed"));
        }
        let site = headers.get("sec-fetch-site");
        let opens_page = request.uri().path() == "/";
        if site.is_some_and(|site| site != "same-origin" && site != "none") && !opens_page {
            return Err(Problem::new(StatusCode::FORBIDDEN, "requests from other pages aren't allowed"));
        }
        // Said before the body is sent: who waits for an answer needn't send it.
        let length = text(headers, header::CONTENT_LENGTH).and_then(|length| length.parse::<u64>().ok());
        if length.is_some_and(|length| length > super::LARGEST_BODY as u64) {
            return Err(Problem::new(StatusCode::PAYLOAD_TOO_LARGE, "the request is too large"));
        }
        let private = request.uri().path().starts_with("/api/");
        if private && self.token.is_some() && !self.knows(request) {
            return Err(Problem::new(
                StatusCode::UNAUTHORIZED,
                "a token is needed: open the address that was printed when the review started",
            ));
        }
        Ok(())
    }

    /// Whether the request carries the token. Digests are compared, so that the time it takes tells nothing.
    fn knows(&self, request: &Request) -> bool {
        let header = text(request.headers(), header::AUTHORIZATION).and_then(|h| h.strip_prefix("Bearer "));
        let query = request.uri().query().unwrap_or_default();
        let in_query = query.split('&').find_map(|pair| pair.strip_prefix("token="));
        let given = header.or(in_query).map(|token| <[u8; 32]>::from(Sha256::digest(token)));
        given.is_some() && given == self.token
    }
}

fn text(headers: &HeaderMap, name: HeaderName) -> Option<&str> {
    headers.get(name).and_then(|value| value.to_str().ok())
}

/// Judges every request, and tells the browser what the page may do.
pub(super) async fn guard(State(guard): State<Arc<Guard>>, request: Request, next: Next) -> Response {
    let mut response = match guard.judge(&request) {
        Ok(()) => next.run(request).await,
        Err(problem) => problem.into_response(),
    };
    let headers = response.headers_mut();
    let mut tell = |name: HeaderName, value: &'static str| {
        headers.entry(name).or_insert(HeaderValue::from_static(value));
    };
    tell(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    tell(header::REFERRER_POLICY, "no-referrer");
    tell(header::X_FRAME_OPTIONS, "DENY");
    tell(header::CACHE_CONTROL, "no-store");
    tell(
        header::CONTENT_SECURITY_POLICY,
        "default-src 'self'; img-src 'self' data:; media-src 'self' blob:; frame-ancestors 'none'; base-uri 'none'; \
         form-action 'self'",
    );
    response
}
