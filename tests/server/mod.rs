//! The review page's server, asked as a browser asks it.

pub mod clips;
mod guard;
mod interface;
mod killed;
mod many;
mod page;
mod questions;
mod takeoff;

use crate::harness::Desk;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};

/// A walk with a line of each kind that has to be reviewed.
pub const WALK: &str = "Front elevation. Two coach lights, detach and reset. There's a hose reel here. Gutter, eleven \
                        foot, no wait, seven foot, replace. If the window wrap is dented, replace it. Right elevation. \
                        Gas meter, detach and reset. Get a photo of it.";

/// A server over a folder; it ends with the test.
pub struct Served {
    child: Child,
    /// Where it answers, without a slash at the end.
    pub address: String,
    /// The token that it wants, if any.
    pub token: Option<String>,
    agent: ureq::Agent,
}

/// An answer.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    pub body: Vec<u8>,
    pub headers: ureq::http::HeaderMap,
}

impl Answer {
    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.body)
            .unwrap_or_else(|e| panic!("{e}: {}", String::from_utf8_lossy(&self.body)))
    }
}

impl Served {
    /// Over a folder, at a port that is free.
    pub fn over(desk: &Desk) -> Self {
        Self::with(desk, &[])
    }

    pub fn with(desk: &Desk, args: &[&str]) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_eavesdraft"))
            .args(["review", ".", "--no-browser"])
            .args(args)
            .current_dir(desk.path(""))
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let (address, token) = match line.trim().split_once("#token=") {
            Some((address, token)) => (address, Some(token.to_owned())),
            None => (line.trim(), None),
        };
        assert!(address.starts_with("http://"), "no address was printed: {line:?}");
        let address = address.trim_end_matches('/').replace("0.0.0.0", "127.0.0.1");
        let config = ureq::Agent::config_builder().http_status_as_error(false).build();
        Self { child, address, token, agent: config.into() }
    }

    pub fn get(&self, path: &str) -> Answer {
        self.get_with(path, &[])
    }

    pub fn get_with(&self, path: &str, headers: &[(&str, &str)]) -> Answer {
        let mut request = self.agent.get(format!("{}{path}", self.address));
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        answer(request.call().unwrap())
    }

    pub fn post(&self, path: &str, body: &Value) -> Answer {
        self.post_with(path, body.to_string().as_bytes(), &[("content-type", "application/json")])
    }

    pub fn post_with(&self, path: &str, body: &[u8], headers: &[(&str, &str)]) -> Answer {
        let mut request = self.agent.post(format!("{}{path}", self.address));
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        answer(request.send(body).unwrap())
    }

    /// The address of the only recording.
    pub fn recording(&self) -> String {
        let queue = self.get("/api/queue").json();
        format!("/api/recordings/{}", queue["recordings"][0]["id"].as_str().unwrap())
    }

    /// The line of an item, as the page gets it.
    pub fn line(&self, recording: &str, item: &str) -> Value {
        let scope = self.get(recording).json();
        let found =
            scope["lines"].as_array().unwrap().iter().find(|line| line["line"]["item"] == item).cloned();
        found.unwrap_or_else(|| panic!("no {item} in {scope:#}"))
    }

    /// Somebody does something to a line, as it is now.
    pub fn send(&self, recording: &str, who: &str, seen: &Value, command: &Value) -> Answer {
        self.post(&format!("{recording}/events"), &json!({ "who": who, "seen": seen, "command": command }))
    }

    /// Ends it as a power cut does.
    pub fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn answer(response: ureq::http::Response<ureq::Body>) -> Answer {
    let (parts, mut body) = response.into_parts();
    let body = body.with_config().limit(64 << 20).read_to_vec().unwrap();
    Answer { status: parts.status.as_u16(), headers: parts.headers, body }
}

/// A folder with that walk, drafted.
pub fn drafted(words: &str) -> Desk {
    let desk = Desk::with([("walk.txt", words.as_bytes())]);
    let run = desk.run(&["draft", "walk.txt"]);
    assert_eq!(run.code, 0, "{}", run.err);
    desk
}
