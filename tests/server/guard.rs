//! Who may ask, and what is refused.

use super::{Served, WALK, drafted};
use serde_json::json;

#[test]
fn pages_from_elsewhere_and_strange_names_are_refused() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    assert_eq!(served.get("/api/queue").status, 200);
    let own = served.address.clone();
    for (headers, status) in [
        ([("host", "elsewhere.example")], 403),
        ([("origin", "http://elsewhere.example")], 403),
        ([("origin", "null")], 403),
        ([("sec-fetch-site", "cross-site")], 403),
        ([("origin", own.as_str())], 200),
        ([("sec-fetch-site", "same-origin")], 200),
    ] {
        assert_eq!(served.get_with("/api/queue", &headers).status, status, "{headers:?}");
    }
}

#[test]
fn beyond_this_machine_a_token_is_needed() {
    let desk = drafted(WALK);
    let served = Served::with(&desk, &["--listen", "0.0.0.0:0"]);
    let token = served.token.clone().unwrap();
    assert_eq!(served.get("/api/queue").status, 401);
    assert_eq!(served.get("/api/queue?token=wrong").status, 401);
    assert_eq!(served.get_with("/api/queue", &[("authorization", "Bearer wrong")]).status, 401);
    assert_eq!(served.get_with("/api/queue", &[("authorization", &format!("Bearer {token}"))]).status, 200);
    assert_eq!(served.get(&format!("/api/queue?token={token}")).status, 200);
    let page = served.get("/");
    assert_eq!(page.status, 200);
    assert!(!String::from_utf8(page.body).unwrap().contains(&token));
}

#[test]
fn bodies_that_are_too_large_or_no_json_are_refused() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let events = format!("{}/events", served.recording());
    let json = [("content-type", "application/json")];
    assert_eq!(status_of_a_body_of(&served, &events, 1 << 20), "413");
    assert_eq!(served.post_with(&events, b"{", &json).status, 400);
    assert_eq!(served.post_with(&events, b"{}", &json).status, 422);
    assert_eq!(served.post_with(&events, b"{}", &[("content-type", "text/plain")]).status, 415);
    let unknown = json!({ "who": "Ann", "command": { "do": "explode" } });
    assert_eq!(served.post(&events, &unknown).status, 422);
    for path in
        ["/page/../mod.rs", "/page/..%2f..%2fmod.rs", "/page/%2e%2e/mod.rs", "/nowhere", "/api/recordings/x"]
    {
        let answer = served.get(path);
        assert_eq!(answer.status, 404, "{path}");
        assert!(answer.json()["error"].is_string());
    }
    assert_eq!(served.post("/api/queue", &json!({})).status, 405);
}

/// What is answered to the head of a request alone: a body that is too large is refused before it is sent.
fn status_of_a_body_of(served: &Served, path: &str, bytes: usize) -> String {
    use std::io::{BufRead, BufReader, Write};
    let host = served.address.trim_start_matches("http://");
    let mut asking = std::net::TcpStream::connect(host).unwrap();
    asking.set_read_timeout(Some(std::time::Duration::from_secs(10))).unwrap();
    let head = format!("POST {path} HTTP/1.1\r\nhost: {host}\r\ncontent-type: application/json\r\n");
    write!(asking, "{head}content-length: {bytes}\r\n\r\n").unwrap();
    let mut line = String::new();
    BufReader::new(asking).read_line(&mut line).unwrap();
    line.split(' ').nth(1).unwrap().to_owned()
}

/// Whatever was said and whatever it is called is data, never part of the page.
#[test]
fn hostile_words_stay_words() {
    let hostile = "Front elevation. <script>alert(1)</script> \" ' \u{202e}rtl, replace. Mailbox, replace.";
    let desk = drafted(hostile);
    std::fs::rename(desk.path("walk.txt"), desk.path("a<b>&.txt")).unwrap();
    let run = desk.run(&["draft", "a<b>&.txt"]);
    assert_eq!(run.code, 0, "{}", run.err);
    std::fs::remove_file(desk.path("walk.scope.json")).unwrap();
    let served = Served::over(&desk);
    let recording = served.recording();
    let answer = served.get(&recording);
    assert_eq!(answer.headers["content-type"], "application/json");
    assert_eq!(answer.headers["x-content-type-options"], "nosniff");
    assert_eq!(answer.json()["name"], "a<b>&.txt");
    let page = served.get("/");
    let policy = page.headers["content-security-policy"].to_str().unwrap();
    assert!(policy.starts_with("default-src 'self'") && !policy.contains("unsafe"), "{policy}");
    let document = served.get(&format!("{recording}/documents/work.html"));
    assert!(!String::from_utf8(document.body).unwrap().contains("<script>"));
}
