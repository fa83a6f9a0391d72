//! What changed since a draft was accepted, and where to put what it is now.

use similar::TextDiff;
use std::path::{Path, PathBuf};

/// A file that no longer holds what the program gives.
pub struct Change {
    path: PathBuf,
    before: String,
    now: String,
}

/// Compares a file with what it should hold. What differs is written beside it for a person to look at, and over it
/// only where that was asked for: `INSTA_UPDATE` means what it means for snapshots.
pub fn compare(path: &Path, now: String) -> Option<Change> {
    let before = std::fs::read_to_string(path).unwrap_or_default();
    let new = PathBuf::from(format!("{}.new", path.display()));
    let update = std::env::var("INSTA_UPDATE").unwrap_or_default();
    let same = before == now;
    if same || update == "always" {
        let _ = std::fs::remove_file(&new);
    }
    if same {
        return None;
    }
    match update.as_str() {
        "always" => {
            std::fs::write(path, now).unwrap();
            return None;
        }
        "no" => {}
        _ => std::fs::write(new, &now).unwrap(),
    }
    Some(Change { path: path.to_owned(), before, now })
}

impl Change {
    /// The lines that changed: of a page, its rows; of JSON, the fields of its entries.
    pub fn told(&self) -> String {
        let is_json = self.path.extension().is_some_and(|ending| ending == "json");
        let text = |text: &str| if is_json { a_field_a_line(text) } else { text.to_owned() };
        let (before, now) = (text(&self.before), text(&self.now));
        let diff = TextDiff::from_lines(&before, &now);
        let path = self.path.strip_prefix(env!("CARGO_MANIFEST_DIR")).unwrap_or(&self.path);
        format!("{}\n{}", path.display(), diff.unified_diff().context_radius(0))
    }
}

/// Pretty JSON of a draft with each entry on one line, so that a change of one entry changes one line. Nothing but
/// white space is taken out.
pub fn an_entry_a_line(pretty: &str) -> String {
    let mut laid = String::new();
    for line in pretty.lines() {
        let text = line.trim_start();
        let depth = (line.len() - text.len()) / 2;
        let inside = depth > 2 || depth == 2 && text.starts_with(['}', ']']);
        match laid.chars().last() {
            None => laid += line,
            Some(',') if inside => laid += &format!(" {text}"),
            Some(_) if inside => laid += text,
            Some(_) => laid += &format!("\n{line}"),
        }
    }
    laid + "\n"
}

/// The same with each field on a line that tells whose it is.
fn a_field_a_line(laid: &str) -> String {
    let value = |line: &str, name: &str| {
        let (_, from) = line.split_once(&format!("\"{name}\": \""))?;
        Some(from.split('"').next().unwrap_or_default().to_owned())
    };
    let mut fields = String::new();
    for line in laid.lines() {
        let entry = value(line, "quote").map(|quote| format!("“{quote}” ")).unwrap_or_default();
        for field in line.trim().split(", \"") {
            let field = field.trim_start_matches(['{', '"']).replacen("\":", ":", 1);
            fields += &format!("{entry}{field}\n");
        }
    }
    fields
}
